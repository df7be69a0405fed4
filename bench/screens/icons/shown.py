"""An icon on a key: one coloured rectangle with its dots, and words that give way without being laid anew."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np
from kivy.clock import Clock
from kivy.graphics import Color, InstructionGroup, PopMatrix, PushMatrix, Rectangle, Translate
from kivy.graphics.texture import Texture
from kivy.properties import StringProperty

from bench.screens.icons.dots import covered
from bench.screens.icons.drawings import DRAWINGS
from bench.screens.icons.placing import Place

LEAST_DP = 24  # smaller, a stroke would be thinner than 2.5 dp


@lru_cache(maxsize=256)
def texture(name: str, size_px: int) -> Any:
    """Return an icon's dots, white, to be coloured where they are drawn; made once for each size."""
    dots = np.full((size_px, size_px, 4), 255, dtype=np.uint8)
    dots[:, :, 3] = np.round(covered(DRAWINGS[name], size_px) * 255)
    made = Texture.create(size=(size_px, size_px), colorfmt="rgba")
    made.mag_filter = made.min_filter = "nearest"  # dot on dot

    def fill(again: Any) -> None:
        again.blit_buffer(dots.tobytes(), colorfmt="rgba", bufferfmt="ubyte")

    fill(made)
    made.add_reload_observer(fill)  # a tablet that wakes up may have lost it
    return made


class ShownIcon:
    """Show `key.icon` where `key.icon_place()` says, in the colour of the key's words.

    Nothing is laid out for it, so that it moves no target: the words are drawn as far aside as it needs.
    """

    def __init__(self, key: Any, words: Any, *watched: str) -> None:
        self._key, self._words, self._drawn = key, words, None
        self._group, self._colour, self._move = InstructionGroup(), Color(), Translate()
        key.canvas.before.add(self._group)
        words.canvas.before.insert(0, self._move)
        words.canvas.before.insert(0, PushMatrix())
        words.canvas.after.add(PopMatrix())
        self._soon = Clock.create_trigger(self._draw, -1)
        for name in ("icon", "pos", "size", *watched):
            key.fbind(name, self._soon)
        for name in ("pos", "texture_size", "text", "font_size"):
            words.fbind(name, self._soon)
        words.fbind("color", self._paint)
        self._paint()
        self._soon()

    @property
    def place(self) -> Place | None:
        """Where it was drawn, None where the key has no room for it."""
        return self._drawn[1] if self._drawn else None

    @property
    def colour(self) -> tuple[float, ...]:
        """The ink it is drawn in."""
        return tuple(self._colour.rgba)

    def _paint(self, *_: object) -> None:
        self._colour.rgba = self._words.color

    def _draw(self, *_: object) -> None:
        key = self._key
        place = key.icon_place() if key.icon else None
        drawn = (key.icon, place, *key.pos) if place else None
        if drawn == self._drawn:
            return
        self._drawn = drawn
        self._group.clear()
        self._move.xy = (place.words_x_px, place.words_y_px) if place else (0, 0)
        if place:
            side = place.size_px
            at = (round(key.x) + place.x_px, round(key.y) + place.y_px)
            self._group.add(self._colour)
            self._group.add(Rectangle(texture=texture(key.icon, side), pos=at, size=(side, side)))


class HasIcon:
    """Mix in before a key whose words are the part `name`: `icon` names the drawing that stands by them.

    ICON_WATCHES: what else of the key moves it.
    """

    ICON_WATCHES: tuple[str, ...] = ()
    icon = StringProperty("")
    _icon: ShownIcon | None = None

    def on_icon(self, *_: object) -> None:
        """Have it drawn, once the words are there."""
        if self.icon and self._icon is None and "name" in self.ids:  # type: ignore[attr-defined]
            self._icon = ShownIcon(self, self.ids.name, *self.ICON_WATCHES)  # type: ignore[attr-defined]

    @property
    def icon_shown(self) -> ShownIcon | None:
        """Return the icon of a key that has one."""
        return self._icon
