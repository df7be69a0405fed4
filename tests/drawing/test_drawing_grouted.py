"""The panel grouted in a picture: joints as wide as drawn, in true colours, as light adds up."""

import numpy as np
import pytest
from skimage.color import rgb2xyz

from bench.drawing.grouted import grouted, side_by_side, ungrouted
from bench.drawing.svg import read_drawing
from tests.fakes.drawings import grid_svg


@pytest.fixture(scope="module")
def panel():
    return read_drawing(grid_svg(8, 6, colour=lambda c, r: "#1e4b8c" if c < 4 else "#c8b414"), "grid.svg")


def all_of(panel, colour):
    return np.broadcast_to(np.array(colour, np.uint8), (panel.tessera_count, 3))


@pytest.mark.parametrize("long_side_px", [90, 400, 1300])
def test_the_share_of_joint_is_that_of_the_drawing_at_any_size(panel, long_side_px):
    glass = ungrouted(panel, long_side_px=long_side_px)
    share = panel.joint_area_mm2 / (panel.width_mm * panel.height_mm)
    assert glass.bare.mean() == pytest.approx(share, rel=0.06)
    assert max(glass.bare.shape) == long_side_px


def test_glass_and_joints_have_their_true_colours(panel):
    shown = grouted(ungrouted(panel, long_side_px=900), all_of(panel, (205, 203, 198)))
    colours = {tuple(c) for c in shown.reshape(-1, 3).tolist()}
    assert {(30, 75, 140), (200, 180, 20), (205, 203, 198)} <= colours


def test_each_side_of_the_panel_may_have_a_grout_of_its_own(panel):
    left = panel.centroid_mm[:, 0] < panel.width_mm / 2
    grout = np.where(left[:, None], np.uint8(255), np.uint8(0)).repeat(3, axis=1)
    shown = grouted(ungrouted(panel, long_side_px=900), grout)
    half = shown.shape[1] // 2
    white = (shown == 255).all(axis=2)
    black = (shown == 0).all(axis=2)
    assert white[:, : half - 3].any()
    assert not white[:, half + 3 :].any()
    assert black[:, half + 3 :].any()
    assert not black[:, : half - 3].any()


def test_a_small_picture_has_the_light_of_the_large_one(panel):
    """Outside: skimage's rgb2xyz; Y is linear, so shrinking must not change its mean, white joints or not."""
    grout = all_of(panel, (255, 255, 255))
    small, large = (
        rgb2xyz(grouted(ungrouted(panel, long_side_px=px), grout))[..., 1].mean() for px in (70, 1400)
    )
    assert small == pytest.approx(large, rel=0.05)


def test_off_the_outline_nothing_is_grouted():
    svg = (
        b'<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="20mm" viewBox="0 0 40 20">'
        b'<rect data-panel-outline="" x="0" y="0" width="20" height="20" fill="none"/>'
        b'<rect x="2" y="2" width="7" height="16" fill="#ff0000"/>'
        b'<rect x="10" y="2" width="7" height="16" fill="#0000ff"/></svg>'
    )
    panel = read_drawing(svg, "half.svg")
    glass = ungrouted(panel, long_side_px=400)
    assert glass.bare[:, :200].any()
    assert not glass.bare[:, 201:].any()


@pytest.mark.parametrize(("count", "across"), [(1, 1), (2, 2), (3, 2), (4, 2)])
def test_pictures_stand_side_by_side_over_their_words(count, across):
    pictures = [np.full((300, 500, 3), 10 * k, np.uint8) for k in range(count)]
    sheet = side_by_side(pictures, [("white", "joints recede")] * count)
    assert across * 500 < sheet.width < (across + 0.3) * 500
    assert sheet.height > 300 * -(-count // across)
    colours = {rgb for _, rgb in sheet.getcolors(1 << 24)}
    assert {(10 * k,) * 3 for k in range(count)} <= colours
