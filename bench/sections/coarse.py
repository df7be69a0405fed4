"""A coarser mesh: neighbouring tesserae in bundles, so that a search can move many at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import IntArray
from bench.sections.mesh import Mesh, mesh_from

ROUNDS = 4  # of pairing; what found no partner stays alone
CHANCE = 0.05  # how much luck counts in a rating, so that another seed bundles otherwise


@dataclass(frozen=True, eq=False)
class Level:
    """A coarser mesh, and into which of its bundles each tessera of the finer one went, (n,)."""

    mesh: Mesh
    bundle: IntArray


def coarser(mesh: Mesh, most_load: float, rng: np.random.Generator) -> Level:
    """Return the mesh with neighbours paired where they face each other longest for their size.

    A pair is rated by cost²/(area * area), cost that of their joint, which keeps bundles round and takes
    along what is dear to cut; none is heavier than most_load. Where nothing can be paired, the mesh itself.
    """
    n = mesh.count
    partner = np.full(n, -1, np.int64)
    a, b = mesh.pair[:, 0].astype(np.int64), mesh.pair[:, 1].astype(np.int64)
    light = mesh.load[a] + mesh.load[b] <= most_load
    rating = mesh.cost**2 / np.maximum(mesh.area[a] * mesh.area[b], 1e-12)
    rating *= 1 + CHANCE * rng.random(len(a))
    for _ in range(ROUNDS):
        open_ = np.flatnonzero(light & (partner[a] < 0) & (partner[b] < 0))
        if not len(open_):
            break
        best = _best_of_each(n, a[open_], b[open_], rating[open_])
        mine = np.arange(len(open_))
        won = open_[(best[a[open_]] == mine) & (best[b[open_]] == mine)]
        partner[a[won]], partner[b[won]] = b[won], a[won]
    lead = np.where(partner < 0, np.arange(n), np.minimum(np.arange(n), partner))
    bundle = np.unique(lead, return_inverse=True)[1].astype(np.int32).reshape(-1)
    return Level(_bundled(mesh, bundle), bundle)


def _best_of_each(
    n: int, a: NDArray[np.int64], b: NDArray[np.int64], rating: NDArray[np.float64]
) -> NDArray[np.int64]:
    """Return the place of the best rated joint of every tessera, (n,); -1 where it has none."""
    order = np.argsort(rating, kind="stable")
    best = np.full(n, -1, np.int64)
    ends = np.stack([a[order], b[order]], 1).ravel()
    best[ends] = np.repeat(order, 2)  # the last one written is the best
    return best


def _bundled(mesh: Mesh, bundle: IntArray) -> Mesh:
    """Return the mesh of bundles: areas, times and joints summed, each at its centroid."""
    k = int(bundle.max()) + 1
    area = np.maximum(np.bincount(bundle, mesh.area, k), 1e-12)
    xy = np.stack([np.bincount(bundle, mesh.area * x, k) / area for x in mesh.xy.T], axis=1)
    ends = np.sort(bundle[mesh.pair], axis=1)
    apart = ends[:, 0] != ends[:, 1]
    pair, place = np.unique(ends[apart], axis=0, return_inverse=True)
    place = place.reshape(-1)
    return mesh_from(
        index=np.arange(k, dtype=np.int32),
        pair=pair.astype(np.int32),
        cost=np.asarray(np.bincount(place, mesh.cost[apart], len(pair)), float),
        expected_s=np.asarray(np.bincount(bundle, mesh.expected_s, k), float),
        cap_s=mesh.cap_s,
        area=area,
        xy=xy,
        roundness=mesh.roundness,
    )
