"""One section made lighter: only its neighbours' room is used, and every rule still holds."""

from dataclasses import replace

import numpy as np
import pytest

from bench.sections.divide import best_division
from bench.sections.lighten import lightened
from tests.tools.legal import faults_of
from tests.tools.panels import ground, lattice


def loads(here, label) -> dict[int, float]:
    share = here.expected_s / here.cap_s
    return {int(k): float(share[label == k].sum()) for k in np.unique(label)}


def fullest(here, label) -> int:
    return max(loads(here, label), key=loads(here, label).get)


@pytest.mark.parametrize("kind", ["square", "ring", "ell", "parts"])
def test_a_section_comes_down_to_its_share_and_none_is_added(kind: str) -> None:
    here = replace(ground(kind, 700, 4, per_section=47.3), prefer="forms")
    label = best_division(here).label + 20
    first = fullest(here, label)
    after = lightened(here, label, first, 0.85, np.random.default_rng(1))
    assert loads(here, label)[first] > 0.87 >= loads(here, after)[first]
    assert set(after.tolist()) == set(label.tolist())
    assert faults_of(here, np.unique(after, return_inverse=True)[1].tolist()) == []


def test_where_all_are_full_all_stays_as_it_was() -> None:
    here = lattice(8, 2, seconds=10, capacity_s=40)
    label = np.array([3, 3, 4, 4, 5, 5, 6, 6] * 2)
    assert lightened(here, label, 4, 0.5, np.random.default_rng(0)).tolist() == label.tolist()


def test_a_light_section_stays_as_it_was() -> None:
    here = lattice(8, 2, seconds=10, capacity_s=80)
    label = np.array([3, 3, 4, 4, 5, 5, 6, 6] * 2)
    assert lightened(here, label, 4, 0.5, np.random.default_rng(0)).tolist() == label.tolist()


def test_what_a_neighbour_has_no_room_for_is_handed_on_beyond_it() -> None:
    here = lattice(8, 2, seconds=10, capacity_s=61)
    label = np.array([3, 3, 3, 4, 4, 4, 5, 5] * 2)  # 4 is full, and room is beyond it only
    after = lightened(here, label, 3, 0.7, np.random.default_rng(0))
    assert loads(here, after) == pytest.approx({3: 40 / 61, 4: 60 / 61, 5: 60 / 61})
    assert faults_of(here, (after - 3).tolist()) == []


def test_no_piece_goes_to_another_adhesive() -> None:
    here = replace(ground("square", 500, 6, per_section=40.3, adhesives=2), prefer="forms")
    label = best_division(here).label
    kinds = {int(k): set(here.adhesive[label == k].tolist()) for k in np.unique(label)}
    after = label
    for number in kinds:
        after = lightened(here, after, number, 0.8, np.random.default_rng(number))
    assert (after != label).any()
    assert {int(k): set(here.adhesive[after == k].tolist()) for k in np.unique(after)} == kinds
    assert faults_of(here, after.tolist()) == []
