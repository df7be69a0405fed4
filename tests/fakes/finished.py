"""Panels that are hard all over, and zones worked by acts alone: what tests of finishing begin with."""

import pytest

from bench.book import Clock, Store
from bench.job.acts import cure, dry, grouting, opening, zoning
from bench.job.advice import advise
from bench.job.job import Job
from tests.fakes import drawings
from tests.fakes.benches import set_section
from tests.fakes.drawings import grid_svg

GREY, RED, BLUE = (205, 203, 198), (160, 48, 42), (58, 88, 138)


def set_all(job: Job) -> None:
    """Set every section by following the advice; the last is still soft."""
    for _ in range(200):
        advice = advise(job)
        if advice.section is None:
            if all(s.stage == "set" for s in job.state.sections.values()):
                return
            job.clock.advance(3600)
            continue
        set_section(job, advice.section, minutes=12)
        opening.divide_anew(job)
    raise AssertionError("the panel was never set")


def harden(job: Job) -> None:
    """Let every section be hard."""
    set_all(job)
    job.clock.advance(40 * 24 * 3600)


def hard_at_once(job: Job) -> None:
    """Set all in one go, the hurried way: each section tried by hand and said to be hard."""
    for number in sorted(job.state.sections):
        if job.section(number).stage == "drawn":
            dry.lay(job, number)
        set_section(job, number, minutes=5)
        cure.confirm_cure(job, number, "hard")


def hard_panel(store: Store, clock: Clock) -> Job:
    """Open a panel of 12 × 6 pieces that is hard all over."""
    job = opening.open_panel(store, clock, grid_svg(12, 6), "grid.svg")
    hard_at_once(job)
    return job


def two_coloured(store: Store, clock: Clock) -> Job:
    """Open a panel of 12 × 6 pieces, blue on the left and yellow on the right, of which nothing is set."""
    svg = grid_svg(12, 6, colour=lambda c, r: drawings.BLUE if c < 6 else drawings.YELLOW)
    return opening.open_panel(store, clock, svg, "grid.svg")


def grout_zone(job: Job, number: int, *, powder_g=100.0, water_g=31.0, lot: str = "") -> None:
    """Mask where needed, read the cautions, and grout."""
    if grouting.unlike_beside(job, number) and not job.state.finish.zones[number].masked:
        grouting.mask(job, number)
    grouting.read_cautions(job, number)
    grouting.grout(job, number, powder_g=powder_g, water_g=water_g, lot=lot)


def whole_panel(job: Job, name: str = "pale grey", colour=GREY) -> int:
    """Choose one grout for the whole panel; return its zone."""
    return zoning.choose_grout(job, 0, name, colour)


def refused(job, fault, act, *args, match=None, **kwargs):
    """See that an act is refused in one line, and leaves no trace in the book."""
    seq = job.store.last_seq(job.panel_id)
    with pytest.raises(fault, match=match) as told:
        act(job, *args, **kwargs)
    assert "\n" not in str(told.value)
    assert told.value.todo
    assert job.store.last_seq(job.panel_id) == seq
    return told.value
