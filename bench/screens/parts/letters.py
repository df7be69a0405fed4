"""Letters on keys for gloves, all in sight at once: a keyboard would cover the screen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty

from bench.screens.keys import Keyed
from bench.screens.parts.pad import PadKey, pad_key
from bench.screens.parts.plates import Card
from bench.screens.stack import stack

LAYERS = {
    "small": "abcdefghijklmnopqrstuvwxyz",
    "large": "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "signs": "0123456789.,-+/:()%&äöüßéè",
}
NEXT = {"small": "large", "large": "signs", "signs": "small"}
NEXT_TEXT = {"small": "AB", "large": "12", "signs": "ab"}
MOST_LETTERS = 40
WIDE_KEYS, TALL_KEYS = 8, 6
_KEYBOARD = {"spacebar": " ", "minus": "-"}


class LetterPad(Keyed, Card):
    """Type a name; `on_use` hands it over. After a space, and at the start, letters are large once.

    low: there is little height, and a key turns between the halves of the letters.
    """

    text = StringProperty("")
    empty_text = StringProperty("")
    layer = OptionProperty("large", options=tuple(LAYERS))
    cols = NumericProperty(WIDE_KEYS)
    can_use = BooleanProperty(False)
    low = BooleanProperty(False)
    second_half = BooleanProperty(False)
    _signs: Sequence[PadKey] = ()  # the keys, once the rule is read

    __events__ = ("on_use",)

    def on_kv_post(self, _base: Any) -> None:
        signs = [PadKey(test_name=f"letter_{letter}") for letter in LAYERS["small"]]
        for key in signs:
            key.bind(on_act=lambda key: self.type_sign(key.text))
        self._turn_key = pad_key("", "letters_turn", self.turn, kind="text")
        self._space_key = pad_key("_", "letters_space", self.space, kind="text")
        self._back_key = pad_key("←", "letters_back", self.take_back, kind="text")
        self._half_key = pad_key("…", "letters_half", self.turn_half, kind="text")
        self._signs = signs
        self.on_layer()
        self.on_low()

    def on_low(self, *_: object) -> None:
        """Have all letters, or half of them and the key that turns to the others."""
        if self._signs:
            half = len(self._signs) // 2
            halves = self._signs[:half], self._signs[half:]
            signs = [*halves[self.second_half], self._half_key] if self.low else self._signs
            stack(self.ids.letters, [*signs, self._space_key, self._turn_key, self._back_key])

    def on_second_half(self, *_: object) -> None:
        self.on_low()

    def turn_half(self) -> None:
        """Turn to the other half of the letters."""
        self.second_half = not self.second_half

    def begin(self, text: str) -> None:
        """Start with a text, e.g. what it was before."""
        self.text = text[:MOST_LETTERS]
        self.layer = "small" if self.text else "large"
        self.second_half = False

    def turn(self) -> None:
        """Turn to the next letters: small, large, signs."""
        self.layer = NEXT[self.layer]

    def space(self) -> None:
        self.type_sign(" ")

    def type_sign(self, sign: str) -> None:
        """Add a letter; a large one is followed by small ones."""
        if len(self.text) >= MOST_LETTERS or (sign == " " and not self.text):
            return
        self.text += sign
        if self.layer == "large":
            self.layer = "small"

    def take_back(self) -> None:
        """Take back the last letter; nothing typed, nothing happens."""
        self.text = self.text[:-1]
        if not self.text:
            self.layer = "large"

    def on_layer(self, *_: object) -> None:
        for key, sign in zip(self._signs, LAYERS[self.layer], strict=True):
            key.text = sign
        self._turn_key.text = NEXT_TEXT[self.layer]

    def on_text(self, *_: object) -> None:
        self.can_use = bool(self.text.strip())

    def use(self) -> None:
        """Hand the text over."""
        if self.can_use:
            self.dispatch("on_use", self.text.strip())

    def on_use(self, text: str) -> None:
        """Bound by the screen."""

    def on_key(self, name: str) -> bool:
        sign = _KEYBOARD.get(name, name)
        if name == "backspace":
            self.take_back()
        elif len(sign) == 1:
            self.type_sign(sign.upper() if self.layer == "large" else sign)
        else:
            return False
        return True
