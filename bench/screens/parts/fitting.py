"""How large a text may be so that no word of it is broken, and it stays within its box."""

from __future__ import annotations

import re
from functools import lru_cache

from kivy.core.text import Label as CoreLabel

from bench.screens.parts.glyphs import drawable
from bench.screens.theme import FONT, theme

LINE = 1.21  # height of a line in this typeface, in sizes
_TRIAL_PX = 100
_NEAR = 0.9  # of the room: from there on a word is measured at its own size
_SURE = 0.02  # of the room: so near to its end a line is measured, each word alone foretells too little
ROUNDED_PX = 2  # by so much a texture may be wider or higher than its words are reckoned
_PARTED = re.compile(r"(?<=\d) (?=(?:g|h|min|mm|cm|m|cm²|cm³|°C|°F|%)(?:[^\w²³]|$))")
_CLAUSE = re.compile(r"[,;:] ")
_COUNTED = re.compile(r"\(\d+ \w+ \d+\)")  # "(1 of 7)"
_NEVER = "\u00a0"  # a space at which no line ends
_LONELY, _FULL = 0.36, 0.6  # of the width: what a word alone on a line takes, and what the line before keeps


@lru_cache(maxsize=4096)
def word_px(word: str, bold: bool, measured_at_px: float = _TRIAL_PX) -> float:
    """Return how wide a word is at a size of one pixel; small type is a little wider than that foretells."""
    label = CoreLabel(font_name=FONT, font_size=measured_at_px, bold=bold)
    return float(label.get_extents(drawable(word))[0]) / measured_at_px


def _words(text: str) -> list[str]:
    """Return what stands between the spaces at which a line may end."""
    return [word for word in text.replace("\n", " ").split(" ") if word]


def breaks(text: str, size_px: float, width_px: float, *, bold: bool) -> bool:
    """Tell whether any word of a plain text is wider than its place, and broken therefore."""
    room_px = width_px - ROUNDED_PX
    near = (word for word in _words(text) if word_px(word, bold) * size_px > _NEAR * room_px)
    return any(word_px(word, bold, size_px) * size_px > room_px for word in near)


def lines_at(text: str, size_px: float, width_px: float, *, bold: bool) -> int:
    """Return how many lines a plain text takes when it is wrapped to a width."""
    return sum(len(_wrapped(_words(part), size_px, width_px, bold)) for part in text.split("\n"))


def on_one_line(text: str, size_px: float, width_px: float) -> str:
    """Return as many whole clauses of a plain text as stand on one line, "" where not even the first does."""
    ends = [len(text), *(found.start() for found in reversed([*_CLAUSE.finditer(text)]))]
    heads = (text[:end] for end in ends)
    return next((head for head in heads if _is_one_line(head, size_px, width_px)), "")


def _is_one_line(text: str, size_px: float, width_px: float) -> bool:
    return lines_at(text, size_px, width_px - ROUNDED_PX, bold=False) == 1 and not breaks(
        text, size_px, width_px, bold=False
    )


def held_together(text: str, size_px: float, width_px: float, *, bold: bool) -> str:
    """Return a plain text in which no line ends where a reader would stumble, in as many lines as before.

    A number stays with its unit, a page with how many there are, and no paragraph's last line is a single
    word. Kivy ends lines at plain spaces only.
    """
    return "\n".join(_held(part, size_px, width_px, bold) for part in text.split("\n"))


def _held(paragraph: str, size_px: float, width_px: float, bold: bool) -> str:
    before = _wrapped(paragraph.split(" "), size_px, width_px, bold)
    if len(before) < 2:
        return paragraph
    words = _COUNTED.sub(lambda found: found[0].replace(" ", _NEVER), _PARTED.sub(_NEVER, paragraph)).split(
        " "
    )
    lines = _wrapped(words, size_px, width_px, bold)
    if len(lines) > len(before) or any(word_px(word, bold) * size_px > width_px for word in words):
        words, lines = paragraph.split(" "), before
    if len(lines[-1]) == 1 and len(lines[-2]) > 1:
        last_px = word_px(words[-1], bold) * size_px
        left_px = word_px(" ".join(lines[-2][:-1]), bold) * size_px
        if last_px < _LONELY * width_px and left_px > _FULL * width_px:
            words = [*words[:-2], _NEVER.join(words[-2:])]
    return " ".join(words)


def widest_px(text: str, size_px: float, width_px: float, *, bold: bool) -> float:
    """Return how long the longest line of a plain text is that is wrapped to a width, held together."""
    held = held_together(text, size_px, width_px, bold=bold)
    lines = (line for part in held.split("\n") for line in _wrapped(_words(part), size_px, width_px, bold))
    return max(word_px(" ".join(line), bold, size_px) * size_px for line in lines)


def _wrapped(words: list[str], size_px: float, width_px: float, bold: bool) -> list[list[str]]:
    """Return the words of each line, as many a line as fit."""
    lines: list[list[str]] = [[]]
    used_px, space_px = 0.0, word_px(" ", bold) * size_px
    for word in words:
        wide_px = word_px(word, bold) * size_px
        longer_px = used_px + space_px + wide_px
        if lines[-1] and abs(longer_px - width_px) < _SURE * width_px:
            longer_px = word_px(" ".join([*lines[-1], word]), bold, size_px) * size_px
        if lines[-1] and longer_px > width_px:
            lines.append([])
            used_px = 0.0
        used_px += wide_px + (space_px if lines[-1] else 0.0)
        lines[-1].append(word)
    return lines


def fitted_px(
    text: str, most_px: float, width_px: float, height_px: float | None = None, *, bold: bool = True
) -> int:
    """Return the largest whole size up to most_px at which no word is broken.

    height_px: what the lines may take together; None where the box grows with them. Half of what most_px
    is without enlargement is the least.
    """
    longest_px = max((word_px(word, bold) for word in _words(text)), default=0.0)
    size_px = int(most_px)
    if longest_px > 0 and width_px > 0:
        size_px = min(size_px, int((width_px - ROUNDED_PX) / longest_px))
    least_px = int(most_px / 2 / max(1.0, theme.text_scale * theme.fit))
    while size_px > least_px and breaks(text, size_px, width_px, bold=bold):
        size_px -= 1  # at its own size a word may be a little wider than foretold
    while height_px is not None and size_px > least_px:
        if lines_at(text, size_px, width_px, bold=bold) * LINE * size_px <= height_px:
            break
        size_px -= 1
    return max(size_px, least_px)


def steady_px(
    text: str, most_px: float, width_px: float, height_px: float = 0.0, *, bold: bool = True
) -> int:
    """Return the largest whole size up to most_px at which a text takes no more height than usual.

    Usual is what it would take at the usual size of text, and at least height_px; no word is broken.
    """
    usual_px = fitted_px(text, most_px / theme.beyond, width_px, bold=bold)
    taken_px = lines_at(text, usual_px, width_px, bold=bold) * LINE * usual_px
    return max(usual_px, fitted_px(text, most_px, width_px, max(height_px, taken_px), bold=bold))
