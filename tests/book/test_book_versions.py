"""A change of what the book can hold has a number, and what earlier versions could hold is still read."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from pydantic import ValidationError

from bench.book.events import NoteWritten, read_events
from bench.book.events.upcast import upcast
from bench.book.faults import Damaged
from bench.book.files import BOOK_NAME
from bench.book.schema import KNOWN_VERSION, MIGRATIONS
from bench.book.store import Store
from bench.job.fold import fold
from tests.fakes.books import from_outside, make_book
from tests.fakes.event_shapes import event_shapes

SAMPLES = Path(__file__).parent / "samples"
WORKED = sorted(SAMPLES.glob("worked-version-*.sql"))


def shapes_of(version):
    return json.loads((SAMPLES / f"events-version-{version}.json").read_text(encoding="utf-8"))


def test_what_the_book_can_hold_is_what_is_listed_for_its_version():
    """Fails for a kind, version or field of an entry that is new, gone or renamed: give schema.py the next
    number, then `python -m tests.tools.write_book_sample`. An older Potwatch refuses what it cannot read only
    by that number."""
    assert event_shapes() == shapes_of(KNOWN_VERSION)


@pytest.mark.parametrize("version", [step.version for step in MIGRATIONS[:-1]])
def test_nothing_that_an_earlier_version_could_hold_has_gone(version):
    now = event_shapes()
    for name, fields in shapes_of(version).items():
        assert name in now
        assert set(fields.split()) <= set(now[name].split())


@pytest.mark.parametrize("sample", WORKED, ids=lambda path: path.stem)
def test_a_worked_book_of_every_kind_of_entry_is_read_and_folds(tmp_path, sample):
    with closing(sqlite3.connect(tmp_path / BOOK_NAME)) as connection:
        connection.executescript(sample.read_text(encoding="utf-8"))
    with Store.open(tmp_path) as store:
        kinds = {entry.event.kind for entry in store.all_events()}
        assert kinds == {name.split(",")[0] for name in event_shapes() if ", version " in name}
        for panel in store.panels():
            state = fold(store.events(panel.panel_id))
            assert state.sections
            assert store.blob(state.drawing_sha256)


# An event that has changed: these steps are made up, the first true one will look like them


def renamed(values):
    return {("text" if key == "words" else key): value for key, value in values.items()}


def shouted_less(values):
    return {**values, "text": values["text"].rstrip("!")}


def test_an_older_entry_is_brought_up_to_date_step_by_step(monkeypatch):
    monkeypatch.setattr("bench.book.events.upcast.UPCASTS", {("note_written", 0): renamed})
    old = '{"version":0,"kind":"note_written","words":"Cobalt"}'
    now = NoteWritten(text="Amber").model_dump_json()
    assert read_events([old, now]) == [NoteWritten(text="Cobalt"), NoteWritten(text="Amber")]


def test_steps_follow_each_other():
    steps = {("note_written", 1): renamed, ("note_written", 2): shouted_less}
    row = '{"version":1,"kind":"note_written","words":"Cobalt!"}'
    (last,) = upcast([row], steps)
    assert json.loads(last) == {"version": 3, "kind": "note_written", "text": "Cobalt"}


@pytest.mark.parametrize("row", ['{"kind":"note_written"}', "[]", "{", '{"version":1,"kind":"other"}'])
def test_what_no_step_is_about_passes_as_it_is(row):
    assert list(upcast([row], {("note_written", 1): renamed})) == [row]


def test_a_step_that_finds_nothing_to_work_on_is_told_as_a_bad_row(tmp_path, monkeypatch):
    path = make_book(tmp_path)
    monkeypatch.setattr("bench.book.events.upcast.UPCASTS", {("note_written", 0): shouted_less})
    row = '{"version":0,"kind":"note_written"}'
    from_outside(path, f"INSERT INTO event VALUES (NULL, 1, 'x', '2026-01-01T00:00:00+00:00', '{row}', NULL)")
    with Store.open(tmp_path) as store, pytest.raises(Damaged, match="entry 10: note_written of version 0"):
        store.events(1)


def test_an_entry_of_a_version_that_is_not_known_yet_is_not_taken_for_an_older_one(tmp_path):
    path = make_book(tmp_path)
    row = '{"version":2,"kind":"note_written","text":"Cobalt"}'
    from_outside(path, f"INSERT INTO event VALUES (NULL, 1, 'x', '2026-01-01T00:00:00+00:00', '{row}', NULL)")
    with Store.open(tmp_path) as store, pytest.raises(Damaged, match="version"):
        store.events(1)


@pytest.mark.parametrize(
    "row", ['{"text":"Cobalt","kind":"note_written"}', '{ "kind": "note_written", "text": "Cobalt"}']
)
def test_a_row_that_names_its_kind_in_another_place_reads_the_same(row):
    assert read_events([row, NoteWritten(text="Amber").model_dump_json()]) == [
        NoteWritten(text="Cobalt"),
        NoteWritten(text="Amber"),
    ]


@pytest.mark.parametrize(
    "row",
    [
        '{"version":1,"kind":"cat_walked_over","text":"Cobalt"}',
        '{"version":1,"kind":"note_written","text":5}',
        '{"version":1,"kind":"note_written","text":"Cobalt"',
    ],
)
def test_a_row_that_is_no_event_is_refused_among_good_ones(row):
    with pytest.raises(ValidationError):
        read_events([NoteWritten(text="Amber").model_dump_json(), row])
