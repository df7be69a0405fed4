"""Pieces against time: the pace needed, the pace so far, and the wall where the adhesive goes."""

from __future__ import annotations

from typing import Any

from kivy.core.text import Label as CoreLabel
from kivy.graphics import Color, InstructionGroup, Line, Rectangle
from kivy.metrics import dp
from kivy.properties import ListProperty, NumericProperty, StringProperty
from kivy.uix.widget import Widget

from bench.screens.parts.band import hatch
from bench.screens.theme import FONT, theme

BEYOND = 0.1  # how much of the time after the wall is shown
_PITCH_DP = 14

Point = tuple[float, float]


class PaceChart(Widget):
    """A chart without a frame, to be read at arm's length: few lines, and those thick.

    Times in seconds of the adhesive's clock. set_from_s, clean_from_s: when setting begins, and when it
    must end. counts: (at_s, pieces down) as told; without any, only the pace needed is drawn.
    """

    test_name = StringProperty("chart")
    pieces = NumericProperty(1)
    total_s = NumericProperty(1.0)
    spent_s = NumericProperty(0.0)
    set_from_s = NumericProperty(0.0)
    clean_from_s = NumericProperty(1.0)
    counts = ListProperty()
    placed_text = StringProperty("")
    needed_text = StringProperty("needed")
    so_far_text = StringProperty("so far")

    def __init__(self, **kwargs: Any) -> None:
        self._group = InstructionGroup()
        self._textures: dict[tuple[Any, ...], Any] = {}
        self._drawn: tuple[Any, ...] = ()
        super().__init__(**kwargs)
        self.canvas.add(self._group)
        names = ("pos", "size", "pieces", "total_s", "spent_s", "set_from_s", "clean_from_s", "counts")
        for name in (*names, "placed_text"):
            self.fbind(name, self._draw)
        theme.bind(ink=self._draw, text=self._draw)

    # -- lines, in seconds and pieces -------------------------------------------------------------------

    def so_far(self) -> list[Point]:
        """Return the pace so far: from the start of setting through every count; empty without a count."""
        counted = [(float(at_s), float(placed)) for at_s, placed in self.counts]
        if not counted:
            return []
        return [(min(self.set_from_s, counted[0][0]), 0.0), *counted]

    def needed(self) -> list[Point]:
        """Return the pace needed: from what is known to be down to all of it when cleaning must begin."""
        known = self.so_far()[-1:] or [(self.set_from_s, 0.0)]
        return [known[0], (max(self.clean_from_s, known[0][0]), float(self.pieces))]

    # -- drawing ----------------------------------------------------------------------------------------

    def _place(self, point: Point) -> Point:
        at_s, pieces = point
        foot = self._texture("0").height
        wide, high = self.width, self.height - foot - dp(8)
        x = self.x + wide * at_s / (max(self.total_s, 1.0) * (1 + BEYOND))
        return round(x), round(self.y + foot + high * pieces / max(1, self.pieces))

    def _draw(self, *_: object) -> None:
        if min(self.size) < dp(80):
            self._group.clear()
            self._drawn = ()
            return
        state = (*self.pos, *self.size, self._place((self.spent_s, 0.0)), self.total_s, self.pieces)
        state += (self.set_from_s, self.clean_from_s, str(self.counts), self.placed_text, tuple(theme.ink))
        if (*state, theme.text) == self._drawn:
            return
        self._drawn = (*state, theme.text)
        self._group.clear()
        self._wall()
        self._group.add(Color(*theme.ink))
        self._stroke([(0.0, 0.0), (self.total_s * (1 + BEYOND), 0.0)], 1.5)
        self._dashes(*self.needed())
        self._pace_so_far()
        self._now()
        self._words()

    def _stroke(self, points: list[Point], width_dp: float) -> None:
        flat = [value for point in points for value in self._place(point)]
        self._group.add(Line(points=flat, width=dp(width_dp)))

    def _wall(self) -> None:
        x, y = self._place((self.total_s, 0.0))
        self._group.add(Color(*theme.ink))
        box = (x, y, self.right - x, self.y + self.height - y)
        for ends in hatch(box, dp(_PITCH_DP)):
            self._group.add(Line(points=ends, width=dp(1.2)))
        self._stroke([(self.total_s, 0.0), (self.total_s, float(self.pieces))], 3)

    def _dashes(self, start: Point, end: Point) -> None:
        (x1, y1), (x2, y2) = self._place(start), self._place(end)
        length = max(1.0, ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5)
        step, at = dp(22), 0.0
        while at < length:
            a, b = at / length, min(1.0, (at + 0.6 * step) / length)
            ends = [x1 + a * (x2 - x1), y1 + a * (y2 - y1), x1 + b * (x2 - x1), y1 + b * (y2 - y1)]
            self._group.add(Line(points=ends, width=dp(2)))
            at += step

    def _pace_so_far(self) -> None:
        points = self.so_far()
        if not points:
            return
        self._stroke(points, 3.5)
        for point in points[1:]:
            x, y = self._place(point)
            self._group.add(Rectangle(pos=(x - dp(7), y - dp(7)), size=(dp(14), dp(14))))

    def _now(self) -> None:
        x, y = self._place((min(self.spent_s, self.total_s * (1 + BEYOND)), 0.0))
        self._group.add(Line(points=[x, y, x, self.y + self.height], width=dp(1.2)))
        self._group.add(Rectangle(pos=(x - dp(8), y - dp(8)), size=(dp(16), dp(16))))

    def _words(self) -> None:
        wall_x, foot_y = self._place((self.total_s, 0.0))
        minutes = self._texture(f"{int(self.total_s / 60)} min")
        self._write(minutes, min(wall_x - minutes.width / 2, self.right - minutes.width), self.y)
        placed = self._texture(self.placed_text)
        self._write(placed, self.x, self.y + self.height - placed.height)
        self._legend(wall_x - dp(12), foot_y + dp(10))

    def _legend(self, right: float, low: float) -> None:
        """Name the two lines in the corner that neither of them reaches."""
        rows = [(self.needed_text, True)] + ([(self.so_far_text, False)] if self.counts else [])
        for text, dashed in rows:
            texture = self._texture(text)
            self._write(texture, right - texture.width, low)
            x, y = right - texture.width - dp(64), low + texture.height / 2
            spans = [(0, 14), (22, 36), (44, 54)] if dashed else [(0, 54)]
            for a, b in spans:
                width = dp(2 if dashed else 3.5)
                self._group.add(Line(points=[x + dp(a), y, x + dp(b), y], width=width))
            low += texture.height

    def _texture(self, text: str) -> Any:
        key = (text, theme.text)
        if key not in self._textures:
            if len(self._textures) > 40:
                self._textures.clear()
            label = CoreLabel(text=text or " ", font_name=FONT, font_size=theme.text, bold=True)
            label.refresh()
            self._textures[key] = label.texture
        return self._textures[key]

    def _write(self, texture: Any, x: float, y: float) -> None:
        size = texture.size
        self._group.add(Color(*theme.plate))  # a gap in the lines, so that the words stay clear
        self._group.add(Rectangle(pos=(round(x), round(y)), size=size))
        self._group.add(Color(*theme.ink))
        self._group.add(Rectangle(texture=texture, pos=(round(x), round(y)), size=size))
