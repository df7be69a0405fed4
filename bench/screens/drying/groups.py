"""The drawn pieces of a section by the drawing's groups, each with its shades, as many as have room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from kivy.properties import StringProperty

from bench.drawing.panel import Panel
from bench.screens.parts.shades import Shades, bands  # noqa: F401 - the kv file names it
from bench.screens.theme import theme
from bench.screens.widgets import Rows, Words
from bench.speech import say

LINE = 1.3  # height of a line of text, in sizes


class GlassRow(Rows):
    """How many pieces of one of the drawing's groups, and in which shades."""

    text = StringProperty("")

    def __init__(self, *, colours: list[tuple[float, float, float]], **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.ids.shades.colours = colours


@dataclass(frozen=True)
class Group:
    """So many pieces that the drawing calls by one name, and their colours."""

    count: int
    name: str
    colours: list[tuple[float, float, float]]


def groups_of(panel: Panel, tesserae: Sequence[int]) -> list[Group]:
    """Return the groups of these tesserae, the largest first."""
    members = np.asarray(tesserae, dtype=np.intp)
    numbers, counts = np.unique(panel.group[members], return_counts=True)
    found = []
    for k in np.argsort(-counts, kind="stable"):
        name = panel.group_names[numbers[k]] if numbers[k] >= 0 else say("glass")
        of_it = members[panel.group[members] == numbers[k]]
        found.append(Group(int(counts[k]), name, bands(panel.colour[of_it])))
    return found


def with_room(groups: Sequence[Group], most: int, room_px: float) -> int:
    """Return of how many groups there is room for a row, at most so many, and for a line for the rest."""
    row_px = LINE * theme.text + theme.line + theme.small + theme.gap
    more_px = LINE * theme.text + theme.gap
    shown = min(most, len(groups))
    while shown and shown * row_px + (more_px if shown < len(groups) else 0) > room_px:
        shown -= 1
    return shown


def group_rows(groups: Sequence[Group], shown: int) -> list[Any]:
    """Return rows for the first groups, and a line for the rest; none where none is shown."""
    rows: list[Any] = [GlassRow(text=f"{g.count} {g.name}", colours=g.colours) for g in groups[:shown]]
    rest = groups[shown:]
    if rows and rest:
        count = sum(group.count for group in rest)
        rows.append(Words(text=say("{count} in {groups} more", count=count, groups=len(rest))))
    return rows
