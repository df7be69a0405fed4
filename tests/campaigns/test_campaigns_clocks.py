"""The campaign with the clock in short: every stage with everything that happens to a clock, one by one."""

import pytest

from tests.campaigns.clocks import HAPPENINGS, STAGES, Figures, case


@pytest.mark.parametrize("stage", STAGES)
def test_no_more_time_is_shown_than_is_left_whatever_happens_to_the_clock(stage):
    figures = Figures()
    for name in HAPPENINGS:
        case(stage, (name,), reopens=True, marks=False, figures=figures)
    assert figures.wrong == []
    assert figures.cases == len(HAPPENINGS)
    assert figures.unsure > 0


@pytest.mark.parametrize(
    "names", [("restart", "set back ten years"), ("boot clock gone", "restart"), ("boot id gone", "restart")]
)
def test_what_was_not_known_once_stays_so(names):
    figures = Figures()
    case("running", names, reopens=True, marks=True, figures=figures)
    assert figures.wrong == []
    assert figures.unsure == figures.looks
