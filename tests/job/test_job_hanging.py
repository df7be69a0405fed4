"""The weight and hanging of a panel: what is entered is kept, and what cannot be is refused."""

import pytest

from bench.finish.units import Units
from bench.job import hanging
from bench.job.acts.opening import open_panel
from bench.job.faults import FigureOutOfRange
from bench.job.finishing import set_backer_kg_per_m2
from tests.fakes.drawings import grid_svg


def test_what_is_entered_is_followed(job):
    bare = hanging.hanging(job)
    assert bare.bend is None
    assert bare.hung.points == 2
    set_backer_kg_per_m2(job, 12.0)
    hanging.set_frame_g(job, 500.0)
    hanging.set_board_mm(job, 12.5)
    hanging.set_points(job, 4)
    found = hanging.hanging(job)
    assert found.weight.frame_g == 500.0
    assert found.hung.each_g == pytest.approx(found.weight.p90_g / 4)
    assert found.bend.verdict == "stiff"
    told = " ".join(hanging.hanging_lines(job, Units()))
    assert "frame 500 g" in told
    assert "installer" in told


def test_a_wire_is_reckoned_from_its_rings_and_its_hook(job):
    hanging.set_apart_mm(job, 120.0)
    hanging.set_above_mm(job, 60.0)
    found = hanging.hanging(job).hung
    assert found.angle_deg == pytest.approx(45.0)
    assert found.tension_g == pytest.approx(found.mass_g / 2**0.5)
    hanging.set_above_mm(job, 0.0)
    assert hanging.hanging(job).hung.tension_g is None


def test_what_is_not_counted_is_named(job):
    assert "Not counted until it is entered: board and frame." in hanging.hanging_lines(job, Units())


def test_glass_to_one_side_loads_the_nearer_fixing(store, clock):
    """A page twice as wide as its glass: the middle of the glass lies a quarter of the page aside."""
    half = open_panel(store, clock, grid_svg(10, 10, page_mm=(140.0, 70.0)), "half.svg")
    weight = hanging.hanging(half).weight
    aside_mm = 35.0 * weight.glass_g / weight.total_g
    assert hanging.aside_mm(half, weight) == pytest.approx(-aside_mm, rel=1e-3)
    with pytest.raises(FigureOutOfRange, match="cannot be; give"):
        hanging.set_apart_mm(half, 2 * aside_mm - 1)


@pytest.mark.parametrize(
    ("act", "wrong"),
    [
        (hanging.set_frame_g, -1.0),
        (hanging.set_board_mm, 0.0),
        (hanging.set_points, 0),
        (hanging.set_points, 21),
        (hanging.set_apart_mm, 0.0),
        (hanging.set_above_mm, 1.0),  # a wire as good as flat
        (hanging.set_above_mm, float("nan")),
    ],
)
def test_what_cannot_be_is_refused_and_changes_nothing(job, act, wrong):
    before = hanging.hanging(job)
    with pytest.raises(FigureOutOfRange, match="cannot be; give"):
        act(job, wrong)
    assert hanging.hanging(job) == before


def test_a_figure_that_another_one_made_wrong_is_told_and_is_no_crash(job):
    job.store.set_setting(f"hang_apart_mm:{job.panel_id}", "500.0")
    job.store.set_setting(f"hook_above_mm:{job.panel_id}", "2.0")
    found = hanging.hanging(job)
    assert found.hung is None
    assert found.trouble.startswith("Wire angle: ")
    assert found.trouble in hanging.hanging_lines(job, Units())
