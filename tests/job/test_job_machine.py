"""Whatever a person does, in whatever order: the panel stays whole and the book stays true."""


import networkx as nx
import numpy as np
import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from bench.book import Store
from bench.book.events import BenchSet, MixClosed, SectionLaid, SectionsDrawn, SectionTakenUp
from bench.fault import Fault
from bench.job.acts import (
    cup,
    cure,
    dry,
    edge,
    lasting,
    opening,
    record,
    revising,
    shaping,
)
from bench.job.advice import advise
from bench.job.fold import fold, undone_acts
from bench.job.glue_sheet import glue_sheet
from bench.job.job import Job
from bench.job.words import book_lines
from tests.fakes.bench_rules import BenchRules
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import BLUE, YELLOW, grid_svg
from tests.fakes.finish_rules import FinishRules
from tests.fakes.glue_rules import GlueRules
from tests.fakes.photographed import photograph
from tests.fakes.stock_rules import StockRules


class Bench(BenchRules, GlueRules, StockRules, FinishRules, RuleBasedStateMachine):
    """Acts are tried at random; a Fault is a fair answer, anything else is not."""

    def __init__(self):
        super().__init__()
        self.clock = FakeClock()
        self.store = Store.in_memory()
        self.refused = 0
        self.written = []

    @initialize(columns=st.integers(4, 14), rows=st.integers(2, 8), patch=st.integers(0, 4))
    def open(self, columns, rows, patch):
        self.page_mm = (columns * 7.0, rows * 7.0)
        data = grid_svg(columns, rows, clear=lambda c, r: c < patch)
        bench = BenchSet(adhesive="clear-slow", pace_per_min=2.0)
        self.job = opening.open_panel(self.store, self.clock, data, "grid.svg", bench=bench)

    def attempt(self, act, *args, **kwargs):
        seq = self.store.last_seq(self.job.panel_id)
        try:
            return act(self.job, *args, **kwargs)
        except Fault:
            assert self.store.last_seq(self.job.panel_id) == seq, "a refused act wrote to the book"
            self.refused += 1
            return None

    def section(self, pick):
        numbers = sorted(self.job.state.sections)
        return numbers[pick % len(numbers)]

    def mix(self, pick):
        """Mostly the newest mix, where something is going on; now and then an older one."""
        mixes = sorted(self.job.state.mixes) or [1]
        return mixes[-1] if pick % 3 else mixes[pick % len(mixes)]

    @rule(pick=st.integers(0, 99), more=st.integers(-3, 6))
    def lay(self, pick, more):
        number = self.section(pick)
        self.attempt(dry.lay, number, self.job.section(number).piece_count + more)

    @rule(pick=st.integers(0, 99), more=st.integers(-3, 6))
    def photograph(self, pick, more):
        number = self.section(pick)
        self.attempt(photograph, number, self.job.section(number).piece_count + more)

    @rule(pick=st.integers(0, 99), hours=st.sampled_from([0.0, 0.5, 3.0, 600.0]))
    def time_laying(self, pick, hours):
        self.attempt(dry.time_laying, self.section(pick), hours)

    @rule(pick=st.integers(0, 99), patches=st.integers(0, 4))
    def cut(self, pick, patches):
        self.attempt(dry.lay, self.section(pick), patches=patches)

    @rule(about=st.integers(1, 60))
    def note(self, about):
        self.attempt(record.note, "a word", about=about)

    @rule(longer=st.booleans())
    def lasting(self, longer):
        act = lasting.allow_longer if longer else lasting.hold_to_label
        self.attempt(act, self.job.state.bench.adhesive)

    @rule(x=st.floats(0, 60), long_mm=st.floats(0, 40), points=st.integers(0, 6))
    def trace_edge(self, x, long_mm, points):
        line = np.array([[x + long_mm * k, 3.0] for k in range(points)]).reshape(-1, 2)
        corners = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
        task = self.attempt(edge.task_for)
        if task is not None:
            how = {"corner_px": corners, "frame": task.frame, "lines_mm": [line], "found": False}
            self.attempt(edge.trace, b"a photo", **how)

    @rule(pick=st.integers(0, 99))
    def take_up(self, pick):
        self.attempt(dry.take_up, self.section(pick))

    @rule(pick=st.integers(0, 99), temperature_C=st.sampled_from([15.0, 21.0, 30.0, 34.0]))
    def split(self, pick, temperature_C):
        self.attempt(dry.split, self.section(pick), temperature_C=temperature_C)

    @rule(pick=st.integers(0, 99), other=st.integers(0, 99))
    def join(self, pick, other):
        shaped = self.attempt(shaping.try_join, self.section(pick), self.section(other))
        if shaped is not None:
            self.attempt(shaping.shape, shaped)

    @rule(pick=st.integers(0, 99), across=st.floats(0, 1), dry_too=st.booleans())
    def split_along(self, pick, across, dry_too):
        number = self.section(pick)
        x_mm = across * self.job.panel.width_mm
        stroke = [(x_mm, -9.0), (x_mm + 3.0, 9e3)]
        if dry_too:
            self.attempt(dry.split_along, number, stroke)
        shaped = self.attempt(shaping.try_split, number, stroke)
        if shaped is not None:
            self.attempt(shaping.shape, shaped)

    @rule(pick=st.integers(0, 99), tesserae=st.lists(st.integers(0, 15), max_size=9))
    def move(self, pick, tesserae):
        touched = [t for t in tesserae if t < self.job.panel.tessera_count]
        shaped = self.attempt(shaping.try_move, touched, self.section(pick))
        if shaped is not None:
            self.attempt(shaping.shape, shaped)

    @rule(pitch_mm=st.sampled_from([7.0, 8.0, 9.5]), patch=st.integers(0, 4), yellow=st.integers(0, 14))
    def revise(self, pitch_mm, patch, yellow):
        """Another grid on the same page: what is dry or later must not be touched by it."""
        columns, rows = (max(2, int(side // pitch_mm)) for side in self.page_mm)
        data = grid_svg(
            columns,
            rows,
            pitch_mm=pitch_mm,
            clear=lambda c, r: c < patch,
            colour=lambda c, r: YELLOW if c >= yellow else BLUE,
            page_mm=self.page_mm,
        )
        before = self.worked_ground()
        tried = self.attempt(revising.try_revise, data, "again.svg")
        if tried is not None:
            self.attempt(revising.revise, tried)
            assert self.worked_ground() == before

    def worked_ground(self):
        """Return all that is known of sections that are dry or later, with where their pieces lie."""
        return {
            s.number: (s.stage, s.pieces, s.in_time, s.mix, s.confirmed, s.laid_utc, self.spots(s.tesserae))
            for s in self.job.state.sections.values()
            if s.stage != "drawn"
        }

    def spots(self, tesserae):
        return sorted(map(tuple, self.job.panel.centroid_mm[list(tesserae)].round(3).tolist()))

    @rule(temperature_C=st.sampled_from([2.0, 18.0, 23.0, 30.0]))
    def follow_the_advice(self, temperature_C):
        advice = advise(self.job)
        if advice.section is not None and advice.mix is None:
            self.attempt(dry.lay, advice.section)
            mix = self.attempt(cup.open_mix, advice.section, temperature_C)
            if mix is not None:
                self.attempt(cup.acknowledge, mix)

    @rule(pick=st.integers(0, 99))
    def chip_out(self, pick):
        self.attempt(cure.chip_out, self.section(pick))

    @rule(pick=st.integers(0, 99), stage=st.sampled_from(["firm", "hard"]))
    def confirm(self, pick, stage):
        self.attempt(cure.confirm_cure, self.section(pick), stage)

    @rule()
    def undo(self):
        self.attempt(record.undo)

    @rule(seconds=st.sampled_from([20, 240, 1500, 4 * 3600, 30 * 3600]))
    def wait(self, seconds):
        self.clock.advance(seconds)

    @rule(down_s=st.sampled_from([5, 600]), reads=st.booleans())
    def restart(self, down_s, reads):
        """Start again; sometimes the drawing is read from the book, as it is after a true start."""
        self.clock.reboot(down_s)
        panel = self.job.panel
        self.job = Job(self.store, self.clock, self.job.panel_id, None if reads else panel)
        assert self.job.panel.ids == panel.ids
        assert (self.job.panel.joints.pair == panel.joints.pair).all()

    @invariant()
    def every_tessera_is_in_exactly_one_section(self):
        members = [t for s in self.job.state.sections.values() for t in s.tesserae]
        assert sorted(members) == list(range(self.job.panel.tessera_count))

    @invariant()
    def drawn_sections_are_connected_of_one_adhesive_and_within_capacity(self):
        graph = nx.Graph(self.job.panel.joints.pair.tolist())
        graph.add_nodes_from(range(self.job.panel.tessera_count))
        clear = self.job.panel.glass == 1
        for section in self.job.state.with_stage("drawn"):
            assert nx.is_connected(graph.subgraph(section.tesserae))
            assert len({bool(clear[t]) for t in section.tesserae}) == 1
            assert len(section.tesserae) == 1 or section.expected_s <= section.capacity_s * (1 + 1e-9)

    @invariant()
    def the_fold_of_the_book_is_what_was_followed(self):
        assert fold(self.store.events(self.job.panel_id)) == self.job.state

    @invariant()
    def what_was_written_is_never_changed(self):
        """Promises, cautions and all else that was shown stand as they stood, entry by entry."""
        entries = self.store.all_events()
        assert entries[: len(self.written)] == self.written
        self.written = entries

    @invariant()
    def numbers_of_worked_sections_are_never_used_again(self):
        entries = self.store.events(self.job.panel_id)
        undone = undone_acts(entries)
        worked: set[int] = set()
        for entry in entries:
            if entry.act_id in undone:
                continue
            event = entry.event
            if isinstance(event, SectionsDrawn):
                assert worked.isdisjoint(p.number for p in event.promises)
            elif isinstance(event, SectionLaid):
                worked.add(event.section)
            elif isinstance(event, SectionTakenUp):
                worked.discard(event.section)
            elif isinstance(event, MixClosed):
                worked.add(event.section)

    @invariant()
    def a_photo_is_kept_and_only_of_what_lies_or_was_set(self):
        for section in self.job.state.sections.values():
            if section.photo is not None:
                assert section.stage != "drawn"
                assert self.store.blob(section.photo.photo) == b"a photo"

    @invariant()
    def whatever_can_be_shown_can_be_shown(self):
        assert advise(self.job).headline
        assert len(book_lines(self.job)) == len(self.store.events(self.job.panel_id))
        for mix in self.job.state.running_mixes:
            sheet = glue_sheet(self.job, mix.number)
            assert 0 <= sheet.left_s <= sheet.total_s
            assert sheet.advice

    def teardown(self):
        self.store.close()


TestBench = pytest.mark.slow(Bench.TestCase)
TestBench.settings = settings(
    max_examples=25,
    stateful_step_count=25,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
