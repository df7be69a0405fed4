"""A screen whose room is lent to whatever asks: a number, a name, a lot, a few answers, a text to be read."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from bench.screens.parts.lot_pad import LotPad  # noqa: F401 - named by the kv file
from bench.screens.parts.naming import AskName  # noqa: F401 - named by the kv file
from bench.screens.parts.paged import Offer
from bench.screens.screen import Screen

ASKED = ("ask", "name", "lot", "few", "reading")


class AskingScreen(Screen):
    """Base of a screen with a Split `split`, its large part `main`, and the parts ASKED in its kv rule."""

    def __init__(self, **kwargs: Any) -> None:
        self._use_lot: Callable[[str], object] = bool
        self._closing: Callable[[], object] = bool
        self._parts: dict[str, Any] = {}
        super().__init__(**kwargs)
        self._main = self.ids.main.__self__
        self._parts |= self.hold(*ASKED)

    def back(self) -> None:
        """Show the picture again."""
        self._put(self._main)

    def _put(self, part: Any, *, alone: bool = True) -> None:
        split = self.ids.split
        split.alone = alone and part is not self._main
        split.put_main(part)

    def ask_few(self, head: str, offers: Sequence[Offer], says: str = "", *, beside: int = 1) -> None:
        """Ask something that has few answers."""
        self._parts["few"].ask(head, offers, says, beside=beside, keep_page=head == self._parts["few"].head)
        self._put(self._parts["few"])

    def ask_number(self, title: str, use: Callable[[float], object], **how: Any) -> None:
        """Ask for a number."""
        self._parts["ask"].ask(title, use, **how)
        self._put(self._parts["ask"])

    def ask_name(self, title: str, choices: Sequence[str], use: Callable[[str], object]) -> None:
        """Ask for a name."""
        self._parts["name"].ask(title, choices, use)
        self._put(self._parts["name"])

    def ask_lot(self, title: str, use: Callable[[str], object]) -> None:
        """Ask for letters and digits."""
        self._use_lot = use
        self._parts["lot"].begin(title)
        self._put(self._parts["lot"])

    def use_lot(self, text: str) -> None:
        self.back()
        self._use_lot(text)

    def read(
        self, head: str, lines: list[str], then: Callable[[], object], *, alone: bool = True
    ) -> None:
        """Show what is to be read, alone or with the side; `then` follows once it was."""
        reading = self._parts["reading"]
        reading.head, reading.lines, reading.page = head, lines, 0
        self._closing = then
        self._put(reading, alone=alone)

    def close_reading(self) -> None:
        self.back()
        self._closing()
