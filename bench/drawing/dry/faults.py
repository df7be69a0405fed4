"""What can be wrong with a photo of a dry lay, or with what is said of it."""

from __future__ import annotations

from bench.drawing.faults import DrawingFault
from bench.speech import say


class PhotoTooCoarse(DrawingFault):
    """The joints between pieces are no wider than a pixel or two."""

    def __init__(self, name: str, mm_per_px: float, most_mm: float) -> None:
        super().__init__(
            name,
            say(
                "a pixel of the photo is {wide:.2g} mm wide; joints are seen from {most:g} mm down",
                wide=mm_per_px,
                most=most_mm,
            ),
            todo=say("take it from nearer, or take a smaller rectangle"),
        )
        self.mm_per_px = mm_per_px
        self.most_mm = most_mm


class NoEdgeFound(DrawingFault):
    """A photo shows no edge between work and bare board where the drawing has one."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("no edge of what is set is seen in it"),
            todo=say("set the corners anew, or draw the edge by finger"),
        )


class NoPieceThere(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, say("no piece lies there"), todo=say("touch a piece that is outlined"))


class NoRoomThere(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, say("there is no room for another piece"), todo=say("touch bare ground"))


class CutsNothing(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("the line parts no piece in two"),
            todo=say("draw it right across one, from edge to edge"),
        )


class TooFarApart(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("these are no two pieces side by side"),
            todo=say("draw from one piece into the next"),
        )
