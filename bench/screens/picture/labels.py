"""Numbers and words on the picture, and the pointer to the next section; text is placed, never scaled."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from kivy.core.text import Label as CoreLabel
from kivy.graphics import Color, InstructionGroup, Mesh, Rectangle, RoundedRectangle
from kivy.metrics import dp

from bench.screens.picture.division import Section
from bench.screens.picture.view import View
from bench.screens.theme import FONT, theme

MOST_LABELS = 150
_PIN_DP = 64
_WORDLESS = ("drawn",)

Say = Callable[[str], str]


class Labels:
    """Draw the labels of a division into an instruction group, for one view at a time."""

    def __init__(self) -> None:
        self.group = InstructionGroup()
        self._textures: dict[tuple[object, ...], Any] = {}

    def draw(
        self,
        sections: Iterable[Section],
        view: View,
        at: tuple[float, float],
        next_number: int | None,
        say: Say,
    ) -> None:
        """Label every section that has room for it on the screen, and always the next one.

        at: where the widget's lower left corner lies on the window. say: the word for a stage.
        """
        self.group.clear()
        drawn = 0
        pinned = None
        for section in sections:
            if section.number == next_number:
                pinned = section
            elif drawn < MOST_LABELS and self._label(section, view, at, say):
                drawn += 1
        if pinned:
            self._pin(pinned, view, at)

    def _text(self, text: str, size_px: float, colour: list[float]) -> Any:
        key = (text, size_px, tuple(colour))
        if key not in self._textures:
            label = CoreLabel(text=text, font_name=FONT, font_size=size_px, bold=True, color=colour)
            label.refresh()
            self._textures[key] = label.texture
        return self._textures[key]

    def _label(self, section: Section, view: View, at: tuple[float, float], say: Say) -> bool:
        x, y = view.to_px(*section.anchor_mm)
        if not (0 <= x <= view.width_px and 0 <= y <= view.height_px):
            return False
        left, top, right, bottom = section.box_mm
        room = (right - left) * view.px_per_mm, (bottom - top) * view.px_per_mm
        number = str(section.number)
        wordy = number if section.stage in _WORDLESS else f"{number} {say(section.stage)}"
        for text in (wordy, number):
            texture = self._text(text, theme.small, theme.ink)
            width, height = texture.size[0] + dp(14), texture.size[1] + dp(4)
            if width <= room[0] and height <= room[1]:
                self._plate(x + at[0], y + at[1], width, height, texture, theme.plate)
                return True
        return False

    def _plate(
        self, x: float, y: float, width: float, height: float, texture: Any, back: list[float]
    ) -> None:
        group = self.group
        pos = round(x - width / 2), round(y - height / 2)
        group.add(Color(*back))
        group.add(RoundedRectangle(pos=pos, size=(width, height), radius=[dp(7)]))
        group.add(Color(1, 1, 1, 1))
        tw, th = texture.size
        place = round(pos[0] + (width - tw) / 2), round(pos[1] + (height - th) / 2)
        group.add(Rectangle(texture=texture, pos=place, size=texture.size))

    def _pin(self, section: Section, view: View, at: tuple[float, float]) -> None:
        """Point at the next section from a plate of inverted colours; off the screen, from its rim."""
        texture = self._text(str(section.number), theme.head, theme.act_ink)
        width, height = texture.size[0] + dp(32), texture.size[1] + dp(10)
        tip = view.to_px(*section.anchor_mm)
        above = tip[1] + dp(_PIN_DP) + height < view.height_px
        wish = tip[0], tip[1] + (1 if above else -1) * (dp(_PIN_DP) + height / 2)
        x = min(max(wish[0], width / 2 + dp(8)), view.width_px - width / 2 - dp(8))
        y = min(max(wish[1], height / 2 + dp(8)), view.height_px - height / 2 - dp(8))
        far = max(1.0, ((tip[0] - x) ** 2 + (tip[1] - y) ** 2) ** 0.5)
        reach = min(far, dp(_PIN_DP) + height)
        ux, uy = (tip[0] - x) / far, (tip[1] - y) / far
        base = min(width, height) * 0.3
        for grow, colour in ((dp(3), theme.act_ink), (0.0, theme.act)):
            w = base + grow
            self.group.add(Color(*colour))
            corners = (
                (x - uy * w, y + ux * w),
                (x + uy * w, y - ux * w),
                (x + ux * (reach + 2 * grow), y + uy * (reach + 2 * grow)),
            )
            flat = [v for cx, cy in corners for v in (cx + at[0], cy + at[1], 0, 0)]
            self.group.add(Mesh(vertices=flat, indices=[0, 1, 2], mode="triangles"))
            if grow:
                pos = x + at[0] - width / 2 - grow, y + at[1] - height / 2 - grow
                self.group.add(
                    RoundedRectangle(pos=pos, size=(width + 2 * grow, height + 2 * grow), radius=[dp(12)])
                )
        self._plate(x + at[0], y + at[1], width, height, texture, theme.act)
