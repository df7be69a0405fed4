"""What is paper around a drawing and what is a piece, wherever the drawing ends."""

import numpy as np
import pytest

from bench.drawing.lines import panel_of_lines
from bench.drawing.photo import Picture
from bench.drawing.svg import read_drawing
from tests.fakes.drawings import grid_svg
from tests.fakes.line_scans import drawn_svg, scan, scan_of
from tests.fakes.shapes import polygons_of


def left_out(panel):
    return {one.what: one.count for one in panel.left_out}


def test_paper_around_the_drawing_is_left_out_and_the_drawing_bounds_the_panel(grid):
    found, _ = panel_of_lines(scan_of(grid, dpi=200))
    assert found.tessera_count == 80
    assert left_out(found) == {"paper": 1}
    # ten by eight pitches of 7 mm and the frame of 0.4 beyond half a joint on each side
    assert found.outline_area_mm2 == pytest.approx((70 + 0.8) * (56 + 0.8), rel=0.01)
    assert found.joint_area_mm2 == pytest.approx(found.outline_area_mm2 - 80 * 6.2**2, rel=0.05)


@pytest.mark.parametrize("frame_mm", [0.8, 0.4, 0])
def test_a_drawing_that_fills_the_page_keeps_all_its_pieces(frame_mm):
    full = read_drawing(grid_svg(10, 8), "full.png")
    found, _ = panel_of_lines(scan_of(full, dpi=200, frame_mm=frame_mm))
    assert found.tessera_count == 80
    assert found.outline_mm == ()
    assert found.outline_area_mm2 == pytest.approx(70 * 56, rel=0.01)


def test_pieces_cut_by_the_edge_of_the_picture_are_pieces_and_that_is_said(grid):
    picture = scan_of(grid, dpi=200)
    rim = round(5.5 / picture.mm_per_px)
    found, _ = panel_of_lines(Picture(picture.pixels[rim:-rim, rim:-rim], picture.mm_per_px, "cut"))
    assert found.tessera_count == 80
    assert found.left_out == ()
    assert any("32 pieces are bounded by the edge" in text for text in found.warnings)


def test_paper_on_three_sides_of_a_drawing_cut_on_the_fourth_is_paper(grid):
    picture = scan_of(grid, dpi=200)
    rim = round(6 / picture.mm_per_px)
    found, _ = panel_of_lines(Picture(picture.pixels[:, rim:], picture.mm_per_px, "cut"))
    assert found.tessera_count == 80
    assert left_out(found) == {"paper": 1}
    assert found.outline_area_mm2 == pytest.approx((67 + 0.4) * (56 + 0.8), rel=0.01)


def test_paper_within_the_dark_lid_of_a_scanner_is_still_paper(grid):
    picture = scan_of(grid, dpi=200)
    wide = np.pad(picture.pixels, ((25, 25), (25, 25), (0, 0)), constant_values=30)
    found, _ = panel_of_lines(Picture(wide, picture.mm_per_px, "lid"))
    assert found.tessera_count == 80
    assert left_out(found)["paper"] >= 1
    assert found.glass_area_mm2 == pytest.approx(80 * 6.2**2, rel=0.02)


def test_a_small_drawing_on_a_large_page_is_found():
    pieces = polygons_of(read_drawing(grid_svg(3, 3, page_mm=(200, 200)), "small"))
    found, _ = panel_of_lines(scan(drawn_svg(pieces, (200, 200)), 200, 150))
    assert found.tessera_count == 9
    assert left_out(found) == {"paper": 1}


def test_one_single_closed_line_is_one_piece():
    one = read_drawing(grid_svg(1, 1, pitch_mm=40, page_mm=(60, 60)), "one")
    found, report = panel_of_lines(scan_of(one))
    assert found.tessera_count == 1
    assert found.area_mm2[0] == pytest.approx(39.2**2, rel=0.01)
    assert "1 piece of" in report.told()


def test_strokes_and_dots_within_a_piece_make_no_holes(grid):
    marks = '<path d="M12 8h2" stroke="black" stroke-width="0.6"/><circle cx="20.5" cy="13.5" r="0.6"/>'
    found, _ = panel_of_lines(scan_of(grid, dpi=200, over=marks))
    assert found.tessera_count == 80
    assert len(found.ring_start) - 1 == 80


def test_a_piece_around_another_keeps_its_hole():
    body = (
        b'<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">'
        b'<path fill-rule="evenodd" d="M4 4H36V36H4Z M14 14H26V26H14Z"/><path d="M15 15H25V25H15Z"/></svg>'
    )
    ring = read_drawing(body, "ring")
    found, _ = panel_of_lines(scan_of(ring, dpi=200))
    assert np.sort(found.area_mm2) == pytest.approx([100, 32**2 - 144], rel=0.02)


def test_specks_are_left_out_by_number(grid):
    rings = "".join(
        f'<circle cx="{6.5 + 7 * k}" cy="6.5" r="0.5" fill="white" stroke="black" stroke-width="0.4"/>'
        for k in range(5)
    )
    found, report = panel_of_lines(scan_of(grid, dpi=300, over=rings))
    assert (found.tessera_count, report.specks) == (80, 5)
    assert left_out(found)["speck"] == 5


def test_pieces_painted_as_dark_as_the_lines_are_said_to_be_missing(grid):
    fills = ["#000000" if k in (12, 40, 77) else "#ffffff" for k in range(80)]
    picture = scan(drawn_svg(polygons_of(grid), (76, 62), fills=fills), 76, 200)
    found, _ = panel_of_lines(picture)
    assert found.tessera_count == 77
    assert left_out(found)["dark patch"] == 3
