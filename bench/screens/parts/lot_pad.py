"""Type what stands on a bottle: letters and digits on keys for gloves, all in sight at once."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from bench.screens.parts.pad import PadKey
from bench.screens.parts.plates import Rows
from bench.speech import say

SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-"
MOST_LOT_SIGNS = 20  # as many as are read at a glance
WIDE_KEYS, TALL_KEYS = 11, 6


class LotPad(Rows):
    """A lot's letters and digits. `on_use` hands over what was typed, '' for none; `on_left` leaves it."""

    title = StringProperty("")
    text = StringProperty("")
    use_text = StringProperty("")

    __events__ = ("on_use", "on_left")

    def on_kv_post(self, _base: Any) -> None:
        self.on_text()
        keys = self.ids.signs
        for sign in SIGNS:
            key = PadKey(text=sign, test_name=f"lot_{sign}")
            key.bind(on_act=lambda _key, sign=sign: self.type_sign(sign))
            keys.add_widget(key)
        back = PadKey(text="←", test_name="lot_back")
        back.bind(on_act=lambda _key: self.take_back())
        keys.add_widget(back)

    def on_size(self, _pad: object, size: tuple[float, float]) -> None:
        if self.ids:
            self.ids.signs.cols = WIDE_KEYS if size[0] >= size[1] else TALL_KEYS

    def begin(self, title: str) -> None:
        """Start with nothing typed."""
        self.title, self.text = title, ""

    def type_sign(self, sign: str) -> None:
        """Add a letter or digit, up to MOST_LOT_SIGNS."""
        if len(self.text) < MOST_LOT_SIGNS:
            self.text += sign

    def take_back(self) -> None:
        """Take back the last sign; nothing typed, nothing happens."""
        self.text = self.text[:-1]

    def on_text(self, *_: object) -> None:
        self.use_text = say("Use") if self.text else say("No lot on it")

    def on_use(self, text: str) -> None:
        """Bound by the screen."""

    def on_left(self) -> None:
        """Bound by the screen."""
