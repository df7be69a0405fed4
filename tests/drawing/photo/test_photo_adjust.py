"""A picture is turned, lightened and made smaller as the eye expects, and its corners go with it."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from skimage.exposure import adjust_gamma
from skimage.transform import downscale_local_mean

from bench.drawing.faults import DrawingFault, DrawingMissing
from bench.drawing.load import file_bytes
from bench.drawing.photo import (
    Corners,
    Picture,
    inset,
    lightened,
    paper_mm,
    ready,
    shrunk,
    turned,
    turned_corners,
    whole,
)

NOISE = np.random.default_rng(4).integers(0, 256, (90, 140, 3), np.uint8)
sizes = st.tuples(st.integers(20, 900), st.integers(20, 900))


@pytest.mark.parametrize("quarters", [0, 1, 2, 3])
def test_a_quarter_turns_clockwise_as_pillow_turns_it(quarters):
    """Pillow, Image.rotate: anticlockwise in degrees."""
    expected = Image.fromarray(NOISE).rotate(-90 * quarters, expand=True)
    assert np.array_equal(turned(NOISE, quarters), np.asarray(expected))


@given(sizes, st.integers(0, 3), st.floats(0.01, 0.4))
def test_corners_turn_with_their_picture_and_the_first_stays_top_left(size, quarters, share):
    seen = turned_corners(inset(size, share), size, quarters)
    after = size if quarters % 2 == 0 else size[::-1]
    assert np.allclose(seen, inset(after, share))


@given(sizes, st.integers(0, 3), st.lists(st.floats(0, 20), min_size=8, max_size=8))
def test_four_quarters_bring_corners_back(size, quarters, values):
    corners = tuple(zip(values[::2], values[1::2], strict=True))
    after = size if quarters % 2 == 0 else size[::-1]
    back = turned_corners(turned_corners(corners, size, quarters), after, 4 - quarters)
    assert np.allclose(back, corners)


@pytest.mark.parametrize("steps", [-5, -1, 2, 5])
def test_lightening_is_a_gamma_of_which_black_and_white_stay(steps):
    """scikit-image, exposure.adjust_gamma, which rounds down where we round."""
    seen = lightened(Picture(NOISE, 0.2, "a"), steps)
    expected = adjust_gamma(NOISE, 1.25**-steps)
    assert np.abs(seen.pixels.astype(int) - expected).max() <= 1
    assert seen.mm_per_px == 0.2
    ends = lightened(Picture(np.array([[[0, 255, 0]]], np.uint8), None, "b"), steps)
    assert ends.pixels.tolist() == [[[0, 255, 0]]]


def test_no_step_leaves_the_picture_as_it_is():
    picture = Picture(NOISE, None, "a")
    assert lightened(picture, 0) is picture


@pytest.mark.parametrize(("rows", "columns"), [(600, 900), (999, 30)])
def test_a_smaller_picture_is_the_mean_of_squares(rows, columns):
    """scikit-image, transform.downscale_local_mean."""
    pixels = np.random.default_rng(1).integers(0, 256, (rows, columns, 3), np.uint8)
    seen = shrunk(pixels, max(rows, columns) // 3)
    assert max(seen.shape[:2]) == max(rows, columns) // 3
    expected = downscale_local_mean(pixels, (3, 3, 1))
    assert seen.shape[1] == expected.shape[1]
    whole_rows = rows // 3
    assert np.abs(seen[:whole_rows].astype(float) - expected[:whole_rows]).max() <= 1


def test_a_small_picture_is_not_made_smaller():
    assert np.array_equal(shrunk(NOISE, 140), NOISE)


def test_a_scanner_says_how_large_what_lies_between_the_corners_is():
    """A4 at 300 dots an inch is 2480 by 3508 pixels (ISO 216 for 210 by 297 mm)."""
    assert paper_mm(whole((2480, 3508)), 25.4 / 300) == pytest.approx((210, 297), abs=0.1)


@pytest.mark.parametrize("quarters", [0, 1])
def test_a_whole_picture_keeps_its_pixels(quarters):
    size = (140, 90) if quarters == 0 else (90, 140)
    corners = Corners(corner_px=whole(size), width_mm=size[0] * 0.5, height_mm=size[1] * 0.5)
    seen = ready(Picture(NOISE, None, "a"), quarters, corners, 0)
    assert np.array_equal(seen.pixels, turned(NOISE, quarters))
    assert seen.mm_per_px == pytest.approx(0.5)


def test_what_lies_between_the_corners_is_cut_out_after_the_turn():
    pixels = np.zeros((80, 60, 3), np.uint8)
    pixels[60:, :20] = 255  # lower left, hence upper left once turned clockwise
    corners = Corners(corner_px=((0, 0), (20, 0), (20, 20), (0, 20)), width_mm=10, height_mm=10)
    assert ready(Picture(pixels, None, "a"), 1, corners, 0).pixels.min() > 250
    assert ready(Picture(pixels, None, "a"), 0, corners, 0).pixels.max() < 5


def test_a_picture_that_is_not_there_is_told(tmp_path):
    with pytest.raises(DrawingMissing):
        file_bytes(tmp_path / "none.png")
    with pytest.raises(DrawingFault):
        file_bytes(tmp_path)
    (tmp_path / "a.png").write_bytes(b"abc")
    assert file_bytes(tmp_path / "a.png") == b"abc"
