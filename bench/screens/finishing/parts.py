"""What stands beside the picture while a panel is finished: the next act, a zone, or from when on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty

from bench.screens.handwork import WayAct  # noqa: F401 - the kv file names it
from bench.screens.parts.paged import Offer, Paged  # noqa: F401 - the second is named by the kv file
from bench.screens.parts.pages import text_height_px
from bench.screens.parts.told import Told  # noqa: F401 - named by the kv file
from bench.screens.theme import theme
from bench.screens.widgets import Rows
from bench.speech import say

WAYS = ("", "new", "add")


def how_to(way: str) -> str:
    """Say what to do on a way, one of WAYS."""
    return {
        "": say("Tap a zone. New draws one, Add brings pieces into it."),
        "new": say("Stroke or tap pieces; their joints go along."),
        "add": say("Stroke or tap pieces; they come over to it."),
    }[way]


class FinishNextPart(Rows):
    """The next act of finishing, why, and the ways to zones, times and sun."""

    headline = StringProperty("")
    why = StringProperty("")
    act_text = StringProperty("")
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
    """The zone that was tapped, and what can be done with it; while one is drawn, what to do."""

    head = StringProperty("")
    says = StringProperty("")
    way = OptionProperty("", options=WAYS)
    may_keep = BooleanProperty(False)
    may_drop = BooleanProperty(False)
    may_ink = BooleanProperty(False)
    __events__ = ("on_way_turned", "on_propose", "on_drop", "on_grout", "on_ink", "on_keep")

    def __init__(self, **kwargs: Any) -> None:
        self._lines: tuple[str, ...] = ()
        super().__init__(**kwargs)

    def tell(self, lines: Sequence[str], room_px: float) -> None:
        """Say as many lines as the card has room for within a height, the first ones."""
        self._lines = tuple(lines)
        self.fit(room_px)

    def fit(self, room_px: float) -> None:
        """Say what there is room for now."""
        width_px = int(self.width - 2 * theme.pad)
        acts_px = 4 * (theme.target + theme.gap) + theme.gap
        left_px = room_px - acts_px - 2 * theme.pad - theme.gap
        left_px -= text_height_px(self.head, width_px, int(theme.text), bold=True)
        said: list[str] = []
        for line in self._lines:
            left_px -= text_height_px(line, width_px, int(theme.small))
            if left_px < 0:
                break
            said.append(line)
        self.says = "\n".join(said)

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
