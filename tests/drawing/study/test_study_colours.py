"""The glass an area asks for: shares whole, colours in gamut, names plain; CIELAB against scikit-image."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skimage.color import lab2rgb

from bench.drawing.colour import lab_to_srgb, srgb_to_lab
from bench.drawing.colour_words import colour_words
from bench.drawing.study.colours import mix_of

COLOURS = st.tuples(*[st.integers(0, 255)] * 3)


@given(st.lists(COLOURS, min_size=1, max_size=40))
def test_there_and_back_again_is_the_same_colour(colours):
    rgb = np.array(colours, np.uint8)
    np.testing.assert_array_equal(lab_to_srgb(srgb_to_lab(rgb)), rgb)


def test_cielab_becomes_the_srgb_that_scikit_image_says():
    rng = np.random.default_rng(5)
    lab = rng.uniform((20, -30, -30), (90, 30, 30), (500, 3))
    expected = lab2rgb(lab)
    inside = ((expected > 0.001) & (expected < 0.999)).all(axis=1)
    assert inside.sum() > 300
    np.testing.assert_allclose(lab_to_srgb(lab)[inside] / 255, expected[inside], atol=0.004)


@given(st.lists(COLOURS, min_size=1, max_size=60))
def test_the_shares_of_a_mix_are_whole_and_its_names_differ(colours):
    mix = mix_of(srgb_to_lab(np.array(colours, np.uint8)))
    assert sum(glass.share for glass in mix) == pytest.approx(1)
    assert len({glass.name for glass in mix}) == len(mix)
    assert max(mix, key=lambda glass: glass.share) is mix[0]


def test_a_shaded_area_asks_for_a_lighter_and_a_darker_glass_and_a_pinch_of_its_complement():
    shades = srgb_to_lab(np.array([(150 + k, 120 + k, 30) for k in range(0, 80, 2)], np.uint8))
    mix = mix_of(shades)
    light = [srgb_to_lab(np.array(glass.colour))[0] for glass in mix]
    assert light[1] > light[0] + 6 > light[2] + 12
    main, pinch = (srgb_to_lab(np.array(mix[k].colour)) for k in (0, 3))
    turn = np.degrees(np.arctan2(main[2], main[1]) - np.arctan2(pinch[2], pinch[1])) % 360
    assert abs(turn - 180) < 25


def test_a_grey_area_has_no_complement():
    assert len(mix_of(srgb_to_lab(np.full((30, 3), 128, np.uint8)))) == 1


@pytest.mark.parametrize(
    ("colour", "words"),
    [
        ((255, 255, 255), "white"),
        ((5, 5, 5), "black"),
        ((128, 128, 128), "grey"),
        ((30, 60, 160), "dark blue"),
        ((240, 220, 90), "pale yellow"),
        ((200, 30, 40), "red"),
        ((40, 120, 60), "green"),
        ((90, 55, 30), "dark brown"),
    ],
)
def test_colours_have_plain_names(colour, words):
    assert colour_words(colour) == words
