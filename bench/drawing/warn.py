"""What is odd about the tesserae of a drawing: kept as they are, and named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.faults import quoted
from bench.drawing.overlaps import Overlaps
from bench.drawing.panel import GLASS_KINDS, FloatArray

MOST_NAMED = 20
TINY_MM2 = 1.0
HUGE_SHARE = 0.25  # of the panel

Bools = NDArray[np.bool_]

NO_PAGE_SIZE = "the drawing gives no page size; the page is drawn around its shapes, at 96 px to the inch"


@dataclass(frozen=True, eq=False)
class Findings:
    """What is known of the n tesserae of a drawing, each array (n,)."""

    ids: Sequence[str]
    area_mm2: FloatArray
    panel_mm2: float
    crosses: Bools  # the outline crosses itself
    parts: NDArray[np.int64]  # separate outer outlines
    outside: Bools  # of the page, all of it
    glass: Sequence[str]  # as the drawing has it
    clipped: Bools
    true_colour: Bools
    overlaps: Overlaps
    sized: bool


def warnings_of(found: Findings) -> tuple[str, ...]:
    """Return a sentence for each kind of oddity, with the ids of those that show it."""
    kinds = [
        ("smaller than 1 mm²", found.area_mm2 < TINY_MM2),
        ("larger than a quarter of the panel", found.area_mm2 > HUGE_SHARE * found.panel_mm2),
        ("crossing its own outline", found.crosses),
        ("made of several separate outlines, and taken for one piece", found.parts > 1),
        ("off the page", found.outside),
        ("clipped or masked, which is not followed", found.clipped),
        ("painted with a pattern, so that the colour is not its own", ~found.true_colour),
        *_unknown_glass(found),
    ]
    named = [sentence(what, [found.ids[k] for k in np.flatnonzero(which).tolist()]) for what, which in kinds]
    page = [] if found.sized else [NO_PAGE_SIZE]
    return (*page, *(text for text in named if text), *_overlapping(found))


def _unknown_glass(found: Findings) -> list[tuple[str, Bools]]:
    unknown = sorted({glass for glass in found.glass if glass and glass not in GLASS_KINDS})
    known = f"which is none of {', '.join(GLASS_KINDS)}, and taken as opaque"
    value = np.array(found.glass)
    return [(f"of glass {quoted(one)}, {known}", value == one) for one in unknown[:MOST_NAMED]]


def _overlapping(found: Findings) -> list[str]:
    pairs = [f"{found.ids[i]} and {found.ids[j]}" for i, j in found.overlaps.pair.tolist()]
    texts = []
    if pairs:
        subject = "1 pair of tesserae overlaps" if len(pairs) == 1 else f"{len(pairs)} pairs overlap"
        texts.append(f"{subject} by more than 5 % of the smaller: {listed(pairs)}")
    if more := found.overlaps.not_measured:
        texts.append(f"{more} more pairs of tesserae may overlap; they were not measured")
    return texts


def sentence(what: str, names: Sequence[str]) -> str:
    """Return e.g. '2 tesserae are smaller than 1 mm²: a1, a2'; empty for no names."""
    subject = "1 tessera is" if len(names) == 1 else f"{len(names)} tesserae are"
    return f"{subject} {what}: {listed(names)}" if names else ""


def listed(names: Sequence[str]) -> str:
    """Return the first 20 names and how many more there are."""
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return ", ".join(names[:MOST_NAMED]) + more
