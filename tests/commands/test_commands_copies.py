"""`book --restore` and `--mend`, and what a second program is told on the command line."""

import pytest

from bench.book import SystemClock, copies, open_book
from bench.book.events import BenchSet
from bench.book.files import BOOK_NAME
from bench.job.acts import record
from bench.job.acts.opening import open_panel
from bench.job.job import Job
from tests.fakes.drawings import grid_svg


@pytest.fixture
def book(home):
    """A book with a note, its backup, and one note more."""
    clock = SystemClock()
    with open_book(home, clock).store as store:
        open_panel(store, clock, grid_svg(6, 4), "lemons.svg", bench=BenchSet(pace_per_min=5.0))
        record.note(Job(store, clock, 1), "Cobalt sheet is cut.")
    with open_book(home, clock).store as store:
        record.note(Job(store, clock, 1), "Amber sheet is cut.")
    return home


def test_the_copies_are_listed_with_what_they_hold(run, book):
    code, out, _ = run("book", "--restore")
    assert code == 0
    assert out.startswith("   1  ")
    assert "1 panel, 4 entries" in out
    assert "Nothing is put back yet" in out


def test_a_copy_is_put_back_by_its_number_and_that_is_undone_the_same_way(run, book):
    code, out, err = run("book", "--restore", 1)
    assert (code, err) == (0, "")
    assert out.startswith("The book is as it was on ")
    assert "put copy 2 back" in out
    assert "Amber" not in run("book")[1]
    assert run("book", "--restore", 2)[0] == 0
    assert "Amber" in run("book")[1]


def test_a_copy_that_is_not_there_is_told_with_those_that_are(refused, book):
    assert "there is no copy 9 of the book; choose one of these: 1" in refused("book", "--restore", 9)


def test_without_a_book_there_is_nothing_to_put_back_or_mend(refused, home):
    for option in ("--restore", "--mend"):
        assert "there is no book yet" in refused("book", option)
    assert not home.exists()


def test_a_damaged_book_is_told_how_to_mend_and_mended_when_asked(run, refused, book):
    path = book / BOOK_NAME
    path.write_bytes(path.read_bytes()[:5000])
    before = path.read_bytes()
    assert "potwatch book --mend" in refused("book")
    assert path.read_bytes() == before
    code, out, err = run("book", "--mend")
    assert (code, out) == (0, "")
    assert "the book was damaged and is mended: saved are 4 entries" in err
    assert "kept as copy 2, set aside" in err
    assert "Cobalt" in run("book")[1]
    code, out, _ = run("book", "--mend")
    assert (code, out) == (0, f"the book is whole: {book}\n")


def test_a_book_that_is_gone_but_for_its_backups_is_put_back(run, book):
    (book / BOOK_NAME).unlink()
    code, out, err = run("book", "--mend")
    assert code == 0
    assert "saved are 4 entries" in out + err
    assert "Cobalt" in run("book")[1]


def test_while_another_program_holds_the_book_it_is_read_and_not_put_back(run, refused, book):
    with open_book(book, SystemClock()).store:
        assert "Amber" in run("book")[1]
        assert "in use by another program" in refused("book", "--restore", 1)
        assert "in use by another program" in refused("book", "--mend")
    assert len(copies(book)) == 1
