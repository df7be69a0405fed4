"""Regions of a painted study: what an eye would call them, as many as asked, each a cut through one tree."""

import networkx as nx
import numpy as np
import pytest
from skimage import data
from skimage.metrics import adapted_rand_error

from bench.drawing.photo import Picture
from bench.drawing.study.patches import patches_of
from bench.drawing.study.propose import propose
from tests.fakes.studies import BLUE, CREAM, YELLOW, lemon_labels, painted


@pytest.fixture(scope="module")
def lemon():
    return patches_of(painted(lemon_labels(), (CREAM, BLUE, YELLOW)).pixels, 1.0)


def test_the_painted_areas_are_found_and_their_number_proposed(lemon):
    """The adapted Rand error is scikit-image's: 0 for the same partition, 1 for none."""
    assert lemon.proposed() == 3
    error, _, _ = adapted_rand_error(lemon_labels(), lemon.regions(3) + 1)
    assert error < 0.01


@pytest.mark.parametrize("count", [1, 2, 5, 17])
def test_there_are_as_many_regions_as_asked_for_each_in_one_piece(lemon, count):
    regions = lemon.regions(count)
    assert np.unique(regions).tolist() == list(range(count))
    grid = nx.grid_2d_graph(*regions.shape)
    grid.remove_edges_from([(a, b) for a, b in grid.edges if regions[a] != regions[b]])
    assert nx.number_connected_components(grid) == count


def test_fewer_regions_are_always_more_of_them_joined(lemon):
    for many, few in ((9, 8), (8, 4), (4, 2)):
        fine, coarse = lemon.regions(many), lemon.regions(few)
        pairs = set(zip(fine.ravel().tolist(), coarse.ravel().tolist(), strict=True))
        assert len(pairs) == many


def test_what_the_borders_are_worth_never_falls(lemon):
    assert (np.diff(lemon.worth) >= 0).all()


def test_a_region_parts_where_it_last_became_one(lemon):
    everything = np.ones(lemon.start.shape, bool)
    half = lemon.halves(everything)
    two = lemon.regions(2)
    assert len(np.unique(two[half])) == 1
    assert len(np.unique(two[~half])) == 1


def test_the_same_seed_finds_the_same(lemon):
    again = patches_of(painted(lemon_labels(), (CREAM, BLUE, YELLOW)).pixels, 1.0)
    np.testing.assert_array_equal(again.regions(6), lemon.regions(6))


@pytest.mark.parametrize(("name", "least", "most"), [("coffee", 8, 60), ("chelsea", 8, 60)])
def test_a_photograph_that_nobody_here_made_has_regions_of_a_sensible_number(name, least, most):
    """scikit-image's own sample pictures, read from the installed package."""
    picture = Picture(getattr(data, name)(), None, name)
    study = propose(picture, (300.0, 200.0)).study()
    assert least <= len(study.regions) <= most
    assert study.area_mm2().sum() == pytest.approx(300 * 200)
    assert (study.area_mm2() > 0).all()
