"""Dividing again: a maker finds the sections again; and parts of a section, and what is left over."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bench.sections.divide import best_division
from bench.sections.division import Division
from bench.sections.leftover import open_edge
from bench.sections.match import matched_numbers
from bench.sections.measures import lower_bound
from bench.sections.parts import one_adhesive_parts
from bench.sections.redivide import redivide
from bench.sections.split import part_of, split_into
from tests.tools.legal import faults_of
from tests.tools.panels import ground, lattice, with_capacity


@pytest.mark.parametrize("factor", [0.95, 1.05])
def test_most_tesserae_stay_when_capacity_moves_by_a_twentieth(factor: float) -> None:
    stay = []
    for kind in ("square", "ring", "ell"):
        here = replace(ground(kind, 900, 3, per_section=53.3), prefer="forms")
        old = best_division(here).label + 1
        day = with_capacity(here, factor)
        label, numbers = redivide(day, old, used_numbers=set())
        assert faults_of(day, label.tolist()) == []
        stay.append(float(np.mean(np.array(numbers)[label] == old)))
    assert np.mean(stay) >= 0.85


@pytest.mark.parametrize("prefer", ["forms", "fewest"])
@pytest.mark.parametrize("factor", [1.0, 1.003])
def test_a_division_that_still_holds_stays_as_it_is(prefer: str, factor: float) -> None:
    here = replace(ground("square", 400, 5, per_section=41.3), prefer=prefer)
    old = best_division(here).label + 11
    label, numbers = redivide(with_capacity(here, factor), old, used_numbers={3, 4})
    assert np.array(numbers)[label].tolist() == old.tolist()


def test_what_does_not_hold_leaves_other_parts_as_they_are() -> None:
    here = replace(ground("parts", 600, 7, per_section=31.3), prefer="forms")
    old = best_division(here).label + 1
    part = one_adhesive_parts(here)
    old[0] = 0  # left over: it has to find a section again, and only its own part is looked at
    label, numbers = redivide(here, old, used_numbers=set())
    elsewhere = part != part[0]
    assert elsewhere.any()
    assert np.array(numbers)[label][elsewhere].tolist() == old[elsewhere].tolist()
    assert faults_of(here, label.tolist()) == []


def test_more_sections_than_the_wish_allows_do_not_stay() -> None:
    here = replace(lattice(12, 4, seconds=10, capacity_s=200), prefer="fewest")
    old = np.arange(48) % 12 // 2 + 1  # six, where three hold all
    label, numbers = redivide(here, old, used_numbers=set())
    assert len(numbers) == lower_bound(here) == 3
    assert faults_of(here, label.tolist()) == []


def test_a_section_in_two_pieces_does_not_stay() -> None:
    here = replace(lattice(8, 2, seconds=10, capacity_s=50), prefer="forms")
    old = np.array([1, 1, 2, 2, 3, 3, 1, 4, 1, 1, 2, 2, 3, 3, 4, 4])
    label, _ = redivide(here, old, used_numbers=set())
    assert faults_of(here, label.tolist()) == []


def test_numbers_of_worked_sections_are_never_given_again() -> None:
    here = ground("square", 300, 6, per_section=30.7)
    old = best_division(here).label + 1
    used = {1, 2, 40}
    _, numbers = redivide(with_capacity(here, 0.7), old, used_numbers=used)
    assert not used & set(numbers)
    fresh = [n for n in numbers if n not in set(old.tolist())]
    assert fresh
    assert min(fresh) > 40


def test_left_over_pieces_join_a_neighbour() -> None:
    here = lattice(6, 2, seconds=10, capacity_s=80)
    old = np.array([5, 5, 5, 6, 6, 0, 5, 5, 5, 6, 6, 0])
    label, numbers = redivide(here, old, used_numbers={4})
    assert faults_of(here, label.tolist()) == []
    assert sorted(numbers) == [5, 6]
    assert numbers[label[5]] == numbers[label[11]] == 6


def test_an_empty_ground_is_divided_again_into_nothing() -> None:
    label, numbers = redivide(lattice(0, 0), np.zeros(0, int), used_numbers={1})
    assert (label.tolist(), numbers) == ([], ())


def test_the_greatest_overlap_keeps_the_number() -> None:
    label, old = np.array([0, 0, 0, 1, 1, 2]), np.array([7, 7, 8, 8, 8, 7])
    assert matched_numbers(label, old, np.ones(6), {9}) == (7, 8, 10)


def test_a_section_is_split_into_connected_mixes_within_the_capacity() -> None:
    here = ground("square", 200, 8, per_section=120)
    own = best_division(here).members(0)
    small = float(here.expected_s[own].sum()) / 2.6
    label = split_into(here, own, capacity_s=small)
    assert faults_of(part_of(here, own, small), label.tolist()) == []
    assert len(set(label.tolist())) == 3


@pytest.mark.parametrize("parts", [1, 2, 3, 5])
def test_a_section_is_split_evenly_into_so_many_mixes(parts: int) -> None:
    here = ground("square", 200, 8, per_section=120)
    own = best_division(here).members(0)
    label = split_into(here, own, parts=parts)
    load = np.bincount(label, here.expected_s[own])
    assert len(load) == parts
    assert load.max() <= 1.25 * load.mean()
    assert faults_of(part_of(here, own, 1e9), label.tolist()) == []


def test_nothing_splits_into_nothing() -> None:
    assert split_into(lattice(3, 3), np.zeros(0, int), parts=2).tolist() == []


def test_the_strip_beside_open_ground_is_taken_as_left() -> None:
    here = lattice(6, 4)
    own = np.flatnonzero(np.arange(24) % 6 < 3)  # the three columns on the left
    beside = np.flatnonzero(np.arange(24) % 6 == 3)
    assert open_edge(here, own, 4, beside).tolist() == [2, 8, 14, 20]
    assert open_edge(here, own, 8, beside).tolist() == [1, 2, 7, 8, 13, 14, 19, 20]


def test_more_left_than_there_are_means_all_and_fewer_than_none_means_none() -> None:
    here = lattice(3, 3)
    assert open_edge(here, np.arange(6), 99, np.array([6, 7, 8])).tolist() == [0, 1, 2, 3, 4, 5]
    assert open_edge(here, np.arange(6), -1, np.array([6])).tolist() == []


def test_without_an_open_edge_the_strip_lies_far_from_the_rest() -> None:
    here = lattice(6, 1)
    assert open_edge(here, np.array([0, 1, 2]), 1, np.zeros(0, int)).tolist() == [0]


def test_any_labelling_is_a_division_numbered_in_the_order_of_first_appearance() -> None:
    found = Division.of(np.array([4, 4, 2, 2]))
    assert found.label.tolist() == [0, 0, 1, 1]
    assert found.section_count == 2
    assert found.members(1).tolist() == [2, 3]


def test_a_fresh_answer_is_no_better_by_more_than_a_section_in_twenty() -> None:
    here = ground("square", 900, 4, per_section=47.3)
    day = with_capacity(here, 0.95)
    _, numbers = redivide(day, best_division(here).label + 1, used_numbers=set())
    assert len(numbers) <= lower_bound(day) + 1
