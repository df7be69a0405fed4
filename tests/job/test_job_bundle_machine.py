"""Whatever was done to a panel, it is the same panel on the next tablet, and goes on there."""

import tempfile
from contextlib import suppress
from itertools import permutations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from bench.book import Store
from bench.book.events import BenchSet, event_json
from bench.job.acts import record
from bench.job.acts.bringing import open_the_bundle
from bench.job.acts.bundling import bundle_panel
from bench.job.acts.opening import open_panel
from bench.job.faults import NothingToUndo
from bench.job.fold import fold
from bench.job.job import Job
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.job.test_job_machine import Bench


class Carried(Bench):
    """The acts of the bench, with now and then a move to a tablet that knows nothing of the panel."""

    @rule()
    def move_house(self):
        told = fold(self.store.events(self.job.panel_id))
        before = [(x.act_id, x.at_utc, x.event) for x in self.store.events(self.job.panel_id)]
        other = Store.in_memory()
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "panel.zip"
            bundle_panel(self.store, self.clock, self.job.panel_id, path)
            brought = open_the_bundle(other, self.clock, path)
            assert brought.how == "new"
            assert fold(other.events(brought.job.panel_id)) == told == brought.job.state
            again = open_the_bundle(other, self.clock, path)
        assert (again.how, again.entries) == ("nothing", 0)
        assert [(x.act_id, x.at_utc, x.event) for x in other.events(brought.job.panel_id)] == before
        assert brought.job.panel.ids == self.job.panel.ids
        self.store.close()
        self.store, self.job = other, brought.job
        self.written = []  # what was written stands in the order in which it was brought


class Apart(RuleBasedStateMachine):
    """Two tablets, a panel on one: notes are written on either, and bundles carried to and fro.

    The model is a tree: each entry knows the one that it was written after.
    """

    def __init__(self):
        super().__init__()
        self.clock, self.count = FakeClock(), 0
        self.stores = [Store.in_memory(), Store.in_memory()]
        self.after: dict[tuple[str, str], tuple[str, str] | None] = {}
        self.folder = tempfile.TemporaryDirectory()
        job = open_panel(
            self.stores[0], self.clock, grid_svg(4, 3), "grid.svg", bench=BenchSet(pace_per_min=5.0)
        )
        self.learn(job)

    def entries(self, store, panel):
        return [(x.act_id, event_json(x.event)) for x in store.events(panel.panel_id)]

    def learn(self, job):
        """Note down what the newest entries of a panel were written after."""
        told = self.entries(job.store, job)
        for before, entry in zip([None, *told], told, strict=False):
            self.after.setdefault(entry, before)

    def pick(self, side, panel):
        panels = self.stores[side].panels()
        return panels[panel % len(panels)] if panels else None

    @rule(side=st.integers(0, 1), panel=st.integers(0, 9), undo=st.booleans())
    def work(self, side, panel, undo):
        row = self.pick(side, panel)
        if row is None:
            return
        job = Job(self.stores[side], self.clock, row.panel_id)
        self.count += 1
        self.clock.advance(60)
        if undo:
            with suppress(NothingToUndo):
                record.undo(job)
        else:
            record.note(job, f"note {self.count}")
        self.learn(job)

    @rule(side=st.integers(0, 1), panel=st.integers(0, 9))
    def carry(self, side, panel):
        row = self.pick(side, panel)
        if row is None:
            return
        here, there = self.stores[side], self.stores[1 - side]
        path = Path(self.folder.name) / "panel.zip"
        bundle_panel(here, self.clock, row.panel_id, path)
        brought = open_the_bundle(there, self.clock, path)
        carried = self.entries(here, row)
        assert self.entries(there, brought.job)[: len(carried)] == carried
        assert open_the_bundle(there, self.clock, path).how == "nothing"

    @invariant()
    def every_entry_stands_after_the_one_that_it_was_written_after(self):
        for store in self.stores:
            for row in store.panels():
                told = self.entries(store, row)
                assert [self.after[entry] for entry in told] == [None, *told[:-1]]

    @invariant()
    def no_entry_stands_twice_and_no_panel_is_the_beginning_of_another(self):
        for store in self.stores:
            rows = [(x.act_id, event_json(x.event)) for x in store.all_events()]
            assert len(set(rows)) == len(rows)
            books = [self.entries(store, row) for row in store.panels()]
            for one, other in permutations(books, 2):
                assert other[: len(one)] != one
            assert len({row.name for row in store.panels()}) == len(books)

    def teardown(self):
        self.folder.cleanup()
        for store in self.stores:
            store.close()


TestCarried = pytest.mark.slow(Carried.TestCase)
TestCarried.settings = settings(
    max_examples=12,
    stateful_step_count=20,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
TestApart = pytest.mark.slow(Apart.TestCase)
TestApart.settings = settings(max_examples=15, stateful_step_count=25, deadline=None)
