"""How wide joints are and whether they take sand: exact on grids, and against shapely on odd shapes."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.drawing.svg import read_drawing
from bench.finish.faults import JointsWiderThanPieces
from bench.finish.joint_width import Widths, check_widths, sand_for, width_samples
from bench.finish.zones import joint_grid
from tests.fakes.drawings import grid_svg
from tests.fakes.shapes import polygons_of, svg_of, voronoi


def samples_of(data):
    panel = read_drawing(data, "drawing.svg")
    return panel, width_samples(panel, joint_grid(panel))


@settings(max_examples=15, deadline=None)
@given(pitch_mm=st.floats(5, 25), share=st.floats(0.05, 0.25))
def test_the_width_of_a_grid_is_that_of_its_gaps_whatever_the_grid_of_points(pitch_mm, share):
    """Most of the length lies between sides; only crossings are wider, up to √2 times."""
    joint_mm = share * pitch_mm
    _, samples = samples_of(grid_svg(8, 6, pitch_mm=pitch_mm, joint_mm=joint_mm))
    widths = samples.widths()
    assert widths.p10_mm == pytest.approx(joint_mm, abs=0.01)
    assert widths.p50_mm == pytest.approx(joint_mm, abs=0.01)
    assert samples.width_mm.max() <= joint_mm * np.sqrt(2) + 0.3


def test_widths_are_the_distances_of_the_polygons_as_shapely_measures_them():
    """At each sampled place the width is at least the gap between the two pieces, and near it mostly."""
    panel, samples = samples_of(svg_of(voronoi(60, seed=4), 100, 80))
    shapes = polygons_of(panel)
    gap_mm = np.array([shapely.distance(shapes[a], shapes[b]) for a, b in samples.pair.tolist()])
    assert (samples.width_mm >= gap_mm - 0.02).all()
    assert np.median(samples.width_mm - gap_mm) < 0.1


def test_area_over_length_agrees_with_the_middle_width_of_a_grid():
    panel, samples = samples_of(grid_svg(30, 20, pitch_mm=10, joint_mm=1.2))
    length_mm = panel.joints.length_mm.sum()
    inner_mm2 = (panel.joints.length_mm * panel.joints.gap_mm).sum()
    assert samples.widths().p50_mm == pytest.approx(inner_mm2 / length_mm, rel=0.01)


def test_a_zone_of_its_own_has_its_own_widths():
    """Strips as high as the page: the first two 1 mm apart, the others 3 mm."""
    strips = [shapely.box(x, 0, x + 10, 40) for x in (0, 11, 24, 37)]
    _, samples = samples_of(svg_of(strips, 47, 40))
    assert samples.widths([0]).p90_mm == pytest.approx(1.0, abs=0.01)
    assert samples.widths([3]).p10_mm == pytest.approx(3.0, abs=0.01)
    assert samples.widths([]) is None


def test_pieces_that_touch_have_no_width():
    _, samples = samples_of(grid_svg(4, 4, joint_mm=0.0))
    assert samples.widths() is None


def test_up_to_3_mm_grout_is_unsanded_and_where_glass_scratches_too():
    """ANSI A118.6 and A108.10, a summary of them: an eighth of an inch parts unsanded from sanded."""
    assert sand_for(Widths(1, 2, 3.0), scratches=False)[0] == "unsanded"
    assert sand_for(Widths(2, 3, 3.3), scratches=False)[0] == "sanded"
    kind, why = sand_for(Widths(2, 3, 3.3), scratches=True)
    assert kind == "unsanded"
    assert "scratches" in why
    assert sand_for(None, scratches=False)[0] == "unsanded"


def test_joints_wider_than_pieces_are_refused():
    panel, samples = samples_of(grid_svg(5, 5, joint_mm=4.0))
    with pytest.raises(JointsWiderThanPieces) as told:
        check_widths(panel, samples.widths())
    assert told.value.joint_mm == pytest.approx(4, abs=0.1)
    assert told.value.piece_mm == pytest.approx(3, rel=0.01)
    check_widths(panel, None)
