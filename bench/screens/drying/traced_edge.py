"""The edge that was found in a photo of the panel, to be kept, drawn anew, or put right by strokes."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import numpy as np
from kivy.properties import BooleanProperty, ObjectProperty, StringProperty

from bench.drawing.panel import FloatArray
from bench.job.acts.edge import LEAST_MM
from bench.screens.parts.plates import Rows
from bench.screens.tracing.found_picture import FoundPicture  # noqa: F401 - the kv file names it
from bench.speech import line_length, say

Line = tuple[tuple[float, float], ...]
RUBS_MM = 4.0  # a stroke takes the place of what lies so near to it


class TracedEdge(Rows):
    """Show the lines over the photo, in mm of it, and follow strokes. `flow` is the screen."""

    flow = ObjectProperty()
    head = StringProperty("")
    how = StringProperty("")
    drawing = BooleanProperty(False)
    can_take_back = BooleanProperty(False)
    can_keep = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self.lines: tuple[Line, ...] = ()
        self._before: list[tuple[Line, ...]] = []
        super().__init__(**kwargs)

    @property
    def is_as_found(self) -> bool:
        """Whether the lines are those that were found."""
        return not self._before and bool(self.lines)

    def arrive(self, lines: Sequence[FloatArray]) -> None:
        """Show a photo anew with what was found in it, lines on the panel."""
        frame = self.flow.task.frame
        self.lines = tuple(_line(frame.in_photo(line)) for line in lines)
        self._before = []
        self.drawing = not self.lines
        self.how = say("No edge is seen in the photo. Draw along it with a finger, from end to end.")
        if self.lines:
            self.how = say(
                "Right? Then keep it. Else draw along the edge: a stroke takes the place of the line near it."
            )
        self.ids.picture.lay_under(self.flow.flat.pixels, (frame.width_mm, frame.height_mm))
        self._show()

    def on_panel(self) -> list[FloatArray]:
        """Return the lines on the panel, each (points, 2). [mm]"""
        return [self.flow.task.frame.on_panel(np.array(line)) for line in self.lines]

    def stroked(self, points_mm: list[tuple[float, float]]) -> None:
        """Take a stroke in place of what lies near it."""
        self.ids.picture.wipe()
        stroke = np.array(points_mm, np.float64).reshape(-1, 2)
        if len(stroke) < 2 or np.hypot(*np.diff(stroke, axis=0).T).sum() < LEAST_MM:
            return
        left = [part for line in self.lines for part in _off(np.array(line), stroke)]
        self._change((*left, _line(stroke)))

    def clear(self) -> None:
        """Take all lines away, to draw them by finger."""
        self.drawing = True
        self._change(())

    def take_back(self) -> None:
        """Take back what was done last."""
        self.lines = self._before.pop()
        self._show()

    def turn_drawing(self) -> None:
        """Let the finger draw, or move the photo again."""
        self.drawing = not self.drawing

    def act_on_key(self) -> None:
        """Do the step's one act, as Enter asks for it."""
        if self.can_keep:
            self.flow.keep()

    def _change(self, lines: tuple[Line, ...]) -> None:
        self._before.append(self.lines)
        self.lines = lines
        self._show()

    def _show(self) -> None:
        long_mm = sum(float(np.hypot(*np.diff(np.array(line), axis=0).T).sum()) for line in self.lines)
        self.head = say("{length} of edge", length=line_length(long_mm))
        self.can_keep, self.can_take_back = bool(self.lines), bool(self._before)
        self.ids.picture.draw(self.lines)


def _line(points: FloatArray) -> Line:
    return tuple((float(x), float(y)) for x, y in points.tolist())


def _off(line: FloatArray, stroke: FloatArray) -> list[Line]:
    """Return the stretches of a line that no part of a stroke comes near."""
    from scipy.spatial import cKDTree

    steps = [stroke[:1]]
    for a, b in pairwise(stroke):
        count = max(1, int(np.ceil(float(np.hypot(*(b - a))))))
        steps.append(a + (b - a) * (np.arange(1, count + 1) / count)[:, None])
    far = cKDTree(np.concatenate(steps)).query(line)[0] > RUBS_MM
    turns = np.flatnonzero(np.diff(np.concatenate([[False], far, [False]]).astype(np.int8)))
    return [_line(line[a:b]) for a, b in zip(turns[::2], turns[1::2], strict=True) if b - a > 1]
