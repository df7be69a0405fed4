"""What can be wrong with a photo of a dry lay, or with what is said of it."""

from __future__ import annotations

from bench.drawing.faults import DrawingFault


class PhotoTooCoarse(DrawingFault):
    """The joints between pieces are no wider than a pixel or two."""

    def __init__(self, name: str, mm_per_px: float, most_mm: float) -> None:
        super().__init__(
            name,
            f"a pixel of the photo is {mm_per_px:.2g} mm wide; joints are seen from {most_mm:g} mm down",
            todo="take it from nearer, or take a smaller rectangle",
        )
        self.mm_per_px = mm_per_px
        self.most_mm = most_mm


class NoEdgeFound(DrawingFault):
    """A photo shows no edge between work and bare board where the drawing has one."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            "no edge of what is set is seen in it",
            todo="set the corners anew, or draw the edge by finger",
        )


class NoPieceThere(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, "no piece lies there", todo="touch a piece that is outlined")


class NoRoomThere(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, "there is no room for another piece", todo="touch bare ground")


class CutsNothing(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name, "the line parts no piece in two", todo="draw it right across one, from edge to edge"
        )


class TooFarApart(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name, "these are no two pieces side by side", todo="draw from one piece into the next"
        )
