"""What the book remembers and tells: every spot has its entry, trends only beyond chance, awkward books."""

import math
import re
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from scipy import stats

from bench.book.events import BatchPrescribed, MixClosed
from bench.job.acts import record
from bench.job.advice import advise
from bench.job.bedding import bed_area_mm2
from bench.job.learned_graphs import learned_graphs
from bench.job.remembered import REMEMBERED_FROM, made_of, mixed_on
from bench.job.taught import LEARNT_FROM, glue_ups_of
from bench.job.trend_words import nothing_yet, trends_of, trends_told
from bench.pace.glueup import GlueUp
from bench.pace.hands import learn_hands
from tests.fakes.benches import set_section
from tests.fakes.long_books import book_of, days


def events(store):
    return {(x.panel_id, x.seq): x.event for x in store.all_events()}


def test_every_spot_stands_for_an_entry_of_the_right_kind(store):
    job = book_of(store, days(12))
    known = events(store)
    pace, promise, life, grams = learned_graphs(job)
    for graph in (pace, promise, life):
        assert len(graph.spots) == 12
        assert all(isinstance(known[s.panel_id, s.seq], MixClosed) for s in graph.spots)
    assert [known[s.panel_id, s.seq].mix for s in pace.spots] == list(range(1, 13))
    assert all(isinstance(known[s.panel_id, s.seq], BatchPrescribed) for s in grams.spots)


def test_what_is_remembered_is_what_is_learned_from(store):
    book_of(store, days(9), name="Lemons")
    book_of(store, days(9, pause_after=2), name="Cloth", seed=2)
    made = made_of(store.of_kinds(REMEMBERED_FROM))
    learned = glue_ups_of(store.of_kinds(LEARNT_FROM))
    assert [(one.event.adhesive, one.glue_up) for one in made] == learned
    assert all(one.event.contact_utc == one.glue_up.started_utc for one in made)


def test_a_glue_up_taken_back_is_seen_nowhere(store):
    job = book_of(store, days(5))
    record.undo(job)
    assert [len(graph.spots) for graph in learned_graphs(job)] == [4, 4, 4, 5]  # it was mixed all the same


def test_grams_stand_against_the_bed_they_were_mixed_for(store):
    job = book_of(store, [])
    number = advise(job).section
    bed_cm2 = float(bed_area_mm2(job.panel)[list(job.section(number).tesserae)].sum()) / 100
    mix = set_section(job, number, minutes=14, left=5, why="stringy")
    (mixed,) = mixed_on(job)
    assert mixed.bed_cm2 == pytest.approx(bed_cm2)
    assert mixed.mixed_g == pytest.approx(job.mix(mix).batch.total_g)
    assert not mixed.weighed
    (spot,) = learned_graphs(job)[3].spots
    (line,) = learned_graphs(job)[3].strokes
    (x1, y1), (x2, y2) = line.points
    assert spot.y == pytest.approx(y1 + (y2 - y1) * (spot.x - x1) / (x2 - x1), abs=0.06)  # steps of 0.1 g


def test_pieces_left_for_another_reason_say_nothing_of_the_promise(store):
    job = book_of(store, [])
    for why, kept in (("called away", None), ("stringy", False)):
        set_section(job, advise(job).section, minutes=12, left=4, why=why)
        assert made_of(store.of_kinds(REMEMBERED_FROM))[-1].kept is kept
        job.clock.advance(3 * 86400)
    assert len(learned_graphs(job)[1].spots) == 1


def test_an_empty_book_says_what_will_be_seen(store):
    graphs = learned_graphs(book_of(store, []))
    assert [graph.key for graph in graphs] == ["pace", "promise", "life", "grams"]
    assert all(not graph.spots and graph.says.startswith("After the first glue-up") for graph in graphs)
    assert all(nothing_yet() in sentence for sentence in trends_of(book_of(store, [], name="Cloth")))


def test_two_adhesives_have_a_graph_of_their_life_each(store):
    made = [replace(day, adhesive="clear-slow" if k % 2 else None) for k, day in enumerate(days(8))]
    graphs = learned_graphs(book_of(store, made))
    lives = [graph for graph in graphs if graph.key.startswith("life")]
    assert [len(graph.spots) for graph in lives] == [4, 4]
    assert lives[0].title != lives[1].title


def test_an_adhesive_of_another_panel_that_nobody_knows_is_called_by_its_file(store):
    made = [replace(days(1)[0], adhesive="/somewhere/old stock.toml")]
    life = learned_graphs(book_of(store, made))[2]
    assert "old stock" in life.title
    assert "/somewhere" not in life.title


def test_all_censored_are_marked_as_at_least(store):
    life = learned_graphs(book_of(store, days(10), always_in_time=True))[2]
    assert {spot.mark for spot in life.spots} == {"up"}
    assert life.says.startswith("0 went stringy; 10 finished first")


# -- trends ------------------------------------------------------------------------------------------------

DAY0 = datetime(2026, 3, 2, 9, tzinfo=UTC)


def glue_up(k, seconds, *, a_day=3, **more):
    started = DAY0 + timedelta(days=k // a_day, hours=2 * (k % a_day))
    made = GlueUp(started, 0, 60, 0, seconds, 0.0, 21.0, seconds + 200, None, True, label_s=1500.0)
    return replace(made, **more)


def told(book):
    return trends_told(book, learn_hands(book), {"White paste": book})


def test_wrights_80_per_cent_curve_is_told_in_words():
    """Wright (1936): exponent log2 0.8 = −0.32, each doubling takes a fifth off."""
    rng = np.random.default_rng(1)
    book = [
        glue_up(k, 720 * (k + 1) ** math.log2(0.8) * math.exp(0.02 * rng.normal()), a_day=1)
        for k in range(30)
    ]
    weeks, day, small, warm = told(book)
    assert weeks.startswith("Over the weeks: faster; twice as many glue-ups take 20 % off")
    assert "exponent −0.3" in weeks
    assert all(sentence.endswith(f"{nothing_yet()}.") for sentence in (day, small, warm))


def test_a_tiring_maker_is_told_of_the_third_mix():
    """Two earlier mixes at 5 % each are 1.05² − 1 = 10 % at the third."""
    rng = np.random.default_rng(2)
    book = [glue_up(k, 700 * 1.05 ** (k % 3) * math.exp(0.01 * rng.normal())) for k in range(30)]
    found = re.search(r"slower; a piece of a day's third mix takes (\d+) % longer", told(book)[1])
    assert found is not None
    assert int(found[1]) == pytest.approx(10, abs=1.5)


def test_small_pieces_that_take_longer_are_told():
    rng = np.random.default_rng(6)
    book = []
    for k in range(30):
        small = int(rng.integers(0, 60))
        seconds = (1.5 * small + (60 - small)) * 12 * math.exp(0.04 * rng.normal())
        book.append(glue_up(k, seconds, small=small, medium=60 - small))
    said = r"Small pieces: slower; one takes ([\d.]+) times .* \(([\d.]+) to ([\d.]+)\)\."
    found = re.fullmatch(said, told(book)[2])
    assert found is not None
    value, low, high = map(float, found.groups())
    assert low < 1.5 < high
    assert value == pytest.approx(1.5, rel=0.1)


def test_without_a_trend_one_is_told_as_rarely_as_chance_allows():
    """Two regressions at 95 %: of 300 books, a binomial of 600 at 0.05 (SciPy)."""
    found = 0
    for seed in range(300):
        rng = np.random.default_rng(seed)
        book = [glue_up(k, 700 * math.exp(0.15 * rng.normal())) for k in range(15)]
        found += sum(nothing_yet() not in sentence for sentence in told(book)[:2])
    low, high = stats.binom.ppf([0.001, 0.999], 600, 0.05)
    assert low <= found <= high
