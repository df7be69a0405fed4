"""Revised drawings of a grid of 24 × 12, laid over its panel, and what must hold of the panel after it."""

import networkx as nx
import numpy as np

from bench.job.acts import revising
from bench.job.fold import fold
from tests.fakes.drawings import BLUE, YELLOW, grid_svg


def yellow_from(column, **more):
    return grid_svg(24, 12, colour=lambda c, r: YELLOW if c >= column else BLUE, **more)


def revise(job, data, name="second.svg"):
    tried = revising.try_revise(job, data, name)
    revising.revise(job, tried)
    return tried


def wants_adhesive(job, name):
    """Return the drawing again, one piece of bare ground asking for an adhesive."""
    piece = job.panel.ids[job.state.with_stage("drawn")[0].tesserae[0]]
    return grid_svg(24, 12).replace(
        f'id="{piece}"'.encode(), f'id="{piece}" data-adhesive="{name}"'.encode()
    )


def places(job, number):
    return sorted(map(tuple, job.panel.centroid_mm[list(job.section(number).tesserae)].round(3).tolist()))


def assert_whole(job):
    members = [t for s in job.state.sections.values() for t in s.tesserae]
    assert sorted(members) == list(range(job.panel.tessera_count))
    graph = nx.Graph(job.panel.joints.pair.tolist())
    graph.add_nodes_from(range(job.panel.tessera_count))
    for section in job.state.with_stage("drawn"):
        assert nx.is_connected(graph.subgraph(section.tesserae))
        assert section.in_time >= job.state.bench.sure - 1e-9 or len(section.tesserae) == 1
    assert fold(job.store.events(job.panel_id)) == job.state


def assert_same_panel(panel, again):
    assert again.ids == panel.ids
    for name in ("points_mm", "ring_start", "tessera_ring", "colour", "group", "area_mm2"):
        np.testing.assert_array_equal(getattr(again, name), getattr(panel, name))
    np.testing.assert_array_equal(again.joints.pair, panel.joints.pair)
