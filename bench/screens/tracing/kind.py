"""The third step: what the picture is, each kind with a little picture of its own."""

from __future__ import annotations

from typing import Any

from kivy.graphics import Color, Ellipse, InstructionGroup, Line, Rectangle
from kivy.properties import BooleanProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from bench.screens.contrast import rgb
from bench.screens.parts.press import Pressable
from bench.screens.theme import theme
from bench.screens.tracing.step import Step
from bench.screens.tracing.ways import offered

CLOTH, LEMON, LIGHT = rgb("#2a5caa"), rgb("#e8c93a"), rgb("#f4e28a")
PAPER, PENCIL = rgb("#f6f6f4"), rgb("#151515")
_ACROSS, _DOWN = 6, 4  # pieces of the little drawing


class Sketch(Widget):
    """A little picture of a kind: pieces drawn one by one, or a lemon painted on a cloth."""

    kind = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._group = InstructionGroup()
        super().__init__(**kwargs)
        self.canvas.add(self._group)
        self.bind(pos=self._draw, size=self._draw, kind=self._draw)

    def _draw(self, *_: object) -> None:
        self._group.clear()
        width, height = min(self.width, 1.6 * self.height), min(self.height, self.width / 1.6)
        x, y = round(self.center_x - width / 2), round(self.center_y - height / 2)
        draw = {"lines": self._pieces, "study": self._areas}.get(self.kind)
        if draw is not None and min(width, height) > 0:
            draw(x, y, width, height)

    def _pieces(self, x: float, y: float, width: float, height: float) -> None:
        self._group.add(Color(*PAPER))
        self._group.add(Rectangle(pos=(x, y), size=(width, height)))
        self._group.add(Color(*PENCIL))
        self._group.add(Line(rectangle=(x, y, width, height), width=theme.line / 2))
        sway = 0.04 * height

        def level(row: int, column: int) -> float:
            return y + height * row / _DOWN + (sway if (row + column) % 2 else -sway) * (0 < row < _DOWN)

        def between(row: int, place: float) -> float:
            column, part = int(place), place % 1
            return (1 - part) * level(row, column) + part * level(row, column + 1)

        for row in range(1, _DOWN):
            flat = [v for c in range(_ACROSS + 1) for v in (x + width * c / _ACROSS, level(row, c))]
            self._group.add(Line(points=flat, width=theme.line / 2))
        for row in range(_DOWN):
            for column in range(1, _ACROSS):
                place = column + (0.18 if row % 2 else -0.18)
                at, low, high = x + width * place / _ACROSS, between(row, place), between(row + 1, place)
                self._group.add(Line(points=(at, low, at, high), width=theme.line / 2))

    def _areas(self, x: float, y: float, width: float, height: float) -> None:
        self._group.add(Color(*CLOTH))
        self._group.add(Rectangle(pos=(x, y), size=(width, height)))
        for colour, (left, low, wide, high) in (
            (LEMON, (0.16, 0.2, 0.5, 0.56)),
            (LEMON, (0.5, 0.34, 0.36, 0.44)),
            (LIGHT, (0.26, 0.46, 0.2, 0.2)),
            (LIGHT, (0.6, 0.52, 0.14, 0.16)),
        ):
            self._group.add(Color(*colour))
            box = {"pos": (x + left * width, y + low * height), "size": (wide * width, high * height)}
            self._group.add(Ellipse(**box))


class KindTile(Pressable, BoxLayout):
    """A kind of picture to be chosen: its little picture, its name and a sentence."""

    kind = StringProperty("")
    text = StringProperty("")
    says = StringProperty("")
    chosen = BooleanProperty(False)


class KindStep(Step):
    """A tap says what the picture is and goes on."""

    def arrive(self) -> None:
        for way in offered():
            tile = KindTile(
                kind=way.kind,
                text=way.text,
                says=way.says,
                chosen=way.kind == self.draft.kind,
                test_name=f"kind_{way.kind}",
            )
            tile.bind(on_act=lambda _tile, kind=way.kind: self.choose(kind))
            self.ids.tiles.add_widget(tile)
        tiles = self.ids.tiles.children  # the last one first
        chosen = [tile for tile in tiles if tile.chosen] or tiles[-1:]
        for tile in chosen:
            tile.focus = True  # for a keyboard: Enter takes it, Tab goes to the next

    def choose(self, kind: str) -> None:
        """Say what the picture is."""
        self.flow.change(kind=kind)
        self.done()

    def act_on_key(self) -> None:
        """Leave Enter to the tile that has the focus."""
