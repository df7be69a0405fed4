"""What is advised, refused, learned and written in the book is said in the language spoken."""

from __future__ import annotations

import inspect
import re
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest

from bench.book import Store
from bench.book.events import NoteWritten, SectionsDrawn
from bench.book.files import BOOK_NAME
from bench.fault import Fault
from bench.job import cup_faults, faults, finish_words, stock_faults
from bench.job.acts import cure, dry, glueup, opening, revising
from bench.job.acts.opening import open_panel
from bench.job.advice import advise
from bench.job.away import away_lines
from bench.job.drafts import EMPTY, begin_empty, draft_of, drafts
from bench.job.glue_sheet import glue_sheet, how_many
from bench.job.key_words import AFTER_AWAY, NO_LONGER_FITS, PIECES_CHANGED, begun_already, division_reasons
from bench.job.learned_graphs import learned_graphs
from bench.job.trend_words import trends_of
from bench.job.words import book_lines, words
from bench.pace.capacity import SureOutOfRange, WorkingTimeTooShort
from bench.pace.csv_file import read_glue_ups
from bench.speech import Tongue, speak
from bench.table import BadTable
from tests.fakes.benches import set_section, start_mix
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.long_books import book_of, days

WORKED = Path(__file__).parents[1] / "book" / "samples" / "worked-version-4.sql"
ENGLISH = re.compile(
    r"\b(the|and|of|for|is|are|with|to|from|section|pieces?|patch(es)?|resin|hardener|cup|mix|glue-ups?|took|"
    r"left|bottle|cannot|give|choose|at|on|set|lies|day|wait)\b",
    re.I,
)
SAMPLES = {int: 3, float: 2.5, str: "X", bool: True, date: date(2026, 11, 24)}
SAMPLES |= {tuple[int, ...]: (4, 5), tuple[str, ...]: ("X", "Y")}


pytestmark = pytest.mark.usefixtures("german")


def english_and_german(say_it):
    speak(Tongue())
    english = say_it()
    speak(Tongue("de"))
    return english, say_it()


def all_faults() -> list[type[Fault]]:
    found = (one for module in (faults, cup_faults, stock_faults) for one in vars(module).values())
    return [x for x in found if isinstance(x, type) and issubclass(x, Fault) and x is not Fault]


@pytest.mark.parametrize("kind", all_faults(), ids=lambda kind: kind.__name__)
def test_no_rule_of_the_bench_is_told_in_english(kind):
    asked = list(inspect.signature(kind).parameters.values())
    given = {one.name: SAMPLES[one.annotation] for one in asked}
    if "stage" in given:
        given |= {"stage": "wet", "wanted": "drawn", "act": "shaped by hand"}
    english, german = english_and_german(lambda: str(kind(**given)))
    assert ENGLISH.search(german) is None
    assert english != german or not ENGLISH.search(english)


def test_a_rule_is_told_whole_with_its_comma():
    told = str(cup_faults.RunsAway(180.5, 2, 22.5))
    assert told == (
        "180,5 g in einem Becher würden bei 22,5 °C durchgehen; aufteilen: 2 Becher zu 90,2 g, "
        "einer nach dem anderen"
    )
    assert faults.WrongStage(3, "wet", "drawn", "shaped by hand").what == (
        "Abschnitt 3 ist nass, und nur ein gezeichneter Abschnitt lässt sich von Hand formen"
    )
    assert faults.BesideSoftWork(3, (4, 7)).what == (
        "Abschnitt 3 liegt neben den Abschnitten 4 und 7, die nicht fest sind"
    )
    speak(Tongue("de", fahrenheit=True))
    assert "72,5 °F" in cup_faults.RunsAway(180.5, 2, 22.5).what


def test_every_act_that_a_stage_bars_and_every_step_is_known():
    source = "".join(Path(inspect.getfile(x)).read_text("utf-8") for x in (cure, dry, glueup))
    for wanted, act in re.findall(r'WrongStage\(number, [^"]*"(\w+)", "([\w ]+)"\)', source):
        told = str(faults.WrongStage(1, "wet", wanted, act))
        assert ENGLISH.search(told) is None, told
    assert all(begun_already(step) != step for step in glueup.STEPS)


def test_every_reason_for_a_division_is_said_and_the_book_keeps_it_in_english():
    reasons = [
        *(opening.FIRST_DIVISION, opening.AFTER_GLUE_UP, opening.AFTER_SETTING, AFTER_AWAY),
        *(revising.AFTER_REVISION, cure.AFTER_CHIPPING, glueup.AFTER_LEFT_OVERS),
        *(NO_LONGER_FITS % 7, PIECES_CHANGED % 12),
    ]
    for why in reasons:
        english, german = english_and_german(lambda why=why: division_reasons(why))
        assert english == why
        assert ENGLISH.search(german) is None
        assert german != why
    assert "Abschnitt 12" in division_reasons("; ".join(reasons))
    assert division_reasons("told by a later version") == "told by a later version"


def test_what_is_written_in_the_book_does_not_hang_on_the_language():
    def why() -> list[str]:
        with Store.in_memory() as store:
            job = open_panel(store, FakeClock(), grid_svg(12, 8), "grid.svg")
            set_section(job, advise(job).section, left=2, why="dropped")
            opening.divide_anew(job)
            drawn = [x.event.why for x in store.all_events() if isinstance(x.event, SectionsDrawn)]
            draft_of(store, begin_empty(store, job.clock))
            return [*drawn, *(row.name for row in store.drafts.all())]

    english, german = english_and_german(why)
    assert english == german
    assert len(german) == 4
    assert german[-1] == EMPTY


def test_an_empty_panel_is_called_so_in_the_language_spoken():
    with Store.in_memory() as store:
        draft_id = begin_empty(store, FakeClock())
        assert draft_of(store, draft_id).title == drafts(store)[0].name == "Eine leere Tafel"


def test_every_kind_of_entry_is_said_in_german(tmp_path):
    with closing(sqlite3.connect(tmp_path / BOOK_NAME)) as connection:
        connection.executescript(WORKED.read_text(encoding="utf-8"))
    kinds = set()
    with Store.open(tmp_path) as store:
        entries = [x.event for x in store.all_events()]
    for event in entries:
        if isinstance(event, NoteWritten) or type(event) in finish_words.WORDS:
            continue
        english, german = english_and_german(lambda event=event: words(event))
        assert english != german, english
        found = ENGLISH.search(re.sub(r"\b[\w-]+\.(svg|png|jpg|toml)\b", "", german))
        assert found is None, german
        kinds.add(type(event))
    assert len(kinds) > 30


def test_a_glue_up_from_the_cup_to_the_book_is_said_in_german():
    with Store.in_memory() as store:
        job = open_panel(store, FakeClock(), grid_svg(24, 12), "grid.svg")
        number = advise(job).section
        assert advise(job).headline == f"Abschnitt {number} auslegen"
        mix = start_mix(job, number)
        assert advise(job).headline == f"Abschnitt {number} setzen"
        sheet = glue_sheet(job, mix)
        assert sheet.advice == "Langsam rühren, Rand und Boden abstreifen."
        assert how_many(sheet) == f"{sheet.pieces} Steine"
        glueup.begin_step(job, mix, "spread")
        glueup.begin_step(job, mix, "set")
        assert glue_sheet(job, mix).advice.startswith("Die Steine setzen")
        job.clock.advance(600)
        glueup.close(job, mix, left=3, why="did not fit")
        lines = [line.text for line in book_lines(job)]
        set_in = f"Abschnitt {number}: {sheet.pieces - 3} Steine gesetzt in 10:00"
        assert lines[1].startswith(f"{set_in}, einige übrig (passten nicht)")
        assert any(re.search(r"Ansatz: \d+,\d g Harz, \d+,\d g Härter", line) for line in lines)
        assert [line for line in lines if ENGLISH.search(line)] == []
        job.clock.advance(timedelta(days=20).total_seconds())
        back = away_lines(job)
        assert back[0].startswith("Vor 20 Tagen: ")
        assert [line for line in back if ENGLISH.search(line)] == []


def test_what_the_book_has_learned_is_said_in_german():
    with Store.in_memory() as store:
        job = book_of(store, days(12))
        told = list(trends_of(job))
        for graph in learned_graphs(job):
            told += [graph.title, graph.says, graph.x.title, graph.y.title, *(s.says for s in graph.spots)]
            told += [one.name for one in (*graph.strokes, *graph.bands, *graph.marks)]
        name = job.product(job.state.bench.adhesive).name
    assert [text for text in told if ENGLISH.search(text.replace(name, ""))] == []
    assert any(re.search(r"\d,\d pro Minute", text) for text in told)
    assert any("Wright-Exponent" in text for text in told)


def test_a_room_is_drawn_in_the_unit_spoken():
    """1.8 °F to the °C, water freezes at 32 °F; 25.4 mm to the inch exactly (NIST SP 811, B.8)."""
    with Store.in_memory() as store:
        job = book_of(store, days(6))
        _, _, life, grams = learned_graphs(job)
        speak(Tongue("en", inches=True, fahrenheit=True))
        _, _, life_F, grams_in = learned_graphs(job)
    assert [s.x for s in life_F.spots] == pytest.approx([1.8 * s.x + 32 for s in life.spots])
    assert life_F.x.title == "°F in the room"
    assert [s.x for s in grams_in.spots] == pytest.approx([s.x / 2.54**2 for s in grams.spots])
    assert grams_in.x.title == "in² of bed"
    assert re.search(r"g for \d+\.\d in² on this panel: \d+ g for 10 in²\.$", grams_in.says)


def test_a_table_that_cannot_be_read_is_told_in_german(tmp_path):
    table = tmp_path / "book.csv"
    head = "started_utc,small,medium,large,seconds,paused_s,temperature_C,finished_after_s,stringy_after_s,"
    table.write_text(f"{head}all_placed\n,0,40,0,480,0,80.5,1200,,yes\n", encoding="utf-8")
    with pytest.raises(BadTable) as told:
        read_glue_ups(table)
    assert told.value.what == "ein Raum von 80,5 °C ist nicht möglich"
    assert told.value.todo == "-20 bis 60 angeben"


def test_a_promise_that_cannot_be_is_told_in_german():
    assert str(SureOutOfRange(1.5)) == (
        "Zusage: 1,5 kann nicht zugesagt werden; 0,5 bis 0,99 angeben, z. B. 0,9 für 9 von 10"
    )
    assert WorkingTimeTooShort(90.0, 75.0, 0.9).what.startswith("eine Verarbeitungszeit von 1,5 min fasst")
