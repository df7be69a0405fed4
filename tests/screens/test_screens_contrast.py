"""Text can be read in daylight and in lamp light, in both dresses."""

import pytest

from bench.screens.contrast import TEXT_CONTRAST, contrast, rgb
from bench.screens.theme import LINE_PAIRS, LOOKS, OKABE_ITO, SURROUND, TEXT_PAIRS

WHITE = (1.0, 1.0, 1.0)


@pytest.mark.parametrize(
    ("code", "expected"),
    [("#767676", 4.542), ("#777777", 4.478), ("#000000", 21.0), ("#ffffff", 1.0)],
)
def test_contrast_on_white_is_the_published_one(code: str, expected: float) -> None:
    """Source: WCAG, the two greys on either side of 4.5:1; 21 and 1 by definition."""
    assert expected == pytest.approx(contrast(rgb(code), WHITE), abs=0.001)


def test_contrast_does_not_mind_which_colour_is_the_text() -> None:
    assert contrast(rgb("#123456"), WHITE) == contrast(WHITE, rgb("#123456"))


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize(("text", "back"), TEXT_PAIRS)
def test_all_text_reaches_seven_to_one(look: str, text: str, back: str) -> None:
    colours = LOOKS[look]
    assert contrast(rgb(colours[text]), rgb(colours[back])) >= TEXT_CONTRAST


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize(("line", "back"), LINE_PAIRS)
def test_the_ring_of_the_focus_reaches_three_to_one(look: str, line: str, back: str) -> None:
    """WCAG 2.2, success criterion 1.4.11: what shows a control's state."""
    colours = {**LOOKS[look], "surround": SURROUND}
    assert contrast(rgb(colours[line]), rgb(colours[back])) >= 3.0


@pytest.mark.parametrize("look", LOOKS)
def test_every_colour_but_the_outlines_is_neutral(look: str) -> None:
    """Nothing round the glass may tint what the eye makes of it: no channel strays by more than 2 %."""
    for code in (*LOOKS[look].values(), SURROUND):
        assert max(rgb(code)) - min(rgb(code)) <= 0.02


def test_outline_colours_are_those_of_okabe_and_ito() -> None:
    """Source: Okabe and Ito, 'Color Universal Design'; their black is kept for the lines between."""
    assert {"#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7"} == set(OKABE_ITO)


@pytest.mark.parametrize("code", ["red", "#fff", "777777#", ""])
def test_a_colour_of_another_form_is_refused(code: str) -> None:
    with pytest.raises(ValueError, match="rrggbb"):
        rgb(code)
