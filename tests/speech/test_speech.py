"""What is said: in the language, marks and units that were chosen."""

from __future__ import annotations

from datetime import UTC, date, datetime

import numpy as np
import pytest

from bench.speech import (
    LANGUAGES,
    Tongue,
    area,
    in_area,
    in_length,
    language_of,
    length,
    line_length,
    plain_area,
    plain_length,
    plain_size,
    plain_temperature,
    rough_length,
    say,
    say_n,
    short_day,
    size,
    speak,
    tape_length,
    temperature,
    unbroken,
    warmer,
)
from bench.speech.measures import celsius_typed, in_unit, mm_typed


def test_a_sentence_takes_its_values_and_none_but_those() -> None:
    assert say("Leave {count} pieces of section {section}.", count=12, section=3) == (
        "Leave 12 pieces of section 3."
    )
    assert say("no values: {these} stay") == "no values: {these} stay"
    with pytest.raises(KeyError):
        say("{a} and {b}", a=1)
    with pytest.raises(KeyError):  # no way into an object from a catalogue
        say("{a.__class__}", a=1)


def test_decimals_have_the_mark_that_is_spoken_and_whole_numbers_and_words_keep_their_points() -> None:
    speak(Tongue(mark=","))
    assert say("{a:.1f} g of {b}, {n}", a=4.25, b="v1.2", n=1000) == "4,2 g of v1.2, 1000"
    assert say("{a:.2f}", a=np.float64(0.5)) == "0,50"
    assert say("{a:,} {b:,.1f} {c:.1f}", a=12345, b=1234.5, c=4) == "12.345 1.234,5 4,0"
    speak(Tongue())
    assert say("{a:.1f} g", a=4.25) == "4.2 g"


def test_a_count_chooses_the_form() -> None:
    assert say_n("{count} piece", "{count} pieces", 1) == "1 piece"
    assert say_n("{count} piece", "{count} pieces", 0) == "0 pieces"


def test_units_follow_the_choice() -> None:
    """25.4 mm to the inch exactly (NIST SP 811, B.8); 1.8 °F to the °C, water freezes at 32 °F."""
    assert (length(304.8), size(304.8, 203.2), area(64516)) == ("305 mm", "305 × 203 mm", "645 cm²")
    assert temperature(23) == "23 °C"
    speak(Tongue(inches=True, fahrenheit=True))
    assert (length(304.8), size(304.8, 203.2), area(64516)) == ("12.0 in", "12.0 × 8.0 in", "100.0 in²")
    assert temperature(23) == "73 °F"
    assert (mm_typed(12), celsius_typed(212)) == (pytest.approx(304.8), pytest.approx(100))
    assert celsius_typed(in_unit(17.3)) == pytest.approx(17.3)


def test_a_length_that_was_typed_is_said_as_it_was_typed() -> None:
    """25.4 mm to the inch exactly (NIST SP 811, B.8)."""
    assert (plain_length(6), plain_length(0.8), plain_length(304.8)) == ("6 mm", "0.8 mm", "304.8 mm")
    assert (rough_length(152.4), rough_length(9.554)) == ("152 mm", "9.55 mm")
    assert plain_size(304.8, 203) == "304.8 × 203 mm"
    assert unbroken(size(96, 72)) == "96\u00a0×\u00a072\u00a0mm"
    assert in_length(25.4) == 25.4
    speak(Tongue(inches=True))
    assert (plain_length(6.35), plain_length(304.8), plain_length(318.0)) == ("0.25 in", "12 in", "12.52 in")
    assert (rough_length(152.4), plain_size(304.8, 203.2)) == ("6 in", "12 × 8 in")
    assert in_length(25.4) == pytest.approx(1.0)


def test_edges_tape_and_temperatures_are_said_in_the_units_of_a_workshop() -> None:
    """25.4 mm to the inch and 304.8 mm to the foot exactly (NIST SP 811, B.8); 1.8 °F to the °C."""
    assert (line_length(419.1), tape_length(3048.0)) == ("42 cm", "3.0 m")
    assert (plain_temperature(23.0), plain_temperature(22.5), warmer(10.0)) == ("23 °C", "22.5 °C", "10 °C")
    assert (in_area(6451.6), plain_area(3750)) == (pytest.approx(64.516), "37.5 cm²")
    speak(Tongue(inches=True, fahrenheit=True))
    assert (line_length(419.1), tape_length(3048.0)) == ("16.5 in", "10.0 ft")
    assert (plain_temperature(23.0), plain_temperature(22.5), warmer(10.0)) == ("73.4 °F", "72.5 °F", "18 °F")
    assert (in_area(6451.6), plain_area(6451.6)) == (pytest.approx(10.0), "10 in²")


def test_a_colour_is_a_word_that_its_depth_stands_before() -> None:
    from bench.drawing.colour_words import colour_words

    assert colour_words((0, 0, 139)) == "deep blue"
    speak(Tongue("de"))
    assert colour_words((0, 0, 139)) == "tiefes Blau"


def test_days_are_named() -> None:
    assert short_day(date(2026, 11, 24)) == "Tue 24 Nov"
    assert short_day(datetime(2026, 5, 3, tzinfo=UTC)) == "Sun 3 May"


def test_german_is_spoken_with_its_comma_and_its_order_of_a_date() -> None:
    speak(Tongue("de"))
    assert say("{a:.1f} g", a=4.25) == "4,2 g"
    assert short_day(date(2026, 3, 24)) == "Di 24. Mär"
    assert length(12.34, 1) == "12,3 mm"


def test_the_catalogues_hold_all_that_is_said_and_nothing_else() -> None:
    from tests.tools.catalogues import brought_up_to_date, gathered, mo_bytes, po_bytes, po_path

    said = gathered()
    assert len(said) > 30
    for language in LANGUAGES:
        if language == "en":
            continue
        new, path = brought_up_to_date(language, said), po_path(language)
        assert po_bytes(new) == path.read_bytes(), "run python -m tests.tools.catalogues"
        assert mo_bytes(new) == path.with_suffix(".mo").read_bytes()
        untold = [
            m.id for m in new if m.id and (m.fuzzy or not (all(m.string) if m.pluralizable else m.string))
        ]  # what is fuzzy is not compiled, so it would be said in English
        assert untold == []


def test_a_translation_has_the_values_of_its_sentence() -> None:
    import string

    from tests.tools.catalogues import brought_up_to_date, gathered

    def names(text: str) -> set[str]:
        return {name for _, name, _, _ in string.Formatter().parse(text) if name}

    for message in brought_up_to_date("de", gathered()):
        if message.id and not message.pluralizable:
            assert names(message.string) == names(message.id), message.id


@pytest.mark.parametrize(
    ("environ", "language"),
    [
        ({}, "en"),
        ({"LANG": "de_DE.UTF-8"}, "de"),
        ({"LANG": "de_AT.UTF-8@euro", "LC_ALL": "C"}, "en"),
        ({"LANG": "en_GB", "LC_MESSAGES": "de"}, "de"),
        ({"LANG": "C.UTF-8", "LANGUAGE": "fr:de:en"}, "de"),
        ({"LANG": "fr_FR", "LANGUAGE": ""}, "en"),
        ({"LANG": "DE-CH"}, "de"),
    ],
)
def test_a_machine_is_spoken_to_as_it_is_set(environ: dict[str, str], language: str) -> None:
    """Order of the variables: POSIX.1-2017, 8.2; LANGUAGE before them: GNU gettext manual, 2.3.1."""
    assert language_of(environ) == language
