"""Breaks in lines: small ones are closed, larger ones named, and nothing small is drowned by it."""

import numpy as np
import pytest
from skimage.measure import euler_number, label
from skimage.morphology import skeletonize

from bench.drawing.lines import LineHow, Stroke, panel_of_lines
from bench.drawing.lines.thin import loose_ends, thinned
from bench.drawing.svg import read_drawing
from tests.fakes.drawings import grid_svg
from tests.fakes.line_scans import matched, photographed, scan_of


def cut(x, y, width, height):
    return f'<rect x="{x}" y="{y}" width="{width}" height="{height}" fill="white"/>'


def broken(grid, gap_mm, dpi=200):
    """Return a scan with an upright line, a level one and the frame broken, and where."""
    cuts = cut(23.2, 5.5, 1.6, gap_mm) + cut(40.5, 30.2, gap_mm, 1.6) + cut(2, 40, 2, gap_mm)
    half = gap_mm / 2
    return scan_of(grid, dpi=dpi, over=cuts), [(24, 5.5 + half), (40.5 + half, 31), (3, 40 + half)]


@pytest.mark.parametrize("dpi", [110, 200, 300])
@pytest.mark.parametrize("gap_mm", [0.4, 0.8, 1.4])
def test_breaks_up_to_a_millimetre_and_a_half_are_closed_and_told(grid, gap_mm, dpi):
    picture, at = broken(grid, gap_mm, dpi)
    found, report = panel_of_lines(picture)
    assert found.tessera_count == 80
    assert report.leaks == ()
    assert len(report.gaps) == 3
    for gap in report.gaps:
        x, y = (gap.x_mm + gap.to_x_mm) / 2, (gap.y_mm + gap.to_y_mm) / 2
        assert min(np.hypot(x - a, y - b) for a, b in at) < 1.0
        assert gap.width_mm == pytest.approx(gap_mm, abs=1.5 * picture.mm_per_px)
    edge_mm = 0.6 * picture.mm_per_px  # either edge of a piece falls on whole pixels
    assert found.area_mm2 == pytest.approx(6.2**2, rel=4 * edge_mm / 6.2)
    assert np.median(found.area_mm2) == pytest.approx(6.2**2, rel=0.02)


@pytest.mark.parametrize("gap_mm", [2.0, 3.0])
def test_wider_breaks_are_left_open_and_named_as_leaks(grid, gap_mm):
    picture, at = broken(grid, gap_mm)
    found, report = panel_of_lines(picture)
    assert found.tessera_count == 77
    assert report.gaps == ()
    assert len(report.leaks) == 3
    for leak in report.leaks:
        assert min(np.hypot(leak.x_mm - a, leak.y_mm - b) for a, b in at) < 1.0
        assert leak.width_mm == pytest.approx(gap_mm, abs=0.3)
        assert leak.why
    assert any("may be open" in text for text in found.warnings)


def test_how_wide_a_break_is_closed_is_the_makers_choice(grid):
    picture, _ = broken(grid, 3.0)
    assert panel_of_lines(picture, how=LineHow(gap_mm=3.5))[1].count == 80
    picture, _ = broken(grid, 0.8)
    found, report = panel_of_lines(picture, how=LineHow(gap_mm=0))
    assert found.tessera_count == 77
    assert (report.gaps, len(report.leaks)) == ((), 3)


def test_strokes_by_hand_close_what_was_left_open(grid):
    picture, at = broken(grid, 3.0)
    (x0, y0), (x1, y1), (x2, y2) = at
    strokes = [
        Stroke(points_mm=((x0, y0 - 2), (x0, y0 + 2))),
        Stroke(points_mm=((x1 - 2, y1), (x1 + 2, y1))),
        Stroke(points_mm=((x2, y2 - 2), (x2, y2), (x2, y2 + 2))),
    ]
    found, report = panel_of_lines(picture, strokes=strokes)
    assert found.tessera_count == 80
    assert report.leaks == ()
    of, rate, _ = matched(grid, found)
    assert sorted(of.tolist()) == list(range(80))
    assert rate.min() > 0.93


def test_a_stroke_by_hand_divides_a_piece(grid):
    across = Stroke(points_mm=((3, 6.5), (10, 6.5)), width_mm=0.5)
    assert panel_of_lines(scan_of(grid), strokes=[across])[1].count == 81


def test_pieces_smaller_than_the_gap_are_not_drowned():
    """Squares of 1.4 mm with lines of 0.4 between, gaps of 3 mm asked for: all are found, none is thinner."""
    moved = grid_svg(20, 12, pitch_mm=1.8, joint_mm=0.4, page_mm=(42, 28))
    small = read_drawing(moved.replace(b"<rect ", b'<rect transform="translate(3 3)" '), "small.png")
    picture = scan_of(small, dpi=300, frame_mm=0.4)
    found, report = panel_of_lines(picture, how=LineHow(gap_mm=3, least_mm2=0.5))
    assert found.tessera_count == 240
    assert found.area_mm2 == pytest.approx(1.4**2, rel=0.12)  # a pixel is a seventeenth of an edge
    assert found.glass_area_mm2 == pytest.approx(240 * 1.4**2, rel=0.03)
    assert report.gaps == ()


def test_a_whole_drawing_leaves_no_leak_in_bad_light(grid):
    _, report = panel_of_lines(photographed(scan_of(grid, dpi=150), dark=0.4, noise=6, seed=1))
    assert (report.count, report.gaps, report.leaks) == (80, (), ())


def lines_picture():
    dark = np.zeros((120, 160), bool)
    dark[20:26, 10:150] = dark[90:95, 10:150] = True
    dark[20:95, 10:15] = dark[20:95, 145:150] = True
    dark[50:55, 60:110] = True  # loose at both ends
    dark[20:60, 30:36] = True  # loose below
    return dark


def test_thinning_keeps_what_skimage_keeps():
    """scikit-image's skeletonize (Zhang & Suen): the same pieces and holes, and about the same length."""
    dark = lines_picture()
    thin, theirs = thinned(dark), skeletonize(dark)
    assert not (thin & ~dark).any()
    assert label(thin, connectivity=2).max() == label(theirs, connectivity=2).max() == 2
    assert euler_number(thin, connectivity=2) == euler_number(theirs, connectivity=2)
    assert np.count_nonzero(thin) == pytest.approx(np.count_nonzero(theirs), rel=0.03)


def test_loose_ends_are_found_and_point_on():
    ends, way = loose_ends(thinned(lines_picture()), 8)
    found = {(round(float(y)), round(float(x))) for y, x in way}
    assert len(ends) == 3
    assert found == {(0, -1), (0, 1), (1, 0)}
    for (y, x), (near_y, near_x) in zip(
        ends[np.lexsort(ends.T)].tolist(), [(57, 32), (52, 62), (52, 107)], strict=True
    ):
        assert np.hypot(y - near_y, x - near_x) < 5
