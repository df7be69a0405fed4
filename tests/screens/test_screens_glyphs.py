"""A maker's own names are shown with the letters that the typeface has, and kept as they were typed."""

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from bench.resources import resource
from bench.screens.offscreen import Stage
from bench.screens.parts.glyphs import covered, drawable


def test_the_table_is_what_both_cuts_of_the_typeface_have() -> None:
    """Source: the fonts themselves, read with fontTools."""
    fonts = [resource("assets", "fonts", f"B612-{cut}.otf") for cut in ("Regular", "Bold")]
    cuts = [set(TTFont(str(font), recalcTimestamp=False).getBestCmap()) for font in fonts]
    assert covered() == (cuts[0] & cuts[1]) - {0}


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("Bowl of lemons", "Bowl of lemons"),
        ("Größe Ø 5 µm, œuvre, façade", "Größe Ø 5 µm, œuvre, façade"),
        ("Příliš žluťoučký kůň", "Príliš zlutoucký kun"),
        ("Łódź, święta", "Lódz, swieta"),
        ("Iğdır'da şişe", "Igdir'da sise"),
        ("őrült tűz", "orült tuz"),
        ("Đorđe", "Dorde"),
        ("Κήπος με λεμόνια", "Κηπος με λεμονια"),
        ("Лимоны и Щука", "Limony i Shchuka"),
        ("Їжак", "Izhak"),
        ("cafe\u0301", "café"),
        ("lemons 🍋", "lemons ?"),
        ("שלום", "????"),
        ("a\u200bb\u200d\ufe0fc\u202e", "abc"),
        ("one\ntwo\u00a0three", "one\ntwo\u00a0three"),
        ("ﬁne №5 Ⅳ", "ﬁne No5 Ⅳ"),
        ("", ""),
    ],
)
def test_names_are_shown_as_near_as_the_typeface_comes(typed, shown) -> None:
    assert drawable(typed) == shown


@given(st.text())
def test_whatever_is_typed_is_drawn_without_a_box_and_once_is_enough(text) -> None:
    shown = drawable(text)
    assert all(ord(sign) < 0x80 or ord(sign) in covered() for sign in shown)
    assert drawable(shown) == shown


def test_a_label_draws_what_it_can_and_keeps_its_text(stage: Stage) -> None:
    from bench.screens.parts.plates import Words

    plain, own = Words(text="Lodz"), Words(text="Łodż")
    for words in (plain, own):
        stage.show(words)
        stage.frame(2)
        stage.clear()
    assert own.text == "Łodż"
    assert own.texture.pixels == plain.texture.pixels
    assert any(own.texture.pixels)
