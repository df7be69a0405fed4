"""Type words to look for: letters, digits and a space on keys for gloves, or a keyboard."""

from __future__ import annotations

from bench.screens.keys import Keyed
from bench.screens.parts.lot_pad import LotPad
from bench.screens.parts.pad import PadKey
from bench.speech import say, tongue

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
MORE_LETTERS = {"de": "ÄÖÜ"}  # by language; ß is found by ss
DIGITS = "0123456789"
MOST_SIGNS = 30  # as many as are read at a glance


class WordsPad(Keyed, LotPad):
    """`on_use` hands over what was typed, which is something; `on_left` leaves it. Capitals do not matter."""

    def make_keys(self) -> list[PadKey]:
        return [self.key_of(sign) for sign in LETTERS + MORE_LETTERS.get(tongue().language, "") + DIGITS]

    def keys_always(self) -> list[PadKey]:
        space = PadKey(text=say("space"), kind="text", test_name="lot_space")
        space.bind(on_act=lambda _key: self.type_sign(" "))
        return [space]

    def type_sign(self, sign: str) -> None:
        """Add a letter, a digit, or a space between words."""
        if len(self.text) < MOST_SIGNS and (sign != " " or self.text[-1:] not in ("", " ")):
            self.text += sign

    def on_text(self, *_: object) -> None:
        self.use_text, self.may_use = say("Find"), bool(self.text.strip())

    def on_key(self, name: str) -> bool:
        sign = _sign_of(name)
        if name in ("enter", "numpadenter"):
            if self.may_use:
                self.dispatch("on_use", self.text)
        elif name == "escape":
            self.dispatch("on_left")
        elif name == "backspace":
            self.take_back()
        elif sign:
            self.type_sign(sign)
        else:
            return False
        return True


def _sign_of(name: str) -> str:
    """Return what a key types, '' for one that types nothing; letters beyond a to z go by their number."""
    if name == "spacebar":
        return " "
    if name.startswith("numpad") and name[6:] in DIGITS:
        return name[6:]
    code = name.removeprefix("key ")
    sign: str = chr(int(code)) if code != name and code.isdecimal() and int(code) < 0x250 else name
    return (sign if sign == "ß" else sign.upper()) if len(sign) == 1 and sign.isalnum() else ""
