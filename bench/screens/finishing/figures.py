"""A page of figures or acts to choose from, with what they come to beside it: a part of the Finish screen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from kivy.properties import ListProperty, NumericProperty, ObjectProperty, StringProperty

from bench.screens.parts.listing import Offer
from bench.screens.parts.plates import Rows

MOST = 999_999.0


class FiguresSide(Rows):
    """What the figures come to, all of it to be read, and the way back. `part` is the list beside it."""

    part = ObjectProperty(None, allownone=True)
    head = StringProperty("")
    says = StringProperty("")
    cols = NumericProperty(1)


class FiguresPart(Rows):
    """Base of the parts: each says what can be chosen and what it comes to. `screen` is the Finish screen."""

    screen = ObjectProperty()
    title = StringProperty("")
    lines = ListProperty()

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.side = FiguresSide(part=self)

    def show(self) -> None:
        """Say everything anew, on the page that was shown."""
        listing = self.ids.listing
        page = int(listing.page)
        listing.offer(self.offers())
        listing.turn(page)
        self.side.head, self.side.says = self.sums()
        self.lines = self.all_lines()

    def offers(self) -> Sequence[Offer]:
        """Return what can be chosen."""
        raise NotImplementedError

    def sums(self) -> tuple[str, str]:
        """Return what it comes to in one figure, and a few words."""
        raise NotImplementedError

    def all_lines(self) -> list[str]:
        """Return all that is to be said of it, to be read in place."""
        raise NotImplementedError

    def read(self) -> None:
        """Show all of it as text."""
        self.screen.read(self.title, list(self.lines))

    def leave(self) -> None:
        self.screen.leave_part()

    def ask(self, title: str, act: Callable[..., object], unit: str, **how: Any) -> Callable[[], None]:
        """Return what asks for a number and hands it to an act of the job."""

        def ask_now() -> None:
            self.screen.ask(title, act, unit, **{"decimals": 1, "least": 0.0, "most": MOST, **how})

        return ask_now

    def ask_length(
        self, title: str, act: Callable[..., object], *, least_mm: float, most_mm: float
    ) -> Callable[[], None]:
        """Return what asks for a length in the unit spoken and hands it to an act of the job, in mm."""

        def ask_now() -> None:
            self.screen.ask_length(title, act, least_mm=least_mm, most_mm=most_mm)

        return ask_now
