"""What the screens say, in German: with a comma, in its own order of words, and nothing left in English."""

from __future__ import annotations

import pytest

from bench.job.dry_count import Judged
from bench.screens.drawing_words import report_lines, unparted
from bench.screens.drying.words import pieces_words, sure_words
from bench.screens.gluing.words import mood_word, reasons, step_word
from bench.screens.section_words import day_lines, section_facts
from bench.speech import Tongue, say, speak
from tests.fakes.benches import PACE
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.english import left_in_english

pytestmark = pytest.mark.usefixtures("german")


@pytest.fixture
def job():
    from bench.book import Store
    from bench.job.acts.opening import open_panel

    with Store.in_memory() as store:
        yield open_panel(store, FakeClock(), grid_svg(24, 12), "grid.svg", bench=PACE)


def too_many(**how: object) -> Judged:
    usual = {
        "in_time": 0.806,
        "fits": False,
        "leave": 5,
        "strip": (1, 2),
        "edge_cm": 12.4,
        "side": "left",
        "mixes": 2,
        "unit": "pieces",
    }
    return Judged(**{**usual, **how})  # type: ignore[arg-type]


def test_the_dry_lay_says_what_to_do_with_too_many_pieces() -> None:
    assert sure_words(too_many(), 0.9, 0) == (
        "Sicher in 81 von 100, weniger als 90: 5 an der linken Kante (12 cm) liegen lassen oder teilen"
    )
    assert sure_words(too_many(unit="patches", leave=1), 0.9, 2) == (
        "Sicher in 81 von 100, weniger als 90: 1 Teilstück an der linken Kante (12 cm) liegen lassen "
        "oder zwei Mischungen"
    )
    assert sure_words(too_many(strip=()), 0.9, 0).endswith(": besser teilen")
    assert pieces_words(12, 14, 3, lie_dry=True) == "12 Steine liegen, 14 gezeichnet, in 3 Teilstücken"
    speak(Tongue("de", inches=True))
    assert "(4,9 in)" in sure_words(too_many(), 0.9, 0)  # 12.4 cm, at 2.54 cm to the inch


def test_moods_steps_and_reasons_are_said_and_their_keys_stay() -> None:
    assert [mood_word(m) for m in ("working", "last pieces", "stop")] == ["läuft", "letzte Steine", "Stopp"]
    assert [step_word(s) for s in ("stir", "spread", "set", "clean", "")] == [
        *("rühren", "aufziehen", "setzen", "säubern", ""),
    ]
    assert dict(reasons())["stringy"] == "Er zog Fäden"


def test_the_card_of_a_section_is_german(job) -> None:
    number = min(job.state.sections)
    facts = section_facts(job, number)
    said = (facts.head, facts.act, *facts.lines)
    assert facts.head == f"Abschnitt {number}, gezeichnet"
    assert facts.act == f"Abschnitt {number} auslegen"
    assert any("min setzen, " in line and "," in line.rpartition(" h ")[0][-3:] for line in facts.lines)
    assert left_in_english(said) == []
    assert unparted(facts.act) == f"Abschnitt\u00a0{number} auslegen"
    assert left_in_english((*day_lines(job), *report_lines(job))) == []


def test_a_section_is_never_parted_from_its_number_in_english_either() -> None:
    speak(Tongue())
    assert unparted("Lay out section 7, then section 8") == "Lay out section\u00a07, then section\u00a08"


def test_decimals_have_their_comma() -> None:
    assert say("{minutes:g} minutes ago:", minutes=2.5) == "Vor 2,5 Minuten:"
