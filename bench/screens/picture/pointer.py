"""The pointer to the next section: an inverted plate with a tail, at the rim if it is off the screen.

It names the section, and under it how far it is where there is anything to tell: the pointer stands in place
of the section's label, and its outline in place of the outline of its stage.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.core.text import Label as CoreLabel
from kivy.graphics import Color, InstructionGroup, Mesh, Rectangle, RoundedRectangle
from kivy.metrics import dp

from bench.screens.picture.division import Section
from bench.screens.picture.labels import Plate
from bench.screens.picture.view import View
from bench.screens.theme import FONT, theme

_TAIL_DP = 64
_RIM_DP = 8
_TURNS = ((0, 1), (0, -1), (1, 0), (-1, 0), (0.8, 0.8), (-0.8, 0.8), (0.8, -0.8), (-0.8, -0.8))

Point = tuple[float, float]


class Pointer:
    """Draw the pointer into `group`."""

    def __init__(self) -> None:
        self.group = InstructionGroup()
        self.said = ("", "")  # the number and the word on its plate
        self._labels: list[Any] = []
        self._text: tuple[object, ...] = ()

    def place(
        self, section: Section | None, view: View, at: Point, word: str = "", others: Sequence[Plate] = ()
    ) -> None:
        """Point at a section of the view, or at nothing; `at` is the widget's lower left corner.

        word: how far the section is, "" for nothing to tell. The plate keeps off the labels of the others
        where there is a side that allows it.
        """
        self.group.clear()
        if section is None:
            return
        self.said = str(section.number), word
        lines = self._lines(*self.said)
        high = sum(line.height for line in lines)
        size = max(line.width for line in lines) + dp(32), high + dp(10)
        tip = view.to_px(*section.anchor_mm)
        body = _body(tip, size, view, [(view.to_px(*x.anchor_mm), x.reach_px) for x in others])
        for grow, colour in ((dp(3), theme.act_ink), (0.0, theme.act)):
            self.group.add(Color(*colour))
            self._tail(body, tip, size, grow, at)
            pos = at[0] + body[0] - size[0] / 2 - grow, at[1] + body[1] - size[1] / 2 - grow
            grown = size[0] + 2 * grow, size[1] + 2 * grow
            self.group.add(RoundedRectangle(pos=pos, size=grown, radius=[dp(10)]))
        self.group.add(Color(*theme.act_ink))
        top = at[1] + body[1] + high / 2
        for line in lines:
            top -= line.height
            corner = round(at[0] + body[0] - line.width / 2), round(top)
            self.group.add(Rectangle(texture=line, pos=corner, size=line.size))

    def _lines(self, number: str, word: str) -> list[Any]:
        """Return the textures of what stands on the plate, from the top down."""
        key = (number, word, theme.head, theme.small)
        if key != self._text:
            said = [(number, theme.head), *([(word, theme.small)] if word else [])]
            self._labels = [
                CoreLabel(text=text, font_name=FONT, font_size=px, bold=True) for text, px in said
            ]
            for label in self._labels:
                label.refresh()
            self._text = key
        return [label.texture for label in self._labels]

    def _tail(self, body: Point, tip: Point, size: Point, grow: float, at: Point) -> None:
        far = max(1.0, ((tip[0] - body[0]) ** 2 + (tip[1] - body[1]) ** 2) ** 0.5)
        ux, uy = (tip[0] - body[0]) / far, (tip[1] - body[1]) / far
        reach = min(far, dp(_TAIL_DP) + size[1]) + 2 * grow
        half = 0.3 * min(size) + grow
        corners = (
            (body[0] - uy * half, body[1] + ux * half),
            (body[0] + uy * half, body[1] - ux * half),
            (body[0] + ux * reach, body[1] + uy * reach),
        )
        flat = [value for x, y in corners for value in (x + at[0], y + at[1], 0, 0)]
        self.group.add(Mesh(vertices=flat, indices=[0, 1, 2], mode="triangles"))


def _body(tip: Point, size: Point, view: View, labels: Sequence[tuple[Point, Point]] = ()) -> Point:
    """Return the middle of the plate: about the tip where it covers the fewest labels, always on screen.

    labels: the middle of each, and how far it reaches to either side.
    Of sides as good, above comes first, then below, beside, and the corners.
    """
    rise = dp(_TAIL_DP) + size[1] / 2
    across = dp(_TAIL_DP) + size[0] / 2
    least = size[0] / 2 + dp(_RIM_DP), size[1] / 2 + dp(_RIM_DP)

    def kept(turn: Point) -> Point:
        wish = tip[0] + turn[0] * across, tip[1] + turn[1] * rise
        return (
            min(max(wish[0], least[0]), max(least[0], view.width_px - least[0])),
            min(max(wish[1], least[1]), max(least[1], view.height_px - least[1])),
        )

    def covered(body: Point) -> int:
        half = size[0] / 2, size[1] / 2
        hides_tip = abs(tip[0] - body[0]) < half[0] and abs(tip[1] - body[1]) < half[1]
        return 1000 * hides_tip + sum(
            abs(x - body[0]) < half[0] + wide and abs(y - body[1]) < half[1] + high
            for (x, y), (wide, high) in labels
        )

    return min(map(kept, _TURNS), key=covered)
