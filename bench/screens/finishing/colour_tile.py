"""One grout colour on a screen of several: the panel in it, its name, and how strongly its joints cut up."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from numpy.typing import NDArray

from bench.screens.parts.photo import Photo
from bench.screens.parts.press import Pressable


class ColourTile(Pressable, BoxLayout):
    """Show a panel in one colour; a tap chooses it. says: of its joints; known: how the colour is known.

    says_px: the height that the words of its joints have at least, so that pictures side by side are alike.
    """

    name = StringProperty("")
    says = StringProperty("")
    known = StringProperty("")
    chosen = BooleanProperty(False)
    says_px = NumericProperty(0)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._photo = Photo()
        self.ids.place.add_widget(self._photo)

    def show(self, pixels: NDArray[np.uint8]) -> None:
        """Show a picture."""
        self._photo.show(pixels)
