"""A mix changed by hand: shares sum to 1 whatever is done to them, and colours are what was asked."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skimage.color import rgb2lab

from bench.drawing.study.mixing import (
    MOST_GLASSES,
    SHEET,
    STEP_L,
    lighter,
    mix_around,
    plain_region,
    recoloured,
    with_another,
    with_share,
    without,
)
from bench.drawing.study.model import Glass, Region

THREE = tuple(
    Glass(name=n, colour=c, share=s)
    for n, c, s in (("blue", (40, 70, 140), 0.5), ("sand", (200, 165, 120), 0.3), ("red", (180, 40, 50), 0.2))
)
ACTS = st.lists(
    st.tuples(st.sampled_from(["share", "drop", "add", "colour"]), st.integers(0, 9), st.floats(-0.5, 1.5))
)


def test_the_others_give_way_in_proportion():
    mix = with_share(THREE, 0, 0.75)
    assert [glass.share for glass in mix] == pytest.approx([0.75, 0.15, 0.1])
    assert [g.share for g in with_share(mix, 0, 0.5)] == pytest.approx([0.5, 0.3, 0.2])


@given(ACTS)
def test_whatever_is_done_a_region_can_be_laid_in_the_mix(acts):
    mix = THREE
    for act, which, share in acts:
        k = which % len(mix)
        mix = {
            "share": lambda mix=mix, k=k, share=share: with_share(mix, k, share),
            "drop": lambda mix=mix, k=k: without(mix, k),
            "add": lambda mix=mix, k=k: with_another(mix, k),
            "colour": lambda mix=mix, k=k, which=which: recoloured(mix, k, SHEET[which]),
        }[act]()
    region = Region(name="any", mix=mix)
    assert 1 <= len(region.mix) <= MOST_GLASSES
    assert len({glass.name for glass in region.mix}) == len(region.mix)


def test_the_last_glass_stays_and_keeps_all():
    one = without(without(THREE, 0), 0)
    assert [(glass.name, glass.share) for glass in one] == [("red", 1.0)]
    assert without(one, 0) == one == with_share(one, 0, 0.3)


def test_a_lighter_glass_is_lighter_by_a_step_as_scikit_image_measures_it():
    lab = rgb2lab(np.array([[(40, 70, 140), lighter((40, 70, 140), 1), lighter((40, 70, 140), -2)]]) / 255)[0]
    assert lab[1] - lab[0] == pytest.approx([STEP_L, 0, 0], abs=0.8)
    assert lab[2] - lab[0] == pytest.approx([-2 * STEP_L, 0, 0], abs=0.8)
    assert lighter((255, 255, 255), 3) == (255, 255, 255)
    assert lighter((0, 0, 0), -1) == (0, 0, 0)


@pytest.mark.parametrize("colour", SHEET)
def test_a_mix_about_any_sheet_is_mostly_that_glass(colour):
    mix = mix_around(colour)
    assert sum(glass.share for glass in mix) == pytest.approx(1)
    assert max(mix, key=lambda glass: glass.share) is mix[0]
    assert np.abs(np.array(mix[0].colour, int) - colour).max() <= 8
    assert len(mix) >= 2
    assert plain_region(colour, 5.0).piece_mm == 5.0
