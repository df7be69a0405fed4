"""The peer: METIS through pymetis, each connected part alone, the smallest count that it can make legal."""

from __future__ import annotations

import math

import networkx as nx
import numpy as np
import pymetis
from numpy.typing import NDArray

from bench.sections.ground import Ground
from bench.sections.split import part_of

SEEDS, CUTS = range(4), 4
WHOLE = 1_000_000  # METIS weighs in whole numbers: a capacity is split into so many


def metis_division(ground: Ground) -> NDArray[np.int64]:
    """Return METIS's best cut over seeds 0 to 3 (ncuts=4, contiguous, exact ufactor) for each part."""
    graph = nx.Graph()
    graph.add_nodes_from(range(ground.count))
    same = ground.adhesive[ground.pair[:, 0]] == ground.adhesive[ground.pair[:, 1]]
    graph.add_edges_from(ground.pair[same].tolist())
    label, fresh = np.zeros(ground.count, np.int64), 0
    for members in nx.connected_components(graph):
        own = np.array(sorted(members))
        part = _one_part(part_of(ground, own))
        label[own] = part + fresh
        fresh += int(part.max()) + 1
    return label


def _one_part(ground: Ground) -> NDArray[np.int64]:
    cap = float(ground.cap_s[0])
    total = float(ground.expected_s.sum())
    k = max(1, math.ceil(total / cap))
    while k > 1:
        found = [label for seed in SEEDS if (label := _call(ground, k, seed, cap, total)) is not None]
        if found:
            return min(found, key=lambda label: _cut(ground, label))
        k += 1
    return np.zeros(ground.count, np.int64)


def _cut(ground: Ground, label: NDArray[np.int64]) -> float:
    return float(ground.joint_mm[label[ground.pair[:, 0]] != label[ground.pair[:, 1]]].sum())


def _call(ground: Ground, k: int, seed: int, cap: float, total: float) -> NDArray[np.int64] | None:
    loose = math.floor((cap * k / total - 1) * 1000)
    if loose < 1:
        return None
    both = np.concatenate((ground.pair, ground.pair[:, ::-1]))
    weight = np.maximum(1, np.round(ground.joint_mm / ground.joint_mm.mean() * 100)).astype(int)
    order = np.argsort(both[:, 0], kind="stable")
    starts = np.searchsorted(both[order, 0], np.arange(ground.count + 1))
    _, found = pymetis.part_graph(
        k,
        adjacency=pymetis.CSRAdjacency(starts.tolist(), both[order, 1].tolist()),
        vweights=np.maximum(1, np.round(ground.expected_s / cap * WHOLE)).astype(int).tolist(),
        eweights=np.concatenate((weight, weight))[order].tolist(),
        recursive=False,
        options=pymetis.Options(seed=seed, ncuts=CUTS, contig=1, ufactor=loose),
    )
    label = np.unique(np.array(found), return_inverse=True)[1].reshape(-1)
    if (np.bincount(label, ground.expected_s) > cap).any():
        return None
    graph = nx.Graph()
    graph.add_nodes_from(range(ground.count))
    graph.add_edges_from(ground.pair[label[ground.pair[:, 0]] == label[ground.pair[:, 1]]].tolist())
    return label if nx.number_connected_components(graph) == len(set(label.tolist())) else None
