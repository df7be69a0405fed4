"""What cutting a joint costs when whole forms are wanted: cheap along contours and rows, dear across."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.sections.ground import FloatArray, Ground, IntArray, ground_of
from bench.sections.motifs import NEAR_DELTA_E, fitting_motifs, motifs
from bench.sections.parts import components
from bench.sections.rows import row_joints

LEAST_ROW = 3  # fewer in a line are no row

# How dear a joint is, for each mm of it. Only the order of the first four and the last is a matter of the
# trade; the figures are ours.
HOW_DEAR = {
    "between motifs": 0.8,
    "between rows": 0.8,
    "plain": 1.0,  # no row runs here
    "across a row": 2.0,
    "inside a fitting motif": 4.0,  # one that a section could hold whole
}


def joint_kinds(panel: Panel, ground: Ground, near_delta_e: float = NEAR_DELTA_E) -> NDArray[np.intp]:
    """Return what each joint lies between, as a place in HOW_DEAR, (m,)."""
    names = list(HOW_DEAR)
    kind = np.full(len(ground.pair), names.index("plain"), np.intp)
    if not len(ground.pair):
        return kind
    motif = motifs(panel, ground, near_delta_e)
    a, b = ground.pair[:, 0], ground.pair[:, 1]
    within = motif[a] == motif[b]
    along = row_joints(panel, ground, within)
    row = components(ground.count, ground.pair[along])
    in_row = np.bincount(ground.pair[along].ravel(), minlength=ground.count) > 0
    kind[in_row[a] & in_row[b] & (row[a] != row[b])] = names.index("between rows")
    kind[along] = names.index("across a row")
    kind[within & fitting_motifs(ground, motif)[motif[a]]] = names.index("inside a fitting motif")
    kind[~within] = names.index("between motifs")
    return kind


def usual_row(panel: Panel, tesserae: IntArray, near_delta_e: float = NEAR_DELTA_E) -> int:
    """Return how many tesserae a row of these usually has: the median of all rows of three or more.

    tesserae: (k,), indices of the panel. 0 where no such row is seen.
    """
    n = panel.tessera_count
    alike = (np.ones(n), np.zeros(n, np.int32), np.array([n + 1.0]))
    ground = ground_of(
        panel, expected_s=alike[0], adhesive=alike[1], capacity_s=alike[2], prefer="fewest", keep=tesserae
    )
    if not len(ground.pair):
        return 0
    motif = motifs(panel, ground, near_delta_e)
    within = motif[ground.pair[:, 0]] == motif[ground.pair[:, 1]]
    row = components(ground.count, ground.pair[row_joints(panel, ground, within)])
    sizes = np.bincount(row)
    sizes = sizes[sizes >= LEAST_ROW]
    return int(np.median(sizes)) if len(sizes) else 0


def cut_cost(panel: Panel, ground: Ground, near_delta_e: float = NEAR_DELTA_E) -> FloatArray:
    """Return what cutting each joint costs, in mm of plain joint, (m,): its length times how dear it is."""
    price = np.array(list(HOW_DEAR.values()))
    return np.asarray(ground.joint_mm * price[joint_kinds(panel, ground, near_delta_e)], float)
