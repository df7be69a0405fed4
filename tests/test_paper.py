"""Paper is printed in the bundled typeface, and every letter that can be has its sign."""

import io

import pypdfium2
import pytest
from fontTools.ttLib import TTFont

from bench.paper import FAMILY, clipped, new_pdf, put, width_mm, wrapped
from bench.resources import resource


def read_back(pdf) -> str:
    document = pypdfium2.PdfDocument(io.BytesIO(bytes(pdf.output())))
    return document[0].get_textpage().get_text_bounded()


@pytest.fixture
def pdf():
    made = new_pdf(title="Łódź")
    made.add_page()
    made.set_font(FAMILY, "", 12)
    return made


@pytest.mark.parametrize(
    "text", ["Größe 12 × 9 mm², ± ½ °C – „ja“", "Łódź, Žižkov", "Лимоны на синей ткани", "λεμόνια"]
)
def test_letters_of_many_names_are_printed(pdf, text):
    put(pdf, 20, 20, text)
    assert text in read_back(pdf)


def test_a_sign_that_no_typeface_has_is_a_question_mark_and_the_rest_stands(pdf):
    put(pdf, 20, 20, "lemons \u6ab8\u6aac end")
    assert "lemons ?? end" in read_back(pdf)


def test_a_line_is_as_wide_as_it_is_said_to_be_in_two_typefaces_too(pdf):
    text = "Citrons Лимоны"
    assert put(pdf, 20, 20, text) == pytest.approx(width_mm(pdf, text))
    assert width_mm(pdf, text) > width_mm(pdf, "Citrons")


def test_text_is_wrapped_to_a_width_and_a_word_too_long_is_cut(pdf):
    lines = wrapped(pdf, "a few plain words of no great length and onelongwordthatnoonecouldwrap", 30.0)
    assert all(width_mm(pdf, line) <= 30.0 for line in lines)
    assert " ".join(lines).startswith("a few plain words of no great length")
    assert lines[-1].endswith("…")
    assert clipped(pdf, "short", 30.0) == "short"


@pytest.mark.parametrize("name", ["Regular", "Bold"])
def test_paper_and_screen_are_set_in_one_typeface(name):
    """Paper wants the outlines that PDF readers know best; both files are of the same release."""
    screen = TTFont(str(resource("assets", "fonts", f"B612-{name}.otf")), recalcTimestamp=False)
    paper = TTFont(str(resource("assets", "fonts", f"B612-{name}.ttf")), recalcTimestamp=False)
    assert set(screen.getBestCmap()) == set(paper.getBestCmap())
    assert screen["name"].getDebugName(5) == paper["name"].getDebugName(5)
    assert "SIL Open Font License, Version 1.1" in paper["name"].getDebugName(13)
