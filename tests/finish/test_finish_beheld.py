"""How strongly joints cut a picture up, held against scikit-image; inks over a grout."""

import numpy as np
import pytest
from skimage.color import deltaE_ciede2000, rgb2lab

from bench.drawing.load import load_drawing
from bench.drawing.svg import read_drawing
from bench.finish.beheld import DRAW_DE, QUIET_DE, RECEDE_DE, Cut, cut_up, inked
from bench.finish.grout_colours import GROUT_WORDS, NEUTRAL
from bench.finish.zones import group_zones
from bench.resources import resource
from tests.fakes.drawings import grid_svg


@pytest.fixture(scope="module")
def lemons():
    return load_drawing(resource("assets", "demo", "lemons.svg"))[1]


def filled(panel, colour):
    return np.broadcast_to(np.array(colour, np.uint8), (panel.tessera_count, 3))


def whole(panel, colour) -> float:
    return cut_up(panel, filled(panel, colour), np.zeros(panel.tessera_count, np.int32), 1)[0].delta_e


@pytest.mark.parametrize("name", ["white", "charcoal", "blue"])
def test_the_measure_is_that_of_scikit_image_side_by_side(lemons, name):
    """Outside: skimage's rgb2lab and deltaE_ciede2000, each side of each joint weighted by its length."""
    label, names = group_zones(lemons)
    grout = GROUT_WORDS[name]
    found = cut_up(lemons, filled(lemons, grout), label, len(names))
    pair, length = lemons.joints.pair, lemons.joints.length_mm
    joint = rgb2lab(np.array(grout, float).reshape(1, 1, 3) / 255)[0, 0]
    lab = rgb2lab(lemons.colour.reshape(1, -1, 3) / 255.0)[0]
    sides = np.concatenate([pair[:, 0], pair[:, 1]])
    apart = deltaE_ciede2000(lab[sides], np.broadcast_to(joint, (len(sides), 3)))
    weight = np.concatenate([length, length])
    assert found[0].delta_e == pytest.approx(np.average(apart, weights=weight), abs=0.02)
    for k in range(len(names)):
        mine = label[sides] == k
        if not mine.any():
            assert found[1 + k].words == "no joint between pieces"
            continue
        assert found[1 + k].delta_e == pytest.approx(np.average(apart[mine], weights=weight[mine]), abs=0.02)


def test_three_grouts_on_one_glass_differ_in_the_measure(lemons):
    """Common practice, no source: white, grey and charcoal on the same glass look unlike one another."""
    found = sorted(whole(lemons, GROUT_WORDS[name]) for name in ("white", "grey", "charcoal"))
    assert min(np.diff(found)) > 2.0


def test_grout_like_its_glass_recedes_and_its_opposite_stands_out():
    panel = read_drawing(grid_svg(6, 4, colour=lambda c, r: "#101010"), "grid.svg")
    dark, light = Cut(whole(panel, (16, 16, 16))), Cut(whole(panel, (240, 239, 235)))
    assert dark.delta_e == pytest.approx(0.0, abs=1e-9)
    assert dark.words == "joints recede"
    assert light.words == "joints stand out"


def test_each_side_of_a_joint_faces_the_grout_of_its_own_region():
    panel = read_drawing(grid_svg(6, 4, colour=lambda c, r: "#ffffff" if c < 3 else "#000000"), "grid.svg")
    label = (panel.centroid_mm[:, 0] > panel.width_mm / 2).astype(np.int32)
    grout = np.where(label[:, None] == 1, np.uint8(0), np.uint8(255)).repeat(3, axis=1)
    assert [cut.delta_e for cut in cut_up(panel, grout, label, 2)] == pytest.approx([0.0, 0.0, 0.0])


def test_words_go_from_receding_to_standing_out_in_one_table():
    told = ["joints recede", "joints are quiet", "joints draw the pieces"]
    assert [Cut(most - 0.01).words for most in (RECEDE_DE, QUIET_DE, DRAW_DE)] == told
    assert Cut(RECEDE_DE).words == told[1]
    assert Cut(500.0).words == "joints stand out"
    assert Cut(None).words == "no joint between pieces"


def test_an_ink_only_takes_light_and_a_white_ink_takes_none():
    grout = GROUT_WORDS[NEUTRAL]
    for name, ink in GROUT_WORDS.items():
        assert (np.array(inked(grout, ink)) <= np.array(grout)).all(), name
        assert (np.array(inked(grout, ink)) <= np.array(ink)).all(), name
    assert inked(grout, (255, 255, 255)) == grout
    assert inked((255, 255, 255), (58, 88, 138)) == (58, 88, 138)


def test_half_the_light_of_half_the_light_is_a_quarter():
    """Linear light: sRGB 188 is 0.5028 of white and 138 is 0.2541; 0.5028² = 0.2528 (IEC 61966-2-1)."""
    assert inked((188, 188, 188), (188, 188, 188)) == (138, 138, 138)
