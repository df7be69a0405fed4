"""How a book is opened to be worked in: written where it can be, read where it cannot, and it is said why."""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from bench.book import open_book
from bench.book.faults import InUse, NotWritable, OnlyReading
from bench.book.files import BOOK_NAME
from bench.book.store import Store
from bench.book.told import ReadingOnly
from tests.fakes.books import act_of_three, acts_in, make_book, write_act
from tests.fakes.clock import FakeClock
from tests.fakes.failing_disk import can_fail
from tests.fakes.nobody import as_nobody

ROOT = Path(__file__).parents[2]


@pytest.fixture
def clock():
    return FakeClock()


def test_a_new_book_is_opened_without_a_word(tmp_path, clock):
    found = open_book(tmp_path, clock)
    with found.store as store:
        assert (found.told, store.read_only, store.reading_because) == ((), False, "")


def test_a_second_instance_reads_and_is_told_who_writes(tmp_path, clock):
    make_book(tmp_path)
    with open_book(tmp_path, clock).store as first, open_book(tmp_path, clock).store as second:
        assert (second.read_only, second.reading_because) == (True, "the book is in use by another program")
        with pytest.raises(OnlyReading):
            write_act(second, 1, 9)
        write_act(first, 1, 3)
        assert acts_in(second) == [act_of_three(number) for number in range(4)]
    with open_book(tmp_path, clock).store as again:
        assert not again.read_only


def test_a_second_instance_has_one_calm_line(tmp_path, clock):
    make_book(tmp_path)
    with open_book(tmp_path, clock).store:
        second = open_book(tmp_path, clock)
        second.store.close()
    (told,) = second.told
    assert isinstance(told, ReadingOnly)
    assert isinstance(told.why, InUse)
    assert "\n" not in str(told)
    assert str(told).endswith("close the other Potwatch, then open it again")


def test_where_nothing_is_to_be_read_the_second_instance_is_refused(tmp_path, clock):
    with Store.open(tmp_path):
        (tmp_path / BOOK_NAME).unlink()
        with pytest.raises(InUse):
            open_book(tmp_path, clock)


@pytest.mark.skipif(os.name != "posix", reason="POSIX modes")
def test_a_folder_that_cannot_be_written_is_read(clock):
    with tempfile.TemporaryDirectory() as name, as_nobody(Path(name)):
        folder = Path(name)
        make_book(folder)
        folder.chmod(0o500)
        (folder / "potwatch.lock").chmod(0o400)
        try:
            found = open_book(folder, clock)
            with found.store as store:
                assert len(acts_in(store)) == 3
                assert "cannot be written here" in store.reading_because
            assert isinstance(found.told[0].why, NotWritable)
        finally:
            folder.chmod(0o700)


DISK_IS_FULL = """
import sys
from pathlib import Path
from bench.book import SystemClock, open_book
from tests.fakes.books import acts_in
from tests.fakes.failing_disk import fail_from_now_on
fail_from_now_on(sys.argv[2])
found = open_book(Path(sys.argv[1]), SystemClock())
print(len(acts_in(found.store)), *[type(fault).__name__ for fault in found.told])
"""


@pytest.mark.slow
@pytest.mark.skipif(not can_fail(), reason="a disk that fails for good is made with Linux")
@pytest.mark.parametrize("how", ["full", "no sync", "broken"])
def test_a_book_on_a_disk_that_fails_is_opened_all_the_same(tmp_path, how):
    make_book(tmp_path)
    script = [sys.executable, "-c", DISK_IS_FULL, str(tmp_path), how]
    done = subprocess.run(script, capture_output=True, text=True, cwd=ROOT)
    assert (done.returncode, done.stderr) == (0, "")
    count, *told = done.stdout.split()
    assert count == "3"
    assert set(told) <= {"NotBackedUp", "ReadingOnly"}
    assert told
