"""What is odd about the tesserae of a drawing: kept as they are, and named."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from bench.drawing.faults import quoted
from bench.drawing.overlaps import Overlaps
from bench.drawing.panel import GLASS_KINDS, FloatArray
from bench.speech import say, say_n

MOST_NAMED = 20
TINY_MM2 = 1.0
HUGE_SHARE = 0.25  # of the panel

Bools = NDArray[np.bool_]

Saying = Callable[[int, str], str]  # of how many, and their names


def no_page_size() -> str:
    return say("the drawing gives no page size; the page is drawn around its shapes, at 96 px to the inch")


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
        (found.area_mm2 < TINY_MM2, _tiny),
        (found.area_mm2 > HUGE_SHARE * found.panel_mm2, _huge),
        (found.crosses, _crossing),
        (found.parts > 1, _in_parts),
        (found.outside, _outside),
        (found.clipped, _clipped),
        (~found.true_colour, _patterned),
        *_unknown_glass(found),
    ]
    named = [
        _sentence(saying, [found.ids[k] for k in np.flatnonzero(which).tolist()]) for which, saying in kinds
    ]
    page = [] if found.sized else [no_page_size()]
    return (*page, *(text for text in named if text), *_overlapping(found))


def _sentence(saying: Saying, names: Sequence[str]) -> str:
    """Return e.g. '2 tesserae are smaller than 1 mm²: a1, a2'; empty for no names."""
    return saying(len(names), listed(names)) if names else ""


def _tiny(count: int, ids: str) -> str:
    return say_n(
        "{count} tessera is smaller than 1 mm²: {ids}",
        "{count} tesserae are smaller than 1 mm²: {ids}",
        count,
        ids=ids,
    )


def _huge(count: int, ids: str) -> str:
    return say_n(
        "{count} tessera is larger than a quarter of the panel: {ids}",
        "{count} tesserae are larger than a quarter of the panel: {ids}",
        count,
        ids=ids,
    )


def _crossing(count: int, ids: str) -> str:
    return say_n(
        "{count} tessera is crossing its own outline: {ids}",
        "{count} tesserae are crossing their own outline: {ids}",
        count,
        ids=ids,
    )


def _in_parts(count: int, ids: str) -> str:
    return say_n(
        "{count} tessera is made of several separate outlines, and taken for one piece: {ids}",
        "{count} tesserae are made of several separate outlines, and taken for one piece: {ids}",
        count,
        ids=ids,
    )


def _outside(count: int, ids: str) -> str:
    return say_n(
        "{count} tessera is off the page: {ids}",
        "{count} tesserae are off the page: {ids}",
        count,
        ids=ids,
    )


def _clipped(count: int, ids: str) -> str:
    return say_n(
        "{count} tessera is clipped or masked, which is not followed: {ids}",
        "{count} tesserae are clipped or masked, which is not followed: {ids}",
        count,
        ids=ids,
    )


def _patterned(count: int, ids: str) -> str:
    return say_n(
        "{count} tessera is painted with a pattern, so that the colour is not its own: {ids}",
        "{count} tesserae are painted with a pattern, so that the colour is not their own: {ids}",
        count,
        ids=ids,
    )


def _unknown_glass(found: Findings) -> list[tuple[Bools, Saying]]:
    unknown = sorted({glass for glass in found.glass if glass and glass not in GLASS_KINDS})
    value = np.array(found.glass)
    return [(value == one, partial(_of_glass, one)) for one in unknown[:MOST_NAMED]]


def _of_glass(glass: str, count: int, ids: str) -> str:
    return say_n(
        "{count} tessera is of glass {glass}, which is none of {kinds}, and taken as opaque: {ids}",
        "{count} tesserae are of glass {glass}, which is none of {kinds}, and taken as opaque: {ids}",
        count,
        glass=quoted(glass),
        kinds=", ".join(GLASS_KINDS),
        ids=ids,
    )


def _overlapping(found: Findings) -> list[str]:
    ids, texts = found.ids, []
    pairs = [say("{this} and {that}", this=ids[i], that=ids[j]) for i, j in found.overlaps.pair.tolist()]
    if pairs:
        texts.append(
            say_n(
                "{count} pair of tesserae overlaps by more than 5 % of the smaller: {pairs}",
                "{count} pairs overlap by more than 5 % of the smaller: {pairs}",
                len(pairs),
                pairs=listed(pairs),
            )
        )
    if more := found.overlaps.not_measured:
        texts.append(say("{count} more pairs of tesserae may overlap; they were not measured", count=more))
    return texts


def listed(names: Sequence[str]) -> str:
    """Return the first 20 names and how many more there are."""
    first, more = ", ".join(names[:MOST_NAMED]), len(names) - MOST_NAMED
    return say("{names} and {count} more", names=first, count=more) if more > 0 else first
