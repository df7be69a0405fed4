"""No division breaks a hard rule, on any outline, for any times; judged by code the divider never sees."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import Delaunay

from bench.sections.divide import best_division, divide
from bench.sections.ground import Ground, oversize
from bench.sections.measures import broken_rules, lower_bound
from bench.sections.redivide import redivide
from tests.benchmarks.bench_sections import rules
from tests.tools.legal import bound_of, faults_of
from tests.tools.panels import OUTLINES, ground, lattice


@pytest.mark.parametrize("prefer", ["fewest", "forms"])
@pytest.mark.parametrize("kind", sorted(OUTLINES))
def test_every_outline_is_divided_legally(kind: str, prefer: str) -> None:
    for seed, (count, per_section, spread) in enumerate([(45, 7, 0.9), (160, 23, 0.3), (420, 61.7, 0.25)]):
        here = ground(kind, count, seed, per_section=per_section, spread=spread, adhesives=1 + seed % 2)
        assert faults_of(here, best_division(here, seed=seed).label.tolist()) == []


def test_a_short_campaign_breaks_no_hard_rule(capsys: pytest.CaptureFixture[str]) -> None:
    """Twelve of the panels of `python -m tests.benchmarks.bench_sections rules`, on seeds of their own."""
    assert rules(12, 0) == 0
    assert "0 broken on 12 panels" in capsys.readouterr().out


def test_every_division_on_the_way_is_legal_and_none_is_worse() -> None:
    here = ground("you", 500, 3, per_section=33.3, adhesives=2)
    counts = []
    for division in divide(here, seed=1):
        assert faults_of(here, division.label.tolist()) == []
        counts.append(division.section_count)
    assert counts == sorted(counts, reverse=True)
    assert len(counts) > 3


def test_the_same_seed_and_steps_give_the_same_answer() -> None:
    here = ground("ring", 400, 2, per_section=37)
    first, second = (best_division(here, seed=5, steps=9000).label.tolist() for _ in range(2))
    assert first == second


def test_no_steps_still_give_a_legal_division() -> None:
    here = ground("ell", 300, 4, per_section=21, spread=0.8)
    assert faults_of(here, best_division(here, steps=0).label.tolist()) == []


def test_numbers_run_from_nought_without_a_gap() -> None:
    label = best_division(ground("parts", 300, 1, per_section=30)).label
    assert list(range(int(label.max()) + 1)) == sorted(set(label.tolist()))


def test_no_tesserae_make_no_sections() -> None:
    empty = lattice(0, 0)
    assert best_division(empty).label.tolist() == []
    assert lower_bound(empty) == 0
    assert broken_rules(empty, np.zeros(0, np.int32)) == []


def test_one_tessera_makes_one_section() -> None:
    assert best_division(lattice(1, 1)).label.tolist() == [0]


def test_a_tessera_longer_than_the_capacity_gets_a_section_of_its_own() -> None:
    here = lattice(5, 5, seconds=10, capacity_s=60)
    here.expected_s[12] = 61.0
    label = best_division(here).label
    assert oversize(here).tolist() == [12]
    assert int((label == label[12]).sum()) == 1
    assert faults_of(here, label.tolist()) == []
    assert lower_bound(here) == 1 + 4


def test_a_capacity_below_every_piece_leaves_each_alone() -> None:
    here = lattice(6, 4, seconds=10, capacity_s=9)
    assert 24 == best_division(here).section_count == lower_bound(here)


def test_loads_may_fill_the_capacity_exactly_but_never_exceed_it() -> None:
    here = lattice(8, 6, seconds=0.1, capacity_s=0.4)
    assert faults_of(here, best_division(here).label.tolist()) == []
    whole = lattice(8, 6, seconds=12, capacity_s=48)
    assert best_division(whole).section_count == 12


def scattered(seed: int, n: int, spread: float, glues: int, cut: float) -> Ground:
    """A random planar graph: a Delaunay net short of some joints, so that parts and lone pieces occur."""
    rng = np.random.default_rng(seed)
    xy = rng.uniform(0, 100, (n, 2))
    pair = np.zeros((0, 2), np.int32)
    if n >= 4:
        sides = Delaunay(xy).simplices[:, [[0, 1], [1, 2], [0, 2]]].reshape(-1, 2)
        pair = np.unique(np.sort(sides, axis=1), axis=0).astype(np.int32)
        pair = pair[rng.random(len(pair)) > cut]
    length = rng.uniform(1, 8, len(pair))
    return Ground(
        expected_s=rng.lognormal(2.5, spread, n),
        area_mm2=rng.uniform(20, 90, n),
        centroid_mm=xy,
        pair=pair,
        joint_mm=length,
        cut_cost=length * rng.choice([0.35, 1.0, 4.0], len(pair)),
        adhesive=rng.integers(0, glues, n).astype(np.int32),
        capacity_s=rng.uniform(8, 250, glues),
        prefer="fewest" if seed % 2 else "forms",
    )


@settings(max_examples=60, deadline=None)
@given(
    st.integers(0, 10_000),
    st.integers(0, 90),
    st.floats(0, 1.6),
    st.integers(1, 3),
    st.floats(0, 0.9),
)
def test_random_planar_graphs_are_divided_and_divided_again_legally(
    seed: int, n: int, spread: float, glues: int, cut: float
) -> None:
    here = scattered(seed, n, spread, glues, cut)
    label = best_division(here, seed=seed, steps=3000).label
    assert faults_of(here, label.tolist()) == []
    assert bound_of(here) == lower_bound(here)
    assert lower_bound(here) <= len(set(label.tolist()))
    again, numbers = redivide(here, (label * 7) % 5, used_numbers={2}, seed=seed, steps=2000)
    assert faults_of(here, again.tolist()) == []
    assert len(set(numbers)) == len(numbers)
    assert 2 not in numbers


def test_broken_rules_are_named() -> None:
    here = lattice(4, 1, seconds=10, capacity_s=25)
    here.adhesive[:] = 0
    assert broken_rules(here, np.array([0, 1, 0, 2])) == [
        "section 0 is not connected: 1 of 2 tesserae hang together"
    ]
    assert broken_rules(here, np.array([0, 0, 0, 1])) == ["section 0 takes 30 s and its adhesive allows 25 s"]
    assert broken_rules(here, np.array([0, 0, 1])) == ["3 labels for 4 tesserae"]


@pytest.mark.parametrize("steps", [0, 1, 500, 5000])
def test_a_small_budget_is_kept_and_what_it_gives_is_legal(steps: int) -> None:
    """A step is one boundary tessera looked at; a round once begun ends with its polish."""
    here = ground("square", 400, 3, per_section=60, spread=0.35, prefer="fewest", adhesives=1)
    found = list(divide(here, steps=steps))
    assert faults_of(here, found[-1].label.tolist()) == []
    assert found[-1].done == 1.0
    again = best_division(here, steps=steps)
    assert np.array_equal(again.label, found[-1].label)
