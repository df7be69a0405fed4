"""Colours measured on a photographed sample tile, held against what was painted."""

import numpy as np
import pytest
from skimage.color import deltaE_ciede2000, rgb2lab

from bench.drawing.photo import read_picture
from bench.finish.faults import NotOnTile, NotWhiteCard
from bench.finish.tile import measured_colour
from bench.job.acts.sample import size_mm, squared
from tests.fakes.tiles import CARD_MM, CORNERS, GLASS, LAMP, SIZE_MM, joint_mm, photo_of_tile

GROUTS = ((200, 196, 188), (70, 70, 72), (176, 120, 80), (240, 238, 232))


def tile(**how):
    return squared(read_picture(photo_of_tile(GROUTS, **how), "tile.png"), CORNERS, SIZE_MM)


def apart(one, other) -> float:
    """Return ΔE00 by scikit-image."""
    labs = [rgb2lab(np.array(c, float).reshape(1, 1, 3) / 255)[0, 0] for c in (one, other)]
    return float(deltaE_ciede2000(*labs))


def test_a_joint_is_measured_as_it_was_painted():
    flat = tile()
    for k, painted in enumerate(GROUTS):
        assert apart(measured_colour(flat, joint_mm(k), None), painted) < 1.5


def test_a_white_card_takes_a_lamp_out_of_the_photo():
    flat = tile(light=LAMP)
    for k, painted in enumerate(GROUTS):
        assert apart(measured_colour(flat, joint_mm(k), CARD_MM), painted) < 2.0
    assert apart(measured_colour(flat, joint_mm(0), None), GROUTS[0]) > 8.0


def test_grains_of_sand_do_not_count():
    """Up to half the disc may be anything: the median stays."""
    flat = tile(grain=0.0)
    x, y = (round(v / flat.mm_per_px) for v in joint_mm(1))
    pixels = flat.pixels.copy()
    pixels[y - 1 : y + 1, x - 1 : x + 1] = 255
    speckled = type(flat)(pixels, flat.mm_per_px, flat.name)
    assert apart(measured_colour(speckled, joint_mm(1), None), GROUTS[1]) < 1.5


@pytest.mark.parametrize("at_mm", [(-1.0, 5.0), (5.0, 500.0)])
def test_a_place_off_the_tile_is_refused(at_mm):
    with pytest.raises(NotOnTile, match="not on the tile"):
        measured_colour(tile(), at_mm, None)


def test_what_is_no_white_card_is_refused():
    flat = tile()
    with pytest.raises(NotWhiteCard, match="no white card"):
        measured_colour(flat, joint_mm(0), joint_mm(1))
    with pytest.raises(NotWhiteCard, match="no white card"):
        measured_colour(flat, joint_mm(0), (8.0, 30.0))
    assert apart(measured_colour(flat, (8.0, 30.0), None), GLASS) < 1.5
    with pytest.raises(NotWhiteCard, match="overexposed"):
        measured_colour(tile(light=(2.0, 2.0, 2.0)), joint_mm(0), CARD_MM)


def test_the_tile_keeps_the_shape_that_its_corners_show():
    wide, high = size_mm(CORNERS)
    assert wide == 100.0
    assert high == pytest.approx(100 * 565 / 736, abs=1.5)
