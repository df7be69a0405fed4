"""Plain names for colours are what everybody calls them."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.drawing.colour_words import colour_words, words_for

COLOUR = st.tuples(*[st.integers(0, 255)] * 3)


@pytest.mark.parametrize(
    ("rgb", "told"),
    [
        ((255, 255, 255), "white"),
        ((0, 0, 0), "black"),
        ((128, 128, 128), "grey"),
        ((0, 128, 0), "green"),
        ((139, 69, 19), "brown"),
        ((255, 165, 0), "orange"),
        ((64, 224, 208), "turquoise"),
        ((135, 206, 235), "sky blue"),
        ((0, 0, 139), "blue"),
        ((255, 192, 203), "pink"),
        ((255, 0, 0), "red"),
        ((255, 255, 0), "yellow"),
        ((255, 69, 0), "orange red"),
        ((46, 139, 87), "sea green"),
        ((0, 0, 255), "blue"),
        ((238, 130, 238), "violet"),
    ],
)
def test_plain_colours_are_called_what_everybody_calls_them(rgb, told):
    """CSS colour keywords as W3C's CSS Color 4 gives them in sRGB; brown is its saddlebrown."""
    assert colour_words(rgb).endswith(told)


@given(st.lists(COLOUR, min_size=1, max_size=20))
def test_many_colours_are_called_what_each_is_alone(colours):
    assert words_for(np.array(colours)) == [colour_words(colour) for colour in colours]
