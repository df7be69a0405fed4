"""What stands beside the picture while a panel is finished: the next act, a zone, or from when on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty

from bench.screens.handwork import WayAct  # noqa: F401 - the kv file names it
from bench.screens.parts.paged import Offer, Paged  # noqa: F401 - the second is named by the kv file
from bench.screens.parts.told import Told  # noqa: F401 - named by the kv file
from bench.screens.stack import stack
from bench.screens.widgets import Rows
from bench.speech import say

WAYS = ("", "new", "add")
_ROWS = (("new", "add"), ("propose", "drop"), ("grout", "ink"), ("keep",))
_LOW_ROWS = (("new", "add", "drop"), ("grout", "ink"), ("propose", "keep"))


def how_to(way: str) -> str:
    """Say what to do on a way, one of WAYS."""
    return {
        "": say("Tap a zone. New draws one, Add brings pieces into it."),
        "new": say("Stroke or tap pieces; their joints go along."),
        "add": say("Stroke or tap pieces; they come over to it."),
    }[way]


class FinishNextPart(Rows):
    """The next act of finishing, why, and the ways to zones, times and sun; low: there is little height."""

    headline = StringProperty("")
    why = StringProperty("")
    act_text = StringProperty("")
    low = BooleanProperty(False)
    __events__ = ("on_next", "on_zones", "on_when", "on_sun", "on_see", "on_elsewhere")

    def on_next(self) -> None:
        """Bound by the screen."""

    def on_zones(self) -> None:
        """Bound by the screen."""

    def on_when(self) -> None:
        """Bound by the screen."""

    def on_sun(self) -> None:
        """Bound by the screen."""

    def on_see(self) -> None:
        """Bound by the screen."""

    def on_elsewhere(self) -> None:
        """Bound by the screen."""


class ZonePart(Rows):
    """The zone that was tapped, and what can be done with it; while one is drawn, what to do.

    low: there is little height, and its keys stand in one row less.
    """

    head = StringProperty("")
    says = StringProperty("")
    way = OptionProperty("", options=WAYS)
    may_keep = BooleanProperty(False)
    may_drop = BooleanProperty(False)
    may_ink = BooleanProperty(False)
    low = BooleanProperty(False)
    _rows: Sequence[Any] = ()  # of keys, once the rule is read
    __events__ = ("on_way_turned", "on_propose", "on_drop", "on_grout", "on_ink", "on_keep")

    def on_kv_post(self, _base: Any) -> None:
        self._keys = {name: part.__self__ for name, part in self.ids.items()}
        self._told, *self._rows = reversed(self.children)
        self._later = Clock.create_trigger(self._lay, -1)  # not while it is being laid out
        self._lay()

    def on_low(self, *_: object) -> None:
        if self._rows:
            self._later()

    def _lay(self, *_: object) -> None:
        """Have the keys in four rows, or where there is little height in three."""
        wanted = _LOW_ROWS if self.low else _ROWS
        for row in self._rows:
            row.clear_widgets()
        for row, names in zip(self._rows, wanted, strict=False):
            stack(row, [self._keys[name] for name in names])
        stack(self, [self._told, *self._rows[: len(wanted)]])

    def turn(self, way: str) -> None:
        """Draw a new zone, add to this one, or neither: a second tap leaves the way again."""
        self.way = "" if way == self.way else way
        self.dispatch("on_way_turned")

    def on_way_turned(self) -> None:
        """Bound by the screen."""

    def on_propose(self) -> None:
        """Bound by the screen."""

    def on_drop(self) -> None:
        """Bound by the screen."""

    def on_grout(self) -> None:
        """Bound by the screen."""

    def on_ink(self) -> None:
        """Bound by the screen."""

    def on_keep(self) -> None:
        """Bound by the screen."""


class WhenPart(Rows):
    """What can be done with the days: write a calendar, set the times."""

    said = StringProperty("")
    __events__ = ("on_write", "on_times")

    def on_write(self) -> None:
        """Bound by the screen."""

    def on_times(self) -> None:
        """Bound by the screen."""


class FewAnswers(Rows):
    """A question with few answers, or a table whose rows are set by a tap; and a way to leave it.

    beside: how many stand in a row where the screen is wide.
    """

    head = StringProperty("")
    says = StringProperty("")
    beside = NumericProperty(1)
    __events__ = ("on_left",)

    def ask(
        self, head: str, offers: Sequence[Offer], says: str = "", *, beside: int = 1, keep_page: bool = False
    ) -> None:
        """Ask anew."""
        self.head, self.says, self.beside = head, says, beside
        self.ids.answers.offer(offers, keep_page=keep_page)

    def on_left(self) -> None:
        """Bound by the screen."""


def offers_of(answers: Sequence[tuple[str, str, Callable[[], Any]]]) -> list[Offer]:
    """Return rows from (what it is called, a line about it, what a tap does)."""
    return [Offer(text, says, f"answer_{k}", act) for k, (text, says, act) in enumerate(answers)]
