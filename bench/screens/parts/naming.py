"""Ask for a name in place: words to choose from, or letters to type it with, all of a glove's size."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from kivy.properties import BooleanProperty, StringProperty

from bench.screens.keys import Keyed
from bench.screens.parts.acts import SideAct
from bench.screens.parts.pad import PadKey, pad_key
from bench.screens.parts.plates import Rows
from bench.screens.parts.tiles import TileGrid  # noqa: F401 - the kv file names it
from bench.screens.theme import theme
from bench.speech import say, tongue

MOST_LETTERS = 24
_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_MORE_LETTERS = {"de": "äöüß"}  # by language
_WIDE_DP, _KEY_DP = 200, 104


class AskName(Keyed, Rows):
    """A word is used at once; letters are typed one by one, on the screen or on a keyboard.

    It is put where the screen has room; `on_left` tells that it is no longer needed.
    """

    title = StringProperty("")
    text = StringProperty("")
    typing = BooleanProperty(False)
    typed = BooleanProperty(False)

    __events__ = ("on_left",)

    def __init__(self, **kwargs: Any) -> None:
        self._words: Sequence[str] = ()
        self._use: Callable[[str], object] = bool
        super().__init__(**kwargs)

    def on_kv_post(self, _base: Any) -> None:
        self.ids.grid.bind(size=lambda *_: self._lay())

    def ask(self, title: str, words: Sequence[str], use: Callable[[str], object]) -> None:
        """Ask anew. words: what can be chosen; use: what is done with the name."""
        self.title, self.text, self.typing = title, "", False
        self._words, self._use = words, use
        self._lay()

    def turn(self) -> None:
        """Type letters, or choose among words again."""
        self.typing = not self.typing
        self._lay()

    def _lay(self) -> None:
        grid = self.ids.grid
        grid.least_dp = (_KEY_DP if self.typing else _WIDE_DP) * theme.text_scale
        grid.put(self._keys() if self.typing else [self._word(word) for word in self._words[: grid.room]])

    def _word(self, word: str) -> SideAct:
        act = SideAct(text=word, roomy=False, test_name=f"word_{word}")
        act.bind(on_act=lambda _act: self.use(word))
        return act

    def _keys(self) -> list[PadKey]:
        keys = []
        letters = _LETTERS + _MORE_LETTERS.get(tongue().language, "")
        for sign, name in (*zip(letters, letters, strict=True), (say("space"), "space"), ("←", "back")):
            kind = "text" if name == "space" else "head"
            keys.append(pad_key(sign, f"letter_{name}", partial(self.type, name), kind=kind))
        return keys

    def type(self, name: str) -> None:
        """Add a letter or a space, or take the last one back."""
        if name == "back":
            self.text = self.text[:-1]
        elif len(self.text) < MOST_LETTERS:
            self.text = (self.text + (" " if name == "space" else name)).lstrip()

    def on_text(self, _part: object, text: str) -> None:
        self.typed = bool(text.strip())

    def use(self, name: str = "") -> None:
        """Hand a name over and go; nothing typed, nothing happens."""
        name = name or self.text.strip()
        if name:
            self.dispatch("on_left")
            self._use(name)

    def on_key(self, name: str) -> bool:
        if name in ("enter", "numpadenter"):
            self.use()
        elif name == "escape":
            self.dispatch("on_left")
        elif name in ("backspace", "spacebar") or (len(name) == 1 and name in _LETTERS):
            if not self.typing:
                self.turn()
            self.type({"backspace": "back", "spacebar": "space"}.get(name, name))
        else:
            return False
        return True

    def on_left(self) -> None:
        """Bound by the screen."""
