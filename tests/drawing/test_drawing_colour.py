"""Colour differences are the published ones, and L*a*b* is that of an independent library."""

import json

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skimage.color import deltaE_ciede2000, rgb2lab

from bench.drawing.colour import delta_e_2000, srgb_to_lab
from bench.resources import resource

CHANNEL = st.integers(0, 255)
COLOUR = st.tuples(CHANNEL, CHANNEL, CHANNEL)


def test_the_34_published_pairs_differ_as_published():
    """Sharma, Wu & Dalal 2005, table 1, to its four decimals."""
    table = json.loads(resource("shared", "ciede2000_pairs.json").read_text())
    pairs = np.array(table["pairs"])
    assert pairs.shape == (34, 7)
    assert delta_e_2000(pairs[:, :3], pairs[:, 3:6]) == pytest.approx(pairs[:, 6], abs=5.1e-5)
    assert delta_e_2000(pairs[:, 3:6], pairs[:, :3]) == pytest.approx(pairs[:, 6], abs=5.1e-5)
    assert deltaE_ciede2000(pairs[:, :3], pairs[:, 3:6]) == pytest.approx(pairs[:, 6], abs=5.1e-5)


@pytest.mark.parametrize(
    ("rgb", "lab"),
    [
        # scikit-image's rgb2lab, D65, 2°
        ((255, 0, 0), (53.241, 80.092, 67.203)),
        ((0, 255, 0), (87.735, -86.183, 83.180)),
        ((0, 0, 255), (32.296, 79.186, -107.857)),
        ((255, 255, 255), (100, 0, 0)),
        ((0, 0, 0), (0, 0, 0)),
    ],
)
def test_the_primaries_stand_where_they_should(rgb, lab):
    assert srgb_to_lab(np.array(rgb, np.uint8)).tolist() == pytest.approx(lab, abs=0.01)


@given(st.lists(COLOUR, min_size=2, max_size=20))
def test_any_colours_agree_with_scikit_image(colours):
    rgb = np.array(colours, np.uint8)
    lab = srgb_to_lab(rgb)
    assert lab == pytest.approx(rgb2lab(rgb[None])[0], abs=2e-3)
    assert delta_e_2000(lab[1:], lab[:-1]) == pytest.approx(deltaE_ciede2000(lab[1:], lab[:-1]), abs=1e-9)


@given(COLOUR, COLOUR)
def test_a_difference_has_no_direction_and_is_none_from_a_colour_to_itself(one, other):
    a, b = srgb_to_lab(one), srgb_to_lab(other)
    assert delta_e_2000(a, b) == pytest.approx(delta_e_2000(b, a), abs=1e-9)
    assert delta_e_2000(a, a) == 0


def test_one_colour_against_many_is_broadcast():
    lab = srgb_to_lab(np.arange(30, dtype=np.uint8).reshape(2, 5, 3))
    assert delta_e_2000(lab, lab[0, 0]).shape == (2, 5)
