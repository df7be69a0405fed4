"""The pointer to the next section: an inverted plate with a tail, at the rim if it is off the screen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.core.text import Label as CoreLabel
from kivy.graphics import Color, InstructionGroup, Mesh, Rectangle, RoundedRectangle
from kivy.metrics import dp

from bench.screens.picture.division import Section
from bench.screens.picture.view import View
from bench.screens.theme import FONT, theme

_TAIL_DP = 64
_RIM_DP = 8
_NUMBER_DP = (24, 18)  # half of a usual number's plate
_TURNS = ((0, 1), (0, -1), (1, 0), (-1, 0), (0.8, 0.8), (-0.8, 0.8), (0.8, -0.8), (-0.8, -0.8))

Point = tuple[float, float]


class Pointer:
    """Draw the pointer into `group`."""

    def __init__(self) -> None:
        self.group = InstructionGroup()
        self._label: Any = None
        self._text: tuple[object, ...] = ()

    def place(self, section: Section | None, view: View, at: Point, others: Sequence[Section] = ()) -> None:
        """Point at a section of the view, or at nothing; `at` is the widget's lower left corner.

        The plate keeps off the numbers of the others where there is a side that allows it.
        """
        self.group.clear()
        if section is None:
            return
        texture = self._texture(str(section.number))
        size = texture.width + dp(32), texture.height + dp(10)
        tip = view.to_px(*section.anchor_mm)
        body = _body(tip, size, view, [view.to_px(*other.anchor_mm) for other in others])
        for grow, colour in ((dp(3), theme.act_ink), (0.0, theme.act)):
            self.group.add(Color(*colour))
            self._tail(body, tip, size, grow, at)
            pos = at[0] + body[0] - size[0] / 2 - grow, at[1] + body[1] - size[1] / 2 - grow
            grown = size[0] + 2 * grow, size[1] + 2 * grow
            self.group.add(RoundedRectangle(pos=pos, size=grown, radius=[dp(10)]))
        self.group.add(Color(*theme.act_ink))
        corner = at[0] + body[0] - texture.width / 2, at[1] + body[1] - texture.height / 2
        self.group.add(Rectangle(texture=texture, pos=tuple(map(round, corner)), size=texture.size))

    def _texture(self, text: str) -> Any:
        key = (text, theme.head)
        if key != self._text:
            self._label = CoreLabel(text=text, font_name=FONT, font_size=theme.head, bold=True)
            self._label.refresh()
            self._text = key
        return self._label.texture

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


def _body(tip: Point, size: Point, view: View, numbers: Sequence[Point] = ()) -> Point:
    """Return the middle of the plate: about the tip where it covers the fewest numbers, always on screen.

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
        reach = size[0] / 2 + dp(_NUMBER_DP[0]), size[1] / 2 + dp(_NUMBER_DP[1])
        hides_tip = abs(tip[0] - body[0]) < size[0] / 2 and abs(tip[1] - body[1]) < size[1] / 2
        return 1000 * hides_tip + sum(
            abs(x - body[0]) < reach[0] and abs(y - body[1]) < reach[1] for x, y in numbers
        )

    return min(map(kept, _TURNS), key=covered)
