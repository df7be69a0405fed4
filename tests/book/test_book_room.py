"""Where there is no room, only the act that did not fit is missing."""

import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from bench.book.faults import (
    DiskFull,
)
from bench.book.store import Store
from tests.fakes.books import (
    AT_UTC,
    MIX,
    act_of_three,
    acts_in,
    add_panel,
    mark_of,
    write_act,
)

ROOT = Path(__file__).parents[2]

on_posix = pytest.mark.skipif(os.name != "posix", reason="POSIX locks and limits")


class Limited(sqlite3.Connection):
    """A connection whose database may not grow at a test's wish."""

    made: list = []  # noqa: RUF012

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        type(self).made.append(self)

    def allow_no_more_pages(self):
        self.execute(f"PRAGMA max_page_count = {self.execute('PRAGMA page_count').fetchone()[0]}")

    def allow_pages(self):
        self.execute("PRAGMA max_page_count = 1000000")


def test_a_full_disk_loses_only_the_act_that_did_not_fit(tmp_path):
    with Store.open(tmp_path, factory=Limited) as store:
        panel_id = add_panel(store)
        write_act(store, panel_id, 0)
        connection = Limited.made[-1]
        connection.allow_no_more_pages()
        with pytest.raises(DiskFull) as caught:
            store.append(panel_id, act_of_three(1) * 500, at_utc=AT_UTC, marks=[(MIX, mark_of(1))])
        assert "free some space" in caught.value.todo
        assert [act_of_three(0)] == acts_in(store)
        assert mark_of(0) == store.countdown(panel_id, MIX)
        connection.allow_pages()
        write_act(store, panel_id, 1)
        assert [act_of_three(0), act_of_three(1)] == acts_in(store)


FILE_LIMIT = """
import resource, sys, pathlib
from bench.book.faults import NotWritable
from bench.book.store import Store
from tests.fakes.books import AT_UTC, act_of_three, acts_in, add_panel, write_act

with Store.open(pathlib.Path(sys.argv[1])) as store:
    panel_id = add_panel(store)
    write_act(store, panel_id, 0)
    hard = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
    resource.setrlimit(resource.RLIMIT_FSIZE, (120_000, hard))
    refused = 0
    for number in range(1, 200):
        try:
            write_act(store, panel_id, number)
        except NotWritable as fault:
            refused += 1
            break
    assert refused == 1, "the limit was never met"
    assert acts_in(store) == [act_of_three(kept) for kept in range(number)]
    resource.setrlimit(resource.RLIMIT_FSIZE, (hard, hard))
    write_act(store, panel_id, number)
    assert acts_in(store) == [act_of_three(kept) for kept in range(number + 1)]
print(number)
"""


@on_posix
@pytest.mark.slow
def test_a_file_that_may_not_grow_loses_only_the_act_that_did_not_fit(tmp_path):
    told = subprocess.run(
        [sys.executable, "-c", FILE_LIMIT, str(tmp_path)], capture_output=True, text=True, cwd=ROOT
    )
    assert (told.returncode, told.stderr) == (0, "")
    with Store.open(tmp_path) as store:
        assert [act_of_three(number) for number in range(int(told.stdout) + 1)] == acts_in(store)
