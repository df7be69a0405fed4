"""Type what stands on a bottle: letters and digits on keys for gloves, in sight at once if there is room."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, StringProperty

from bench.screens.parts.pad import PadKey
from bench.screens.parts.plates import Rows
from bench.screens.parts.split import LOW_TARGETS
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say

SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-"
MOST_LOT_SIGNS = 20  # as many as are read at a glance
WIDE_KEYS, TALL_KEYS = 11, 6
LOW_KEYS, LOW_ROWS = 8, 2  # on a low screen, where signs are turned by pages


class LotPad(Rows):
    """A lot's letters and digits. `on_use` hands over what was typed, '' for none; `on_left` leaves it."""

    title = StringProperty("")
    text = StringProperty("")
    use_text = StringProperty("")
    may_use = BooleanProperty(True)

    __events__ = ("on_use", "on_left")

    def __init__(self, **kwargs: Any) -> None:
        self._page = 0
        self._keys: list[PadKey] = []
        super().__init__(**kwargs)

    def on_kv_post(self, _base: Any) -> None:
        self.on_text()
        self._keys = self.make_keys()
        back = PadKey(text="←", test_name="lot_back")
        back.bind(on_act=lambda _key: self.take_back())
        self._always = [*self.keys_always(), back]
        self._turn = PadKey(text="…", test_name="lot_turn")
        self._turn.bind(on_act=lambda _key: self.turn())
        self._lay()

    def make_keys(self) -> list[PadKey]:
        """Return the keys that type something, in reading order."""
        return [self.key_of(sign) for sign in SIGNS]

    def keys_always(self) -> list[PadKey]:
        """Return the keys that stand on every page, before the one that takes back."""
        return []

    def key_of(self, sign: str) -> PadKey:
        """Return the key of a sign."""
        key = PadKey(text=sign, test_name=f"lot_{sign}")
        key.bind(on_act=lambda _key: self.type_sign(sign))
        return key

    def on_size(self, *_: object) -> None:
        if self._keys:
            self._lay()

    def _lay(self) -> None:
        """Have all keys, or on a low screen a page of them and the key that turns it."""
        signs, keys = self.ids.signs, self._keys
        wide = self.width >= self.height
        if wide and self.height < LOW_TARGETS * theme.target:
            signs.cols, most = LOW_KEYS, LOW_KEYS * LOW_ROWS - len(self._always) - 1
            self._page %= -(-len(keys) // most)
            shown = keys[self._page * most : (self._page + 1) * most]
            stack(signs, [*shown, *self._always, self._turn])
        else:
            signs.cols = WIDE_KEYS if wide else TALL_KEYS
            stack(signs, [*keys, *self._always])

    def turn(self) -> None:
        """Turn to the next signs, after the last to the first."""
        self._page += 1
        self._lay()

    def begin(self, title: str, text: str = "") -> None:
        """Start with nothing typed, or with what was."""
        self.title, self.text = title, text
        self._page = 0
        self._lay()

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
