"""What a picture can be, and the steps that lead from there to a panel. No Kivy here.

A step is a class of its own, made when it is turned to. A way whose steps are not all there is not offered.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.speech import say

STEPS = {
    "picture": "bench.screens.tracing.picture:PictureStep",
    "corners": "bench.screens.tracing.corners:CornersStep",
    "kind": "bench.screens.tracing.kind:KindStep",
    "lines": "bench.screens.tracing.lines:LinesStep",
    "outline": "bench.screens.tracing.outline:OutlineStep",
    "regions": "bench.screens.tracing.areas:AreasStep",
    "lay": "bench.screens.tracing.laying:LayStep",
}
FIRST = ("picture", "corners", "kind")
EMPTY = ("outline", "regions", "lay")  # a panel without a picture


@dataclass(frozen=True)
class Way:
    """One kind of picture, and its steps after the first three."""

    kind: str
    steps: tuple[str, ...]

    @property
    def text(self) -> str:
        """Say what it is called."""
        return {"lines": say("Every piece is drawn"), "study": say("Areas are painted")}[self.kind]

    @property
    def says(self) -> str:
        """Say a sentence about it."""
        return {
            "lines": say("Lines go round each piece of glass. Each becomes one tessera."),
            "study": say("A colour study. Its areas are filled with rows of tesserae."),
        }[self.kind]


WAYS = (
    Way("lines", ("lines",)),
    Way("study", ("regions", "lay")),
)


def offered() -> tuple[Way, ...]:
    """Return the ways whose steps are all there."""
    return tuple(way for way in WAYS if all(step in STEPS for step in way.steps))


def path(kind: str | None) -> tuple[str, ...]:
    """Return the steps of a kind of picture in order; while it is open, those up to that question."""
    if kind == "empty":
        return EMPTY
    return FIRST + next((way.steps for way in offered() if way.kind == kind), ())


def step_or_first(kind: str | None, step: str) -> str:
    """Return the step if it lies on the path, else the first: another version may have named it."""
    return step if step in path(kind) else path(kind)[0]
