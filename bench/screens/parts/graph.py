"""A graph to look at and to tap: drawn from the same layout as the picture of it, in ink on a plate."""

from __future__ import annotations

from typing import Any

from kivy.core.text import Label as CoreLabel
from kivy.graphics import Color, InstructionGroup, Line, Mesh, Rectangle
from kivy.metrics import dp
from kivy.properties import NumericProperty, ObjectProperty, StringProperty
from kivy.uix.widget import Widget

from bench.pace.graph import Graph, Layout, Mark, Placed, lay_out, nearest, outline
from bench.screens.parts.glyphs import drawable
from bench.screens.theme import FONT, theme

REACH = 0.75  # of a target: how far from a finger a spot is still meant
RING_DP = 17  # radius of the ring round the chosen spot
_FAN = 1000  # filled marks a mesh; its corners must stay under 65,536
LINES = 16  # of its words above one another that leave the graph its room


class GraphView(Widget):
    """Show one graph; a tap on it, or near, fires `on_spot` with the number of the nearest spot.

    chosen: the spot with a ring round it, -1 for none.
    """

    test_name = StringProperty("graph")
    graph = ObjectProperty(None, allownone=True)
    chosen = NumericProperty(-1)
    __events__ = ("on_spot",)

    def __init__(self, **kwargs: Any) -> None:
        self._group, self._ring = InstructionGroup(), InstructionGroup()
        self._textures: dict[tuple[Any, ...], Any] = {}
        self.layout: Layout | None = None
        super().__init__(**kwargs)
        self.canvas.add(self._group)
        self.canvas.add(self._ring)
        self.bind(pos=self._draw, size=self._draw, graph=self._draw, chosen=self._mark)
        theme.bind(ink=self._draw, small=self._draw)

    def on_spot(self, number: int) -> None:
        """Bound by what shows the graph."""

    def place_of(self, number: int) -> tuple[float, float] | None:
        """Return where a spot lies, in the window's coordinates; None where it is not drawn."""
        for mark in self.layout.marks if self.layout is not None else ():
            if mark.spot == number:
                return self.x + mark.x, self.y + mark.y
        return None

    # -- touch -------------------------------------------------------------------------------------------

    def on_touch_down(self, touch: Any) -> bool:
        if not self.collide_point(*touch.pos) or getattr(touch, "is_mouse_scrolling", False):
            return False
        touch.grab(self)
        return True

    def on_touch_up(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        if self.layout is not None and self.collide_point(*touch.pos):
            x, y = touch.pos
            spot = nearest(self.layout, x - self.x, y - self.y, reach=REACH * theme.target)
            if spot is not None:
                self.dispatch("on_spot", spot)
        return True

    # -- drawing -----------------------------------------------------------------------------------------

    def _draw(self, *_: object) -> None:
        self._group.clear()
        self.layout = None
        graph: Graph | None = self.graph
        if graph is not None and graph.spots and min(self.size) >= theme.target:
            layout = lay_out(graph, self.width, self.height, unit=dp(1), measure=self._measure)
            self._group.add(Color(*theme.ink))
            for line in layout.lines:
                points = [value for x, y in line.points for value in (self.x + x, self.y + y)]
                self._group.add(Line(points=points, width=max(1.0, line.width / 2)))
            self._marks(layout)
            for word in layout.words:
                texture = self._texture(word.text)
                at = round(self.x + word.x), round(self.y + word.y)
                self._group.add(Rectangle(texture=texture, pos=at, size=texture.size))
            self.layout = layout
        self._mark()

    def _marks(self, layout: Layout) -> None:
        kinds: dict[Mark, list[Placed]] = {}
        for mark in layout.marks:
            kinds.setdefault(mark.mark, []).append(mark)
        for kind, marks in kinds.items():
            for first in range(0, len(marks), _FAN):
                some = marks[first : first + _FAN]
                if kind != "cross":
                    self._group.add(Color(*(theme.ink if kind == "dot" else theme.plate)))
                    self._fill(some)
                self._group.add(Color(*theme.ink))
                if kind != "dot":
                    self._stroke(some)

    def _fill(self, marks: list[Placed]) -> None:
        """Fill marks, all in one mesh."""
        vertices: list[float] = []
        indices: list[int] = []
        for mark in marks:
            (corners,) = outline(mark.mark)
            first = len(vertices) // 4
            for x, y in corners:
                vertices += (self.x + mark.x + mark.radius * x, self.y + mark.y + mark.radius * y, 0, 0)
            for k in range(1, len(corners) - 1):
                indices += (first, first + k, first + k + 1)
        self._group.add(Mesh(vertices=vertices, indices=indices, mode="triangles"))

    def _stroke(self, marks: list[Placed]) -> None:
        for mark in marks:
            for stroke in outline(mark.mark):
                points = [
                    value
                    for x, y in stroke
                    for value in (self.x + mark.x + mark.radius * x, self.y + mark.y + mark.radius * y)
                ]
                self._group.add(Line(points=points, width=max(1.0, 0.17 * mark.radius)))

    def _mark(self, *_: object) -> None:
        """Draw the ring round the chosen spot."""
        self._ring.clear()
        at = self.place_of(int(self.chosen)) if self.chosen >= 0 else None
        if at is not None:
            self._ring.add(Color(*theme.ink))
            self._ring.add(Line(circle=(*at, dp(RING_DP)), width=dp(2)))

    def _measure(self, text: str) -> tuple[float, float]:
        width, height = self._texture(text).size
        return float(width), float(height)

    def _type_px(self) -> int:
        """Return the size of its words; larger than usual only where the graph keeps its room."""
        usual_px = round(theme.small / theme.beyond)
        return max(usual_px, min(int(theme.small), int(self.height / LINES)))

    def _texture(self, text: str) -> Any:
        key = (text, self._type_px(), tuple(theme.ink))
        if key not in self._textures:
            if len(self._textures) > 200:
                self._textures.clear()
            label = CoreLabel(text=drawable(text) or " ", font_name=FONT, font_size=key[1])
            label.refresh()
            self._textures[key] = label.texture
        return self._textures[key]
