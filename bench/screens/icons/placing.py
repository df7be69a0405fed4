"""Where a key has room for an icon: its words keep their size, their lines and their height."""

from __future__ import annotations

from typing import NamedTuple

AS_TYPE = 1.15  # height of an icon, in sizes of the type it stands by
LEAST_AS_TYPE = 0.9  # less than that would look like another hand's
APART = 0.35  # between icon and word, in sizes
ALONE = 0.64  # of the key's shorter side, where the icon is all there is
LONG = 3.2  # a key so many times as wide as high has its icon before the word, as a line is read


class Place(NamedTuple):
    """An icon's square and how far the words give way to it, in whole pixels from the key's lower left."""

    x_px: int
    y_px: int
    size_px: int
    words_x_px: int = 0
    words_y_px: int = 0


class Key(NamedTuple):
    """What is known of a key: its own size, what its words take in the middle of it, and what is free.

    edge_px: what stays free below and above, and twice as much at each side. line_px: the widest line.
    corner_px: how much of the upper right corner is taken. above: whether an icon may stand above the words.
    """

    width_px: float
    height_px: float
    type_px: float
    line_px: float
    words_px: float
    edge_px: float
    least_px: float
    corner_px: float = 0.0
    above: bool = True


def place(key: Key) -> Place | None:
    """Return where the icon of a key stands, None where there is no room for it beside the words."""
    if key.width_px > LONG * key.height_px:
        return _before(key)
    return _above(key) or _before(key)


def alone(width_px: float, height_px: float) -> Place:
    """Return where an icon stands that is all there is on a key."""
    size_px = _even(ALONE * min(width_px, height_px))
    return Place(round((width_px - size_px) / 2), round((height_px - size_px) / 2), size_px)


def beside(x_px: float, middle_px: float, type_px: float, line_px: float, room_px: float) -> Place | None:
    """Return where an icon stands at the head of a line that begins at a place, which gives way to it."""
    size_px = _even(AS_TYPE * type_px)
    give_px = round(size_px + APART * type_px)
    if give_px + line_px > room_px:
        return None
    return Place(round(x_px), round(middle_px - size_px / 2), size_px, give_px)


def _above(key: Key) -> Place | None:
    free_px = key.height_px - 2 * key.edge_px - key.words_px
    size_px = _even(min(AS_TYPE * key.type_px, free_px))
    x_px = round((key.width_px - size_px) / 2)
    if not key.above or size_px < max(key.least_px, LEAST_AS_TYPE * key.type_px) or x_px <= key.corner_px:
        return None
    y_px = round((key.height_px - size_px - key.words_px) / 2 + key.words_px)
    return Place(x_px, y_px, size_px, 0, -size_px // 2)


def _before(key: Key) -> Place | None:
    size_px = _even(AS_TYPE * key.type_px)
    give_px = _even(size_px + APART * key.type_px)
    taken_px = give_px + key.line_px
    if size_px < key.least_px or taken_px > key.width_px - 4 * key.edge_px:
        return None
    x_px = round((key.width_px - taken_px) / 2)
    return Place(x_px, round((key.height_px - size_px) / 2), size_px, give_px // 2)


def _even(length_px: float) -> int:
    """Return a length that has a middle on the grid of dots, no longer."""
    return max(0, int(length_px) // 2 * 2)
