"""Panels that are only glass: colours, kinds and areas, a square a piece, in a row."""

import numpy as np
from hypothesis import strategies as st

from bench.drawing.panel import Panel
from tests.fakes.panels import panel_of

CHANNEL = st.integers(0, 255)
NEAR = st.tuples(st.integers(100, 112), st.integers(100, 112), st.integers(100, 112))  # a few ΔE00 apart


def squares(colours, *, side_mm=None, kinds=None, joint_mm: float = 1.0) -> Panel:
    """Return squares side by side, each in its colour; side_mm: 6 for all, or one each."""
    n = len(colours)
    sides = np.full(n, 6.0) if side_mm is None else np.asarray(side_mm, float)
    left = np.concatenate([[0.0], np.cumsum(sides + joint_mm)])
    corner = np.array([[0, 0], [1, 0], [1, 1], [0, 1]])
    rings = [[corner * side + (x, 0.0)] for side, x in zip(sides, left[:-1], strict=True)]
    panel = panel_of(rings, colour=colours, width_mm=float(left[-1]), height_mm=float(sides.max()) + 1)
    if kinds is not None:
        panel.glass[:] = kinds
    return panel


@st.composite
def some_glass(draw, most: int = 30) -> Panel:
    """Return panels of 1 to `most` squares whose colours are often alike."""
    n = draw(st.integers(1, most))
    colours = draw(st.lists(NEAR | st.tuples(CHANNEL, CHANNEL, CHANNEL), min_size=n, max_size=n))
    sides = draw(st.lists(st.floats(2, 20), min_size=n, max_size=n))
    return squares(colours, side_mm=sides, kinds=draw(st.lists(st.integers(0, 2), min_size=n, max_size=n)))
