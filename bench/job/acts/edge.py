"""Trace the edge of what is already set on a photo of the panel: found in it, or drawn by finger.

The way: `task_for` says which rectangle the corners are of; `look` finds the edge in a photo (no book is
touched, so it may run on any thread); `trace` keeps the lines and the photo as one act.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bench.book.events import EdgeTraced, PhotoFrame
from bench.drawing.dry import Frame, edge_lines, frame_around
from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.drawing.photo import Picture, Quad
from bench.job.acts.dry_photo import MEDIA
from bench.job.faults import EdgeTooShort, NothingSet
from bench.job.job import Job

MARGIN_MM = 30.0  # around what is set, where the maker says nothing else
MOST_POINTS, MOST_LINES = 5000, 500
LEAST_MM = 3.0


@dataclass(frozen=True)
class EdgeTask:
    """What to look for: the edge of these tesserae of a panel, in a rectangle of it."""

    panel: Panel
    tesserae: IntArray
    sections: tuple[int, ...]
    frame: Frame


def task_for(job: Job, margin_mm: float | None = None) -> EdgeTask:
    """Return what to look for; margin_mm: around what is set, None for the whole panel. Raises NothingSet.

    A panel's face is photographed, so it is never mirrored.
    """
    done = job.state.with_stage("set")
    if not done:
        raise NothingSet
    tesserae = np.array(sorted(t for s in done for t in s.tesserae), np.int32)
    frame = frame_around(job.panel, tesserae.tolist(), margin_mm)
    return EdgeTask(job.panel, tesserae, tuple(s.number for s in done), frame)


def look(flat: Picture, task: EdgeTask) -> tuple[FloatArray, ...]:
    """Return the edge in a photo that was squared up, lines on the panel. [mm] Raises NoEdgeFound."""
    return edge_lines(flat, task.frame, task.panel, task.tesserae)


def trace(
    job: Job,
    data: bytes,
    *,
    corner_px: Quad,
    frame: Frame,
    lines_mm: Sequence[FloatArray],
    found: bool,
) -> None:
    """Keep the edge and the photo that shows it, in place of one that was traced before.

    lines_mm: each (points, 2), on the panel. Raises EdgeTooShort where no line is as long as 3 mm.
    """
    long = [line for line in lines_mm if _length_mm(line) >= LEAST_MM]
    if not long:
        raise EdgeTooShort(LEAST_MM)
    event = EdgeTraced(
        photo=hashlib.sha256(data).hexdigest(),
        corner_px=corner_px,
        frame=PhotoFrame.model_validate(frame.model_dump()),
        lines_mm=tuple(_kept(line) for line in long[:MOST_LINES]),
        found=found,
        sections=tuple(s.number for s in job.state.with_stage("set")),
    )
    job.write(event, files=[(data, MEDIA)])


def _kept(line: FloatArray) -> tuple[tuple[float, float], ...]:
    """Return a line to a hundredth of a mm, with no more points than an entry holds."""
    step = max(1, -(-len(line) // (MOST_POINTS - 1)))
    some = np.vstack([line[:-1:step], line[-1:]]).round(2)
    return tuple((float(x), float(y)) for x, y in some.tolist())


def _length_mm(line: FloatArray) -> float:
    points = np.asarray(line, np.float64).reshape(-1, 2)
    return float(np.hypot(*np.diff(points, axis=0).T).sum()) if len(points) > 1 else 0.0
