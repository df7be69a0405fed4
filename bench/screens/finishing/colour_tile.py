"""One grout colour on a screen of several: the panel in it, its name, and how strongly its joints cut up."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from numpy.typing import NDArray

from bench.screens.parts.fitting import LINE
from bench.screens.parts.pages import text_height_px
from bench.screens.parts.photo import Photo
from bench.screens.parts.press import Pressable
from bench.screens.theme import theme

LEAST_PICTURE = 0.4  # of the tile's height: what the screen is there to show


class ColourTile(Pressable, BoxLayout):
    """Show a panel in one colour; a tap chooses it. says: of its joints; known: how the colour is known.

    says_px: the height that the words of its joints have at least, so that pictures side by side are alike.
    lines: how many of the two stand under the name; words give way before the picture does.
    """

    name = StringProperty("")
    says = StringProperty("")
    known = StringProperty("")
    chosen = BooleanProperty(False)
    says_px = NumericProperty(0)
    lines = NumericProperty(2)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._photo = Photo()
        self.ids.place.add_widget(self._photo)

    def show(self, pixels: NDArray[np.uint8]) -> None:
        """Show a picture."""
        self._photo.show(pixels)

    def lines_with_room(self) -> int:
        """Return how many of the two there is room for below a picture of LEAST_PICTURE of the tile."""
        inner_px = int(self.width - 2 * theme.gap)
        says_px, known_px = (text_height_px(x, inner_px, int(theme.small)) for x in (self.says, self.known))
        room_px = (1 - LEAST_PICTURE) * self.height - 2 * theme.gap - LINE * theme.snug - 3 * self.spacing
        return sum(taken_px <= room_px for taken_px in (says_px, says_px + known_px))
