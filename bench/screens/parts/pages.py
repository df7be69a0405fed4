"""Pages instead of a list that is flung: how high texts are, and how many go on a page."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from kivy.core.text import Label as CoreLabel

from bench.screens.parts.glyphs import drawable
from bench.screens.theme import FONT


@lru_cache(maxsize=2048)
def text_height_px(text: str, width_px: int, size_px: int, bold: bool = False) -> int:
    """Return how high a text is when it is wrapped to a width; nothing is 0 high."""
    if not text:
        return 0
    label = CoreLabel(
        text=drawable(text), font_name=FONT, font_size=size_px, bold=bold, text_size=(max(1, width_px), None)
    )
    label.refresh()
    return int(label.texture.size[1])


def pages_of(heights_px: Sequence[float], room_px: float, gap_px: float) -> list[range]:
    """Return which items go on each page: as many as fit, in order, and at least one a page.

    No items make one empty page.
    """
    pages, first, used_px = [], 0, 0.0
    for k, height_px in enumerate(heights_px):
        needed_px = height_px if k == first else used_px + gap_px + height_px
        if k > first and needed_px > room_px:
            pages.append(range(first, k))
            first, needed_px = k, height_px
        used_px = needed_px
    return [*pages, range(first, len(heights_px))]
