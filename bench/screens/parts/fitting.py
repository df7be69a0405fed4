"""How large a text may be so that no word of it is broken, and it stays within its box."""

from __future__ import annotations

from functools import lru_cache

from kivy.core.text import Label as CoreLabel

from bench.screens.theme import FONT, theme

LINE = 1.21  # height of a line in this typeface, in sizes
_TRIAL_PX = 100
_NEAR = 0.9  # of the room: from there on a word is measured at its own size
_ROUNDED_PX = 2  # a texture is a little wider than its words


@lru_cache(maxsize=4096)
def word_px(word: str, bold: bool, measured_at_px: float = _TRIAL_PX) -> float:
    """Return how wide a word is at a size of one pixel; small type is a little wider than that foretells."""
    label = CoreLabel(font_name=FONT, font_size=measured_at_px, bold=bold)
    return float(label.get_extents(word)[0]) / measured_at_px


def breaks(text: str, size_px: float, width_px: float, *, bold: bool) -> bool:
    """Tell whether any word of a plain text is wider than its place, and broken therefore."""
    room_px = width_px - _ROUNDED_PX
    near = (word for word in text.split() if word_px(word, bold) * size_px > _NEAR * room_px)
    return any(word_px(word, bold, size_px) * size_px > room_px for word in near)


def lines_at(text: str, size_px: float, width_px: float, *, bold: bool) -> int:
    """Return how many lines a plain text takes when it is wrapped to a width."""
    lines = 0
    for paragraph in text.split("\n"):
        lines, used_px = lines + 1, 0.0
        for word in paragraph.split():
            wide_px = word_px(f"{word} ", bold) * size_px
            if used_px and used_px + word_px(word, bold) * size_px > width_px:
                lines, used_px = lines + 1, 0.0
            used_px += wide_px
    return lines


def fitted_px(
    text: str, most_px: float, width_px: float, height_px: float | None = None, *, bold: bool = True
) -> int:
    """Return the largest whole size up to most_px at which no word is broken.

    height_px: what the lines may take together; None where the box grows with them. Half of what most_px
    is without enlargement is the least.
    """
    longest_px = max((word_px(word, bold) for word in text.split()), default=0.0)
    size_px = int(most_px)
    if longest_px > 0 and width_px > 0:
        size_px = min(size_px, int((width_px - _ROUNDED_PX) / longest_px))
    least_px = int(most_px / 2 / max(1.0, theme.text_scale * theme.fit))
    while height_px is not None and size_px > least_px:
        if lines_at(text, size_px, width_px, bold=bold) * LINE * size_px <= height_px:
            break
        size_px -= 1
    return max(size_px, least_px)
