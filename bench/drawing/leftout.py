"""The report of what a drawing holds beside its tesserae."""

from __future__ import annotations

from collections.abc import Mapping

from bench.drawing.panel import LeftOut
from bench.speech import say


def report(counts: Mapping[str, int]) -> tuple[LeftOut, ...]:
    """Return one line for each kind of thing that was left out, in a fixed order."""
    why = {
        "open stroke": say("its outline is not closed, so it encloses no glass"),
        "unfilled shape": say("it has no fill, so no glass"),
        "empty shape": say("it encloses no area"),
        "background": say("it covers at least 95 % of the panel"),
        "hidden shape": say("it is not shown"),
        "shape never drawn": say("it only stands in the definitions, and nothing uses it"),
        "text": say("letters are no glass; turn them into paths if they are to be set"),
        "image": say("a picture has no pieces"),
        "foreignObject": say("it is no part of a drawing"),
        "broken reference": say("it points at nothing in this file, and other files are never opened"),
    }
    return tuple(LeftOut(what, counts[what], said) for what, said in why.items() if counts.get(what))
