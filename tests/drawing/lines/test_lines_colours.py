"""Each piece has the colour that it was painted in, or that a second picture shows there."""

import numpy as np
import pytest

from bench.drawing.colour import delta_e_2000, srgb_to_lab
from bench.drawing.lines import panel_of_lines
from bench.drawing.lines.colours import NEUTRAL, colours_of, is_coloured
from bench.drawing.load import load_drawing
from bench.drawing.photo import Picture
from bench.drawing.svg import read_drawing
from bench.resources import resource
from tests.fakes.drawings import grid_svg
from tests.fakes.line_scans import matched, photographed, scan_of


@pytest.fixture(scope="module")
def lemons():
    return load_drawing(resource("assets", "demo", "lemons.svg"))[1]


def test_a_coloured_drawing_gives_its_own_fills(lemons):
    found, report = panel_of_lines(scan_of(lemons, dpi=200, coloured=True))
    assert report.coloured
    assert found.tessera_count == lemons.tessera_count
    of, _, _ = matched(lemons, found)
    off = delta_e_2000(srgb_to_lab(found.colour), srgb_to_lab(lemons.colour[of]))
    assert np.percentile(off, 99) < 1.0


def test_a_second_picture_of_any_size_gives_the_colours(lemons):
    painted = scan_of(lemons, dpi=60, coloured=True)
    found, report = panel_of_lines(scan_of(lemons, dpi=200), colours=painted)
    assert report.coloured
    of, _, _ = matched(lemons, found)
    off = delta_e_2000(srgb_to_lab(found.colour), srgb_to_lab(lemons.colour[of]))
    assert np.percentile(off, 95) < 3.0


def test_a_drawing_in_ink_alone_is_neutral(lemons):
    found, report = panel_of_lines(photographed(scan_of(lemons, dpi=120, paper="#f0e4c8")))
    assert not report.coloured
    assert (found.colour == NEUTRAL).all()


def test_black_and_white_fields_are_colours_too():
    def two(column, row):
        return "#e8e8e8" if (column + row) % 2 else "#606060"

    board = read_drawing(grid_svg(8, 8, colour=two), "board")
    found, report = panel_of_lines(scan_of(board, dpi=150, coloured=True))
    assert report.coloured
    of, _, _ = matched(board, found)
    assert np.abs(found.colour.astype(int) - board.colour[of]).max() <= 3


def test_the_median_is_numpys(lemons):
    rng = np.random.default_rng(2)
    labels = rng.integers(0, 5, (40, 50)).astype(np.int32)
    pixels = rng.integers(0, 256, (40, 50, 3), dtype=np.uint8)
    found = colours_of(labels, 4, pixels)
    for k in range(4):
        upper = np.percentile(pixels[labels == k + 1], 50, axis=0, method="higher")
        assert np.abs(found[k] - upper).max() <= 1


def test_a_piece_that_no_place_sees_is_neutral():
    assert colours_of(np.ones((20, 20), np.int32), 2, np.zeros((20, 20, 3), np.uint8)).tolist() == [
        [0, 0, 0],
        list(NEUTRAL),
    ]


def test_light_that_falls_off_over_the_page_is_no_colour():
    place = np.random.default_rng(1).random((200, 2))
    light = 1 - 0.5 * place[:, :1] ** 2
    paper = np.rint(np.array([[240, 232, 210]]) * light).astype(np.uint8)
    assert not is_coloured(paper, place)
    paper[:20] = (200, 60, 40)
    assert is_coloured(paper, place)


def test_a_picture_with_a_grey_of_its_own_does_not_change_the_shapes(lemons):
    picture = scan_of(lemons, dpi=120)
    plain, _ = panel_of_lines(picture)
    grey = Picture(np.full((30, 40, 3), 77, np.uint8), None, "grey")
    found, _ = panel_of_lines(picture, colours=grey)
    assert (found.colour == 77).all()
    np.testing.assert_array_equal(found.points_mm, plain.points_mm)
