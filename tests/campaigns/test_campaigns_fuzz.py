"""The short form of the fuzzer: a few hundred hostile files, the lighter giants, and the watch itself.

The long form: `python -m tests.campaigns.fuzz --inputs 50000`.
"""

import contextlib
import os

import pytest
from hypothesis import HealthCheck, given, settings

from bench.fault import Fault
from tests.campaigns import feeds
from tests.campaigns.fuzz import SHARES, Figures, batches, run_batch
from tests.campaigns.giants import giants
from tests.campaigns.hostile_seeds import seeds
from tests.campaigns.made_up import MADE_UP

LIGHT = sum(1 for _ in giants(light=True))

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(not os.access("/proc/self/clear_refs", os.W_OK), reason="memory is told by Linux"),
]


@pytest.mark.parametrize("kind", SHARES)
def test_a_good_file_of_each_kind_is_read(kind, tmp_path):
    for data in seeds(kind):
        feeds.FEEDS[kind](data, tmp_path)


@pytest.mark.parametrize(("kind", "way", "count"), [("all", "mutated", 140), ("light", "giants", LIGHT)])
def test_hostile_files_end_in_a_fault_in_time_and_within_the_folder(tmp_path, kind, way, count):
    figures = Figures()
    run_batch(figures, (kind, way, 0, count), 2, tmp_path)
    assert figures.found == []
    assert figures.inputs == count
    assert {answer for _, answer in figures.answers} == {"read", "refused"}


def test_what_no_reader_may_do_is_found(tmp_path):
    figures = Figures()
    run_batch(figures, ("amiss", "amiss", 0, len(feeds.AMISS)), 1, tmp_path, most_s=1.0)
    what = [told for _, _, _, told in figures.found]
    marks = ["KeyError", "no answer in 1 s", "MemoryError", "open ", "socket."]
    marks += ["subprocess.Popen", "SIGABRT", "more than one line"]
    assert len(what) == len(marks)
    for told, mark in zip(what, marks, strict=True):
        assert mark in told
    assert not (tmp_path / "outside").exists()


@pytest.mark.parametrize("kind", MADE_UP)
def test_what_is_made_up_ends_in_a_fault(kind, tmp_path):
    @settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
    @given(MADE_UP[kind])
    def feed(data):
        with contextlib.suppress(Fault):
            feeds.FEEDS[kind](data, tmp_path)

    feed()


def test_a_campaign_feeds_as_many_as_were_asked_for():
    told = [batch for batch in batches(10_000) if batch[1] != "giants"]
    assert sum(count for *_, count in told) == 10_000
    ways = {(kind, way) for kind, way, *_ in told}
    assert ways >= {("svg", "mutated"), ("svg", "made up"), ("bundle", "mutated")}
    spans = [(kind, way, n) for kind, way, first, count in told for n in range(first, first + count)]
    assert len(set(spans)) == len(spans)
