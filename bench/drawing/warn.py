"""What is odd about the tesserae of a drawing: kept as they are, and named."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bench.drawing.flatten import Rings
from bench.drawing.panel import GLASS_KINDS, FloatArray, IntArray
from bench.drawing.scene import Shape

MOST_NAMED = 20
TINY_MM2 = 1.0
HUGE_SHARE = 0.25  # of the panel


def warnings_of(
    ids: Sequence[str],
    tesserae: Sequence[Shape],
    rings: Rings,
    tessera_ring: IntArray,
    area_mm2: FloatArray,
    panel_mm2: float,
    size_mm: tuple[float, float],
    *,
    sized: bool,
) -> tuple[str, ...]:
    """Return a sentence for each kind of oddity, with the ids of those that show it."""
    found = []
    if not sized:
        found.append("the drawing gives no page size; the page is drawn around its shapes, 96 px to the inch")
    found += _named("smaller than 1 mm²", ids, area_mm2 < TINY_MM2)
    found += _named("larger than a quarter of the panel", ids, area_mm2 > HUGE_SHARE * panel_mm2)
    unknown = np.array([bool(s.scene.glass) and s.scene.glass not in GLASS_KINDS for s in tesserae])
    for value in sorted({tesserae[k].scene.glass for k in np.flatnonzero(unknown).tolist()}):
        some = np.array([shape.scene.glass == value for shape in tesserae])
        what = f"of unknown glass '{value[:40]}', taken as opaque (known are {', '.join(GLASS_KINDS)})"
        found += _named(what, ids, some)
    return tuple(found)


def _named(what: str, ids: Sequence[str], which: NDArray[np.bool_]) -> list[str]:
    chosen = [ids[k] for k in np.flatnonzero(which).tolist()]
    return [sentence(len(chosen), what, chosen)] if chosen else []


def sentence(count: int, what: str, names: Sequence[str]) -> str:
    """Return e.g. '2 tesserae are smaller than 1 mm²: a1, a2'; of many, the first 20 are named."""
    subject = "1 tessera is" if count == 1 else f"{count} tesserae are"
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return f"{subject} {what}: {', '.join(names[:MOST_NAMED])}{more}"
