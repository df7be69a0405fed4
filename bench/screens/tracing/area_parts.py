"""What stands beside the picture of the areas: all of them, the one that was tapped, how it is laid."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

from kivy.clock import Clock
from kivy.properties import (
    BooleanProperty,
    ListProperty,
    ObjectProperty,
    StringProperty,
)

from bench.drawing.study import Region
from bench.drawing.study.model import Flow
from bench.screens.parts.plates import Rows
from bench.screens.parts.shades import Shades  # noqa: F401 - the kv file names it
from bench.screens.parts.stepper import Stepper  # noqa: F401 - the kv file names it
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.screens.tracing.area_words import (
    MOST_TOLD,
    aspect_words,
    facts,
    flow_words,
    mix_words,
    pieces_counted,
    pieces_of_size,
)
from bench.speech import say

BANDS = 50  # of a mix, shown as bands: two in a hundred each
PIECES_MM = (2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 15, 18, 20, 25, 30, 40, 50, 75, 100, 150, 200)
ASPECTS = (0.4, 0.5, 0.6, 0.7, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5)


class Part(Rows):
    """One of the sides; `step` is what it acts upon, `says` what there is to tell.

    low: there is little height.
    """

    step = ObjectProperty()
    head = StringProperty("")
    says = StringProperty("")
    low = BooleanProperty(False)
    _keys: Sequence[Any] = ()  # the rows of keys, once the rule is read

    def __init__(self, **kwargs: Any) -> None:
        self._later = Clock.create_trigger(self._lay, -1)  # not while it is being laid out
        super().__init__(**kwargs)

    def on_low(self, *_: object) -> None:
        if self._keys:
            self._later()

    def _lay(self, *_: object) -> None:
        """Have what there is height for."""


class AllPart(Part):
    """All areas: how many, in which pieces, and the one act that lays them."""

    number_text = StringProperty("")
    piece_text = StringProperty("")
    painted = BooleanProperty(True)
    ready = BooleanProperty(False)

    def on_kv_post(self, _base: Any) -> None:
        self._number = self.ids.number.__self__
        self.on_painted()

    def on_painted(self, *_: object) -> None:
        """Ask for a number only where paint shows one."""
        steppers = self.ids.steppers
        if not self.painted and self._number.parent is not None:
            steppers.remove_widget(self._number)
        elif self.painted and self._number.parent is None:
            steppers.add_widget(self._number, index=1)


class RegionPart(Part):
    """The area that was tapped, and what can be done with it."""

    mix = StringProperty("")
    bands = ListProperty()
    painted = BooleanProperty(True)

    def on_kv_post(self, _base: Any) -> None:
        self._low_card, *self._card, join, name, close = reversed(self.children)
        self._keys = [join, name, close]
        self._lay()

    def _lay(self, *_: object) -> None:
        """Leave out what it is mixed of where there is little height: the picture shows it."""
        stack(self, [*([self._low_card] if self.low else self._card), *self._keys])

    def show(self, region: Region, area_mm2: float, pieces: int) -> None:
        self.head, self.says = region.name, facts(region, area_mm2, pieces)
        self.mix = mix_words(region.mix, MOST_TOLD if theme.text_scale < 1.1 else 1)
        self.bands = bands_of(region)


class TellPart(Part):
    """One thing to do on the picture, and a way to leave it."""


class SoPart(Part):
    """How an area is laid: its pieces, its rows and its glass."""

    piece_text = StringProperty("")
    aspect_text = StringProperty("")
    flow_text = StringProperty("")
    mix = StringProperty("")

    def on_kv_post(self, _base: Any) -> None:
        self._card, self._rest, *self._keys = reversed(self.children)
        self._lay()

    def _lay(self, *_: object) -> None:
        """Leave its name to the picture, where it is framed, where there is little height."""
        stack(self, [*([] if self.low else [self._card]), self._rest, *self._keys])

    def show(self, region: Region, pieces: int) -> None:
        self.head, self.says = region.name, say("About {pieces}", pieces=pieces_counted(pieces))
        self.piece_text = pieces_of_size(region.piece_mm)
        self.aspect_text = aspect_words(region.aspect)
        self.flow_text = flow_words(region.flow)
        self.mix = max(region.mix, key=lambda glass: glass.share).name


class FlowPart(Part):
    """Which way the rows of an area run."""

    flow = StringProperty("contour")

    def show(self, flow: Flow) -> None:
        self.flow = flow.kind
        self.head = say("Rows: {way}", way=flow_words(flow))

    def set_kind(self, kind: Literal["contour", "straight", "loose"]) -> None:
        """Let the rows run so; straight ones keep the angle that they had."""
        self.step.flow_is(self.step.region.flow.model_copy(update={"kind": kind}))


def bands_of(region: Region) -> list[tuple[float, ...]]:
    """Return the colours of a mix as bands, as many of each as its share asks for, at least one."""
    ordered = sorted(region.mix, key=lambda glass: -glass.share)
    return [rgba(glass.colour) for glass in ordered for _ in range(max(1, round(BANDS * glass.share)))]


def rgba(colour: tuple[int, int, int]) -> tuple[float, ...]:
    return (*(value / 255 for value in colour), 1.0)


def stepped(values: tuple[float, ...], now: float, by: int) -> float:
    """Return the next larger of some values, or the next smaller; now where there is none."""
    if by > 0:
        return next((value for value in values if value > now + 1e-6), now)
    return next((value for value in reversed(values) if value < now - 1e-6), now)
