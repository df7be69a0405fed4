"""Graphs that nobody here drew: divided legally, at or next to the fewest there can be."""

from __future__ import annotations

import warnings
from dataclasses import replace

import geopandas
import libpysal
import momepy
import networkx as nx
import numpy as np
import pytest
import shapely

from bench.sections.divide import best_division
from bench.sections.ground import Ground
from bench.sections.measures import lower_bound
from tests.tools.legal import bound_of, faults_of
from tests.tools.panels import lattice


def ground_of_shapes(shapes: geopandas.GeoSeries, share: float) -> Ground:
    """Take polygons as tesserae, shared outline as joints, area as time; a section holds a share."""
    geometry = np.array(shapes.array)
    left, right = shapely.STRtree(geometry).query(geometry, predicate="intersects")
    once = left < right
    pair = np.stack([left[once], right[once]], 1)
    length = shapely.length(shapely.intersection(geometry[pair[:, 0]], geometry[pair[:, 1]]))
    area = shapely.area(geometry)
    centre = shapely.centroid(geometry)
    pair, length = pair[length > 0].astype(np.int32), length[length > 0]
    return Ground(
        expected_s=area,
        area_mm2=area,
        centroid_mm=np.stack([shapely.get_x(centre), shapely.get_y(centre)], 1),
        pair=pair,
        joint_mm=length,
        cut_cost=length,
        adhesive=np.zeros(len(area), np.int32),
        capacity_s=np.array([max(share * area.sum(), area.max())]),
        prefer="fewest",
    )


def example(name: str, file: str) -> geopandas.GeoSeries:
    """Read one of libpysal's examples, which ship in its wheel."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return geopandas.read_file(libpysal.examples.get_path(file)).geometry


def test_columbus_has_its_published_rook_joints_and_is_divided() -> None:
    """libpysal's Columbus: 49 areas, 100 pairs that share a side (rook contiguity)."""
    here = ground_of_shapes(example("columbus", "columbus.shp"), 0.21)
    assert (here.count, len(here.pair)) == (49, 100)
    label = best_division(here).label
    assert faults_of(here, label.tolist()) == []
    assert len(set(label.tolist())) <= lower_bound(here) + 1


def test_the_cells_that_ship_with_momepy_are_divided() -> None:
    """momepy's bubenec tessellation: 144 cells, 365 083 m², the closest to mosaic pieces."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        cells = geopandas.read_file(momepy.datasets.get_path("bubenec"), layer="tessellation").geometry
    here = ground_of_shapes(cells, 0.11)
    assert here.count == 144
    assert here.area_mm2.sum() == pytest.approx(365_083, abs=1)
    label = best_division(here).label
    assert faults_of(here, label.tolist()) == []
    assert len(set(label.tolist())) <= lower_bound(here) + 1


@pytest.mark.parametrize(("name", "count"), [("sids2", 100), ("stl_hom", 78)])
def test_further_published_areas_are_divided(name: str, count: int) -> None:
    """libpysal's sids2 (100 areas) and stl (78)."""
    here = ground_of_shapes(example(name, f"{name}.shp"), 0.13)
    assert here.count == count
    label = best_division(here).label
    assert faults_of(here, label.tolist()) == []
    assert len(set(label.tolist())) <= bound_of(here) + 1


@pytest.mark.parametrize(
    ("name", "file", "count"),
    [("georgia", "G_utm.shp", 159), ("chicago", "Chicago77.shp", 77)],
)
def test_published_counties_and_districts_are_divided(name: str, file: str, count: int) -> None:
    """libpysal's Georgia (159 counties) and Chicago (77 community areas)."""
    here = ground_of_shapes(example(name, file), 0.13)
    assert here.count == count
    label = best_division(here).label
    assert faults_of(here, label.tolist()) == []
    assert len(set(label.tolist())) <= bound_of(here) + 1


def test_tokyo_in_its_published_parts_is_divided_part_by_part() -> None:
    """libpysal's Tokyo: 262 areas, 472 pairs that share a side, in 23 parts.

    Sharing a side is as libpysal counts it: two outlines hold the same edge, corner for corner.
    """
    shapes = example("tokyo", "tokyomet262.shp")
    whole = ground_of_shapes(shapes, 0.05)
    rook = libpysal.weights.Rook.from_iterable(shapes, silence_warnings=True).neighbors
    shared = np.array([b in rook[a] for a, b in whole.pair.tolist()])
    here = replace(
        whole, pair=whole.pair[shared], joint_mm=whole.joint_mm[shared], cut_cost=whole.cut_cost[shared]
    )
    graph = nx.Graph()
    graph.add_nodes_from(range(here.count))
    graph.add_edges_from(here.pair.tolist())
    parts = nx.number_connected_components(graph)
    assert (here.count, len(here.pair), parts) == (262, 472, 23)
    label = best_division(here).label
    assert faults_of(here, label.tolist()) == []
    assert bound_of(here) <= len(set(label.tolist())) <= bound_of(here) + 1


def test_a_ten_by_ten_lattice_falls_into_its_tidy_parts() -> None:
    """180 joints (libpysal's lattice); four sections of 25 squares cut 20 joints at best (by hand)."""
    here = lattice(10, 10, seconds=12, capacity_s=12 * 25)
    assert len(here.pair) == 180
    label = best_division(here).label
    assert faults_of(here, label.tolist()) == []
    assert len(set(label.tolist())) == 4
    cut = int((label[here.pair[:, 0]] != label[here.pair[:, 1]]).sum())
    assert cut <= 24


def test_the_eight_by_eight_grid_of_voting_studies_falls_into_eight() -> None:
    """gerrychain's gerrymandria: 64 nodes, 112 edges, eight districts of eight."""
    here = lattice(8, 8, seconds=10, capacity_s=80)
    assert (here.count, len(here.pair)) == (64, 112)
    label = best_division(here).label
    assert faults_of(here, label.tolist()) == []
    assert len(set(label.tolist())) == 8
