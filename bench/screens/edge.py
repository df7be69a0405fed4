"""The edge of what is set: choose a photo of the panel, set its corners, and trace the edge in it.

It is found in the photo or drawn by finger; nothing is in the book until it is kept.
"""

from __future__ import annotations

from typing import Any

from bench.drawing.panel import FloatArray
from bench.fault import Fault
from bench.job.acts import edge
from bench.screens.aside import Progress
from bench.screens.drying.traced_edge import TracedEdge
from bench.screens.photo_flow import PhotoFlow, Squared
from bench.speech import say


class EdgeScreen(PhotoFlow):
    """Hold one photo of the panel until the edge of what is set is kept. task: an EdgeTask."""

    place = "edge"

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.back_text, self.title = say("Back to the papers"), say("Edge of what is set")
        self._edge = TracedEdge(flow=self)

    def arrive(self) -> None:
        """Begin with a photo; where nothing is set there is no edge, and the papers say so."""
        self._forget()
        try:
            self.take_margin(None)
        except Fault as fault:
            self.leave()
            self.desk.tell(fault)
            return
        self.choose()

    def leave(self) -> None:
        """Go back to the papers; what was not kept is let go."""
        self._forget()
        self.desk.go("finish")

    def take_margin(self, margin_mm: float | None) -> None:
        """Take a rectangle around what is set; None is the whole panel."""
        self.margin_mm = margin_mm
        self.task = edge.task_for(self.job, margin_mm)

    def look(self) -> None:
        """Square the photo up and look for the edge; where none is found it can be drawn."""
        task, square = self.task, self.squared(self.task.frame)

        def work(progress: Progress) -> tuple[Squared, tuple[FloatArray, ...]]:
            seen = square(progress)
            progress(0.4)
            try:
                return seen, edge.look(seen[3], task)
            except Fault:
                return seen, ()

        def use(both: tuple[Squared, tuple[FloatArray, ...]]) -> None:
            seen, lines = both
            self.take_squared(seen)
            self._put(self._edge)
            self._edge.arrive(lines)

        self._begin(say("Looking for the edge …"), work, use, self.turn_to_corners)

    def keep(self) -> None:
        """Keep the edge and the photo, and go back to the papers."""
        done, _ = self.desk.attempt(
            edge.trace,
            self._file,
            corner_px=self.corner_px,
            frame=self.task.frame,
            lines_mm=self._edge.on_panel(),
            found=self._edge.is_as_found,
        )
        if done:
            self.leave()
