"""The picture shows glass in its own colours on grey, sections outlined and numbered."""

import numpy as np
import pytest
from PIL import ImageStat

from bench.drawing.picture import EDGE, EDGE_HALO, GROUND, picture_png
from tests.fakes.shapes import read, square

PAIR = square(10, 10, 30, 'fill="#e8c93a"') + square(42, 10, 30, 'fill="#2a5caa"')
RING = '<path fill="#e8c93a" d="M10 10h60v60h-60z M30 30h20v20h-20z"/>'


def at(picture, x_mm: float, y_mm: float) -> tuple[int, int, int]:
    scale = picture.width / 100
    return picture.getpixel((round(x_mm * scale), round(y_mm * scale)))


def test_each_piece_has_its_own_colour_and_the_ground_is_neutral_grey():
    picture = picture_png(read(PAIR))
    assert picture.size == (1600, 1600)
    assert at(picture, 25, 25) == (0xE8, 0xC9, 0x3A)
    assert at(picture, 57, 25) == (0x2A, 0x5C, 0xAA)
    assert at(picture, 41, 25) == at(picture, 90, 90) == GROUND
    assert len(set(GROUND)) == 1


def test_a_hole_shows_the_ground_or_the_piece_that_stands_in_it():
    assert at(picture_png(read(RING)), 40, 40) == GROUND
    inside = square(32, 32, 16, 'fill="#2a5caa"')
    assert at(picture_png(read(inside + RING)), 40, 40) == (0x2A, 0x5C, 0xAA)
    assert at(picture_png(read(RING + inside)), 40, 40) == (0x2A, 0x5C, 0xAA)


def test_the_glass_covers_as_much_of_the_picture_as_of_the_panel():
    panel = read(RING + '<circle cx="85" cy="85" r="10" fill="#2a5caa"/>')
    pixels = np.asarray(picture_png(panel, long_side_px=1000)).reshape(-1, 3)
    share = (pixels != GROUND).any(axis=1).mean()
    assert share == pytest.approx(panel.glass_area_mm2 / 10_000, rel=0.01)


def test_a_dark_line_between_light_ones_runs_between_sections_and_nowhere_else():
    panel = read(PAIR)
    two = picture_png(panel, np.array([0, 1]))
    assert at(two, 41, 12) == EDGE
    assert EDGE_HALO in {at(two, 41 + d / 10, 12) for d in range(2, 8)}
    one = picture_png(panel, np.array([0, 0]))
    assert at(one, 41, 25) == GROUND
    assert at(one, 9, 25) == EDGE  # around the section, half a joint's reach from the glass
    none = picture_png(panel, np.array([-1, -1]))
    assert ImageStat.Stat(none).mean == ImageStat.Stat(picture_png(panel)).mean


def test_a_number_stands_on_a_light_plate_in_the_middle_of_its_section():
    panel = read(PAIR)
    plain, numbered = picture_png(panel), picture_png(panel, np.array([0, -1]), numbers=[7])
    assert at(plain, 25, 22.9) != EDGE_HALO
    middle = np.asarray(numbered.crop((370, 370, 430, 430))).reshape(-1, 3).tolist()
    assert list(EDGE_HALO) in middle
    assert list(EDGE) in middle
    assert at(numbered, 57, 25) == (0x2A, 0x5C, 0xAA)


def test_numbers_are_those_given_or_count_from_one():
    panel = read(PAIR)
    label = np.array([0, 1])
    same = picture_png(panel, label, numbers=[1, 2])
    assert picture_png(panel, label).tobytes() == same.tobytes()
    assert picture_png(panel, label, numbers=[1, 3]).tobytes() != same.tobytes()


def test_a_piece_off_the_page_and_a_flat_panel_do_no_harm():
    panel = read(RING + '<path d="M200 200h9v9h-9z M202 202h3v3h-3z"/>' + square(-50, 0))
    assert picture_png(panel, np.array([0, 1, 2]), long_side_px=64).size == (64, 64)
    strip = read(square(0, 0, 5), size='width="900mm" height="5.5mm" viewBox="0 0 900 5.5"')
    assert picture_png(strip, np.array([0]), long_side_px=200).size == (200, 1)
