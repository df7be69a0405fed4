"""What a picture can be, and the steps that lead from there to a panel. No Kivy here.

A step is a class of its own, made when it is turned to. A way whose steps are not all there is not offered.
"""

from __future__ import annotations

from dataclasses import dataclass

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
    """One kind of picture: what it is called, a sentence about it, and its steps after the first three."""

    kind: str
    text: str
    says: str
    steps: tuple[str, ...]


WAYS = (
    Way(
        "lines",
        "Every piece is drawn",
        "Lines go round each piece of glass. Each becomes one tessera.",
        ("lines",),
    ),
    Way(
        "study",
        "Areas are painted",
        "A colour study. Its areas are filled with rows of tesserae.",
        ("regions", "lay"),
    ),
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
