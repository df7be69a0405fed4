"""Lightness, chroma, hue, the way back to sRGB and its gamut, against scikit-image."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skimage.color import lab2lch, lab2rgb

from bench.drawing.colour import lab_to_srgb, lab_to_unbounded_srgb, srgb_to_lab
from bench.finish.lch import in_gamut, lab_to_lch, lch_to_lab, shown
from tests.fakes.glasses import CHANNEL

COLOUR = st.tuples(CHANNEL, CHANNEL, CHANNEL)
LCH = st.tuples(st.floats(0, 100), st.floats(0, 150), st.floats(0, 359.9))


@given(st.lists(COLOUR, min_size=1, max_size=20))
def test_lch_is_scikit_images_and_leads_back(colours):
    lab = srgb_to_lab(np.array(colours))
    lch = lab_to_lch(lab)
    theirs = lab2lch(lab)
    assert lch[:, :2] == pytest.approx(theirs[:, :2], abs=1e-9)
    coloured = lch[:, 1] > 1e-6
    assert lch[coloured, 2] == pytest.approx(np.degrees(theirs[coloured, 2]) % 360, abs=1e-6)
    assert lch_to_lab(lch) == pytest.approx(lab, abs=1e-9)


@given(COLOUR)
def test_every_srgb_colour_comes_back_as_itself(rgb):
    assert lab_to_srgb(srgb_to_lab(rgb)).tolist() == list(rgb)


@given(LCH)
def test_what_srgb_can_show_agrees_with_scikit_image(lch):
    lab = lch_to_lab(lch)
    if in_gamut(lab):
        assert lab_to_unbounded_srgb(lab) == pytest.approx(lab2rgb(lab) * 255, abs=0.6)
    else:
        assert srgb_to_lab(lab_to_srgb(lab)) != pytest.approx(lab, abs=1e-3)


@given(LCH)
def test_a_colour_is_shown_with_its_own_lightness_and_as_much_chroma_as_there_is(lch):
    found = lab_to_lch(srgb_to_lab(shown(lch)))
    assert found[0] == pytest.approx(lch[0], abs=1.0)  # a step of 8 bits, larger where it is dark
    assert found[1] <= lch[1] + 2.0
    more = (lch[0], found[1] + 4.0, lch[2])
    assert found[1] >= lch[1] - 2.0 or not in_gamut(lch_to_lab(more))
