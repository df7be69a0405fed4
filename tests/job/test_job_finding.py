"""Entries are found by the words that a person reads in them."""

import pytest

from bench.book import Store
from bench.job.acts import dry, record
from bench.job.acts.opening import open_panel
from bench.job.finding import NothingToFind, about, holding
from bench.job.words import book_lines
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

TWO_WAYS = "Café", "Cafe\N{COMBINING ACUTE ACCENT}"


@pytest.fixture
def job():
    with Store.in_memory() as store:
        job = open_panel(store, FakeClock(), grid_svg(3, 3), "nine.svg")
        dry.lay(job, 1)
        laid = book_lines(job)[0].seq
        record.note(job, "Cobalt from sheet 4, straße side.")
        record.note(job, "Cobalt chips easily.", about=laid)
        yield job


def texts(job, *wanted):
    return [line.text for line in holding(book_lines(job), wanted)]


def test_every_word_must_stand_in_an_entry_the_newest_is_first(job):
    both, one = texts(job, "cobalt"), texts(job, "cobalt", "sheet")
    assert len(both) == 3  # the two notes, and the entry that one of them is on
    assert [text in both for text in one] == [True]
    seqs = [line.seq for line in holding(book_lines(job), ["cobalt"])]
    assert seqs == sorted(seqs, reverse=True)


def test_an_entry_is_found_by_the_words_on_it(job):
    assert "Section 1 lies dry: 9 pieces" in texts(job, "chips")
    assert "Section 1 lies dry: 9 pieces" in texts(job, "chips dry")
    assert texts(job, "chips", "sheet") == []


def test_capitals_and_parts_of_words_make_no_difference(job):
    assert texts(job, "COBALT SHEET") == texts(job, "obal", "shee") == texts(job, "cobalt", "STRASSE")


@pytest.mark.parametrize("written", TWO_WAYS)
@pytest.mark.parametrize("asked", TWO_WAYS)
def test_an_accent_is_found_however_it_is_written(job, written, asked):
    record.note(job, f"{written} table")
    assert len(texts(job, asked)) == 1


def test_what_is_in_no_entry_is_not_found(job):
    assert texts(job, "vermilion") == []


@pytest.mark.parametrize("wanted", [(), ("",), (" ", "\t")])
def test_without_a_word_nothing_is_looked_for(job, wanted):
    with pytest.raises(NothingToFind, match="no word"):
        holding(book_lines(job), wanted)


@pytest.mark.parametrize("before", [0, 30, 400])
@pytest.mark.parametrize("wanted", ["STRASSE", "vermilion caf\N{LATIN SMALL LETTER E WITH ACUTE}", "ver"])
def test_of_a_long_text_what_is_around_the_word_is_shown(before, wanted):
    text = "ﬁne ß " * before + "vermilion Cafe\N{COMBINING ACUTE ACCENT} straße " + "sheet " * 100
    shown = about(text, [wanted], 120)
    assert len(shown) <= 120
    assert shown.startswith("… ") == (before > 0 and 6 * before > 60)
    assert "vermilion Caf\N{LATIN SMALL LETTER E WITH ACUTE} stra" in shown


def test_a_text_without_the_word_or_short_enough_begins_at_its_beginning():
    assert about("sheet " * 100, ["amber"], 60) == about("sheet " * 100, [], 60) == "sheet " * 9 + "shee …"
    assert about("a sheet", ["sheet"], 60) == "a sheet"
