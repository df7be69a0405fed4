"""Figures of finishing: what the maker enters is kept for the panel, and what cannot be is refused."""

import pytest

from bench.adhesive.product_file import find_product
from bench.job import finishing
from bench.job.acts.opening import open_panel
from bench.job.faults import FigureOutOfRange
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg


@pytest.fixture
def job(store):
    return open_panel(store, FakeClock(), grid_svg(10, 10), "grid.svg")  # 70 × 70 mm, pieces of 6.2 mm


def test_a_panel_is_reckoned_with_3_mm_glass_and_without_a_board_until_it_is_told_more(job):
    """49 cm² of panel, 38.44 of glass; the bed 0.8 mm of the white paste under all of it."""
    found = finishing.finishing(job)
    assert (found.glass_mm, found.depth_mm, found.backer_kg_per_m2) == (3.0, 2.0, None)
    assert found.grout.powder_g == pytest.approx((49 - 38.44) * 0.2 * 1.6 * 1.1, rel=1e-4)
    assert found.weight.glass_g == pytest.approx(38.44 * 0.3 * 2.5, rel=1e-4)
    paste = find_product("white-paste").mixed_density_g_per_cm3
    assert found.weight.bed_g == pytest.approx(49 * 0.08 * paste, rel=1e-4)
    assert found.weight.backer_g == 0


def test_what_is_entered_is_kept_for_this_panel_alone(store, job):
    other = open_panel(store, FakeClock(), grid_svg(4, 4), "small.svg")
    finishing.set_glass_mm(job, 4.0)
    finishing.set_backer_kg_per_m2(job, 12.0)
    found = finishing.finishing(job)
    assert (found.depth_mm, found.weight.backer_g) == (3.0, pytest.approx(49 * 1.2))
    assert finishing.finishing(other).glass_mm == 3.0


@pytest.mark.parametrize("wrong", [-1.0, 1e9, float("nan")])
def test_what_cannot_be_is_refused_and_changes_nothing(job, wrong):
    before = finishing.finishing(job)
    with pytest.raises(FigureOutOfRange, match="cannot be; give"):
        finishing.set_glass_mm(job, wrong)
    with pytest.raises(FigureOutOfRange, match="cannot be; give"):
        finishing.set_backer_kg_per_m2(job, wrong)
    assert finishing.finishing(job) == before


def test_the_glass_of_a_panel_adds_up_however_it_is_put_together(job):
    for like_de in (0.0, 5.0):
        listed, wanted = finishing.glasses(job, like_de=like_de)
        assert sum(one.glass.area_mm2 for one in wanted) == pytest.approx(job.panel.glass_area_mm2)
        assert len(listed.of) == job.panel.tessera_count
