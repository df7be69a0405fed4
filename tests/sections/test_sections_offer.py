"""One section more, rounder: offered where all would be full to the brim, and never where there is room."""

import numpy as np

from bench.sections.divide import best_division
from bench.sections.measures import lower_bound
from bench.sections.offer import free_share, one_more
from tests.tools.legal import faults_of
from tests.tools.panels import ground as generated
from tests.tools.panels import lattice, with_capacity


def filled(slack: float):
    """A panel of about 600 tesserae for eight sections that leave so much free."""
    ground = generated("square", 600, 5, per_section=75, spread=0.35, prefer="fewest", adhesives=1)
    wanted_s = ground.expected_s.sum() / 8 / (1 - slack)
    return with_capacity(ground, wanted_s / float(ground.cap_s[0]))


def test_full_to_the_brim_one_more_is_offered_with_what_it_is_worth():
    ground = filled(0.002)
    division = best_division(ground)
    offer = one_more(ground, division)
    assert offer is not None
    assert faults_of(ground, offer.division.label.tolist()) == []
    assert offer.division.section_count == division.section_count + offer.more
    assert offer.shape_share > 1
    assert "rounder" in offer.told()


def test_with_room_enough_nothing_is_offered():
    ground = filled(0.03)
    assert free_share(ground) > 0.02
    assert one_more(ground, best_division(ground)) is None


def test_nothing_and_a_single_section_are_offered_nothing():
    empty, single = lattice(0, 0), lattice(3, 3, seconds=10, capacity_s=90)
    for ground in (empty, single):
        assert one_more(ground, best_division(ground)) is None
    assert free_share(empty) == 1.0
    assert np.isclose(free_share(single), 0.0)
    assert lower_bound(single) == 1
