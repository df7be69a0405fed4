"""Tiny panels against the true fewest sections, found by listing every set and an exact cover of them."""

import pytest

from bench.sections.divide import best_division
from bench.sections.measures import lower_bound
from tests.tools.optimum import connected_sets, fewest_sections, tiny
from tests.tools.panels import lattice


@pytest.mark.parametrize(("side", "count"), [(1, 1), (2, 13), (3, 218), (4, 11506)])
def test_all_connected_sets_of_a_lattice_are_listed_once(side, count):
    """OEIS A059525, connected subsets of an n × n square: 1, 13, 218, 11506 (from memory)."""
    sets = connected_sets(lattice(side, side, seconds=1, capacity_s=100), 0.0, 100.0)
    assert len(sets) == len({frozenset(s) for s in sets}) == count


@pytest.mark.parametrize("side", [4, 5])
def test_a_lattice_that_falls_into_equal_parts_is_cut_into_them(side):
    ground = lattice(side, side, seconds=1, capacity_s=side)
    assert fewest_sections(ground) == side
    assert int(best_division(ground).label.max()) + 1 == side


@pytest.mark.parametrize("seed", [4, 19])
def test_a_tiny_panel_takes_no_more_than_one_section_above_the_true_fewest(seed):
    """Seed 4 can be done at its bound, seed 19 cannot: a bound is not yet a division."""
    ground = tiny(seed)
    true = fewest_sections(ground, limit_s=120.0)
    assert true - lower_bound(ground) == (seed == 19)
    assert int(best_division(ground).label.max()) + 1 <= true + 1
