"""All cautions on one sheet: in as many columns and as large as they fit, never scrolled, never cut."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import combinations, pairwise
from typing import Any

from kivy.clock import Clock
from kivy.core.text import Label as CoreLabel
from kivy.metrics import sp
from kivy.properties import ListProperty, NumericProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.label import Label
from kivy.utils import escape_markup

from bench.screens.parts.fitting import LINE
from bench.screens.parts.plates import Plate
from bench.screens.theme import FONT, TEXT_SP, theme

# Read before gloves go on, with the tablet in the hand: 20 minutes of arc at 400 mm are 2.3 mm of capital
# (ISO 9241-3), 20 sp in this typeface. Less is only taken where a screen holds no more.
LEAST_SP = 14
MOST_COLUMNS = 3
_TRIAL_PX = 100
_RUN_IN = re.compile(r"^([^\W\d_](?:[^\W\d_]| ){1,28}):")
_MARK = re.compile(r"\[/?[a-z]+(?:=\w+)?\]")
CODE = re.compile(r"^((?:EU)?[HP]\d{3}[A-Za-z]*(?:\+[HP]\d{3})*) ")


def item_markups(title: str, lines: tuple[str, ...], quiet: str) -> list[str]:
    """Return a group as texts that may stand in different columns.

    Lines that begin with what they are about, in bold, stand each alone and need no title; others run on
    behind the group's. The code of a hazard, which is looked for on the label, follows its words in the
    colour `quiet`, 'rrggbb'; those of advice help nobody here.
    """
    alone, running = [], []
    for line in lines:
        words = _sentence(line, quiet)
        if _RUN_IN.match(words):
            alone.append(_RUN_IN.sub(r"[b]\1:[/b]", words))
        else:
            running.append(words)
    if not running:
        return alone
    return [*alone, f"[b]{escape_markup(title)}:[/b] {' '.join(running)}"]


def _sentence(line: str, quiet: str) -> str:
    """Return one line of a group as it stands among others: closed by a stop, its code behind it."""
    code = CODE.match(line)
    words = escape_markup(line[code.end() :] if code else line)
    stop = "" if words[-1] in ".:!?" else "."
    mark = f" [color={quiet}]{code.group(1)}[/color]" if code and "H" in code.group(1) else ""
    return f"{words}{stop}{mark}"


def shared_out(heights: list[float], columns: int) -> list[range]:
    """Return which items go into each column, in order, so that the highest column is as low as can be."""
    count = len(heights)
    columns = min(columns, count)
    best: list[range] = [range(count)]
    lowest = float("inf")
    for cuts in combinations(range(1, count), columns - 1):
        edges = [0, *cuts, count]
        parts = [range(a, b) for a, b in pairwise(edges)]
        highest = max(sum(heights[k] for k in part) for part in parts)
        if highest < lowest:
            best, lowest = parts, highest
    return best


class CautionSheet(Plate):
    """Show groups of cautions; `type_px` is the size they came out at."""

    groups = ListProperty()
    type_px = NumericProperty(0)

    def __init__(self, **kwargs: Any) -> None:
        self._laid: tuple[Any, ...] = ()
        super().__init__(**kwargs)
        self._later = Clock.create_trigger(self._lay)
        self.bind(size=self._later, groups=self._later)
        theme.bind(ink=self._again, text=self._again)

    def _again(self, *_: object) -> None:
        self._later()

    def _lay(self, *_: object) -> None:
        state = (tuple(self.size), str(self.groups), tuple(theme.ink), theme.text)
        room = self.width - 2 * theme.pad, self.height - 2 * theme.pad
        if state == self._laid or not self.groups or min(room) < sp(100):
            return
        self._laid = state
        quiet = "".join(f"{round(c * 255):02x}" for c in theme.quiet[:3])
        texts = [text for title, lines in self.groups for text in item_markups(title, lines, quiet)]
        sizes = list(range(int(sp(LEAST_SP)), int(sp(TEXT_SP) * theme.text_scale) + 1))
        found = max((self._largest(texts, sizes, n, room) for n in range(1, MOST_COLUMNS + 1)), key=_worth)
        self._fill(texts, found, room)

    def _largest(
        self, texts: list[str], sizes: list[int], columns: int, room: tuple[float, float]
    ) -> tuple[int, int]:
        """Return the largest size at which the texts fit into so many columns, and the columns.

        Found by counting lines, which is quick, and then tried for true.
        """
        width = _column_px(room[0], columns)
        low, high = 0, len(sizes) - 1
        while low < high:
            middle = (low + high + 1) // 2
            heights = [lines_of(text, width, sizes[middle]) * LINE * sizes[middle] for text in texts]
            low, high = (middle, high) if _holds(heights, sizes[middle], columns, room) else (low, middle - 1)
        for size_px in reversed(sizes[: low + 2]):
            heights = [_label(text, size_px, width).texture_size[1] for text in texts]
            if _holds(heights, size_px, columns, room):
                return size_px, columns
        return 0, columns

    def _fill(self, texts: list[str], found: tuple[int, int], room: tuple[float, float]) -> None:
        size_px, columns = found[0] or int(sp(LEAST_SP)), found[1]
        self.type_px = size_px
        labels = [_label(text, size_px, _column_px(room[0], columns)) for text in texts]
        heights = [label.texture_size[1] + _gap_px(size_px) for label in labels]
        self.clear_widgets()
        row = BoxLayout(spacing=2 * theme.gap)
        for part in shared_out(heights, columns):
            column = BoxLayout(orientation="vertical", spacing=_gap_px(size_px))
            for k in part:
                column.add_widget(labels[k])
            column.add_widget(BoxLayout())
            row.add_widget(column)
        self.add_widget(row)


def lines_of(markup: str, width_px: float, size_px: float) -> int:
    """Return how many lines a marked-up text takes when it is wrapped to a width."""
    lines = 0
    for paragraph in markup.split("\n"):
        lines, used_px = lines + 1, 0.0
        for word in paragraph.split():
            word_px = _word_px(word, "[b]" in word or "[b]" in paragraph) * size_px / _TRIAL_PX
            if used_px and used_px + word_px > width_px:
                lines, used_px = lines + 1, 0.0
            used_px += word_px
    return lines


@lru_cache(maxsize=2048)
def _word_px(word: str, bold: bool) -> float:
    """Return how wide a word and the space after it are, at the trial size."""
    label = CoreLabel(font_name=FONT, font_size=_TRIAL_PX, bold=bold)
    return float(label.get_extents(_MARK.sub("", word) + " ")[0])


def _holds(heights: list[float], size_px: int, columns: int, room: tuple[float, float]) -> bool:
    gap_px = _gap_px(size_px)
    high = [height + gap_px for height in heights]
    return all(sum(high[k] for k in part) <= room[1] for part in shared_out(high, columns))


def _worth(found: tuple[int, int]) -> tuple[int, int]:
    return found[0], -found[1]


def _gap_px(size_px: int) -> int:
    return round(0.3 * size_px)


def _column_px(width_px: float, columns: int) -> int:
    return int((width_px - (columns - 1) * 2 * theme.gap) / columns)


def _label(text: str, size_px: int, width_px: int) -> Label:
    label = Label(
        text=text,
        markup=True,
        font_name=FONT,
        font_size=size_px,
        color=theme.ink,
        text_size=(width_px, None),
        size_hint_y=None,
    )
    label.texture_update()
    label.height = label.texture_size[1]
    return label
