"""Panels made up for tests of what is drawn: courses of slightly slanted pieces, no file read."""

import numpy as np

from bench.drawing.panel import Joints, Panel

BLUE, LEMON, WHITE = (36, 78, 140), (240, 205, 60), (235, 235, 228)


def panel_of(rings: list[list[np.ndarray]], *, colour=None, width_mm: float, height_mm: float) -> Panel:
    """Return a panel of the shapes given, each a list of rings in mm; its joints are left empty."""
    flat = [ring for shape in rings for ring in shape]
    n = len(rings)
    area = np.array([abs(_area(shape[0])) - sum(abs(_area(r)) for r in shape[1:]) for shape in rings])
    return Panel(
        width_mm=width_mm,
        height_mm=height_mm,
        ids=tuple(f"t{k}" for k in range(n)),
        points_mm=np.vstack(flat).astype(float),
        ring_start=np.concatenate([[0], np.cumsum([len(r) for r in flat])]).astype(np.int32),
        tessera_ring=np.concatenate([[0], np.cumsum([len(s) for s in rings])]).astype(np.int32),
        area_mm2=area,
        centroid_mm=np.array([shape[0].mean(axis=0) for shape in rings]),
        colour=np.array([WHITE] * n if colour is None else colour, np.uint8),
        glass=np.zeros(n, np.uint8),
        adhesive=("",) * n,
        group=np.full(n, -1, np.int32),
        group_names=(),
        joints=Joints(np.zeros((0, 2), np.int32), np.zeros(0), np.zeros(0)),
        outline_area_mm2=width_mm * height_mm,
    )


def courses(columns: int, rows: int, *, piece_mm: float = 6.0, joint_mm: float = 0.8, seed: int = 1) -> Panel:
    """Return rows of four-sided pieces, cut by hand: a lemon-yellow round on a blue cloth."""
    rng = np.random.default_rng(seed)
    pitch = piece_mm + joint_mm
    column, row = (a.ravel() for a in np.meshgrid(np.arange(columns), np.arange(rows)))
    corner = np.array([[0, 0], [piece_mm, 0], [piece_mm, piece_mm], [0, piece_mm]])
    jitter = rng.uniform(-joint_mm / 3, joint_mm / 3, (len(column), 4, 2))
    at = np.column_stack([column, row]) * pitch + joint_mm / 2
    points = at[:, None] + corner + jitter
    width, height = columns * pitch, rows * pitch
    round_ = np.hypot(*(at - [width / 2, height / 2]).T) < 0.3 * min(width, height)
    shade = rng.integers(-18, 18, (len(column), 1))
    colour = np.clip(np.where(round_[:, None], LEMON, BLUE) + shade, 0, 255)
    return panel_of([[p] for p in points], colour=colour, width_mm=width, height_mm=height)


def blocks(panel: Panel, columns: int, rows: int) -> np.ndarray:
    """Return a section number for each tessera, 1 and up, by a grid of blocks over the panel."""
    x = np.minimum(panel.centroid_mm[:, 0] * columns // panel.width_mm, columns - 1)
    y = np.minimum(panel.centroid_mm[:, 1] * rows // panel.height_mm, rows - 1)
    return (y * columns + x + 1).astype(np.int32)


def _area(ring: np.ndarray) -> float:
    x, y = ring.T
    return 0.5 * float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))
