"""The report of what a drawing holds beside its tesserae."""

from __future__ import annotations

from collections.abc import Mapping

from bench.drawing.panel import LeftOut

WHY = {
    "open stroke": "its outline is not closed, so it encloses no glass",
    "unfilled shape": "it has no fill, so no glass",
    "empty shape": "it encloses no area",
    "background": "it covers at least 95 % of the panel",
    "hidden shape": "it is not shown",
    "shape never drawn": "it only stands in the definitions, and nothing uses it",
    "text": "letters are no glass; turn them into paths if they are to be set",
    "image": "a picture has no pieces",
    "foreignObject": "it is no part of a drawing",
    "broken reference": "it points at nothing in this file, and other files are never opened",
}


def report(counts: Mapping[str, int]) -> tuple[LeftOut, ...]:
    """Return one line for each kind of thing that was left out, in a fixed order."""
    return tuple(LeftOut(what, counts[what], why) for what, why in WHY.items() if counts.get(what))
