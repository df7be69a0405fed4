"""Words on an entry of the book: kept, seen beside it, taken back, and in the table of glue-ups."""

import pytest

from bench.book.events import MixClosed, NoteWritten
from bench.job import faults
from bench.job.acts import record
from bench.job.acts.opening import open_panel
from bench.job.fold import fold
from bench.job.remembered import glue_ups_with_notes
from bench.job.words import book_lines
from bench.pace.csv_file import write_glue_ups
from tests.fakes.benches import set_section
from tests.fakes.drawings import grid_svg


def seq_of(job, kind) -> int:
    return next(x.seq for x in reversed(job.store.events(job.panel_id)) if isinstance(x.event, kind))


@pytest.fixture
def closed(job):
    set_section(job, 1)
    return seq_of(job, MixClosed)


def line(job, seq):
    return next(x for x in book_lines(job) if x.seq == seq)


def test_words_stand_on_their_entry_and_as_an_entry_of_their_own(job, closed):
    record.note(job, "  the heater was on ", about=closed)
    record.note(job, "and the radio", about=closed)
    assert line(job, closed).notes == ("the heater was on", "and the radio")
    assert book_lines(job)[0].text.startswith("and the radio (on: Section 1: ")
    assert job.state == fold(job.store.events(job.panel_id))


def test_words_taken_back_are_gone_from_the_entry(job, closed):
    record.note(job, "slow", about=closed)
    record.undo(job)
    assert line(job, closed).notes == ()


def test_words_on_no_entry_are_as_they_were(job):
    record.note(job, "a quiet day")
    newest = book_lines(job)[0]
    assert (newest.text, newest.may_be_noted) == ("a quiet day", False)


def test_an_entry_that_is_not_there_was_taken_back_or_is_a_note_takes_none(job, closed, store, clock):
    with pytest.raises(faults.NoSuchEntry, match="no entry 9999"):
        record.note(job, "x", about=9999)
    record.note(job, "slow", about=closed)
    with pytest.raises(faults.NoSuchEntry):
        record.note(job, "x", about=seq_of(job, NoteWritten))
    record.undo(job)
    record.undo(job)
    with pytest.raises(faults.NoSuchEntry, match="taken back"):
        record.note(job, "x", about=closed)
    other = open_panel(store, clock, grid_svg(6, 6), "other.svg")
    with pytest.raises(faults.NoSuchEntry):
        record.note(other, "x", about=closed)
    with pytest.raises(faults.NothingToUndo):
        record.note(job, "  ", about=closed)


def test_words_on_any_entry_of_a_mix_stand_in_the_row_of_its_glue_up(job, closed):
    set_section(job, 2)
    contact = next(x.seq for x in job.store.events(job.panel_id) if x.event.kind == "contact_made")
    record.note(job, "cold resin", about=contact)
    record.note(job, "left hand", about=closed)
    glue_ups, notes = glue_ups_with_notes(job.store)
    assert notes == ["cold resin; left hand", ""]
    rows = write_glue_ups(glue_ups, notes).splitlines()
    assert rows[1].endswith("cold resin; left hand")


def test_without_words_there_is_no_column_for_them(job, closed):
    glue_ups, notes = glue_ups_with_notes(job.store)
    assert notes == []
    assert "note" not in write_glue_ups(glue_ups, notes).splitlines()[0]
