"""What stands beside the picture of the areas: all of them, the one that was tapped, how it is laid."""

from __future__ import annotations

from typing import Any, Literal

from kivy.properties import (
    BooleanProperty,
    ListProperty,
    NumericProperty,
    ObjectProperty,
    OptionProperty,
    StringProperty,
)

from bench.drawing.colour_words import colour_words
from bench.drawing.study import Region
from bench.drawing.study.mixing import (
    MOST_GLASSES,
    SHEET,
    lighter,
    recoloured,
    with_another,
    with_share,
    without,
)
from bench.drawing.study.model import Flow, Glass
from bench.finish.glass import kind_said
from bench.screens.parts.plates import Rows
from bench.screens.parts.shades import Shades  # noqa: F401 - the kv file names it
from bench.screens.parts.stepper import Stepper  # noqa: F401 - the kv file names it
from bench.screens.parts.tiles import GlassTile, TileGrid  # noqa: F401 - the kv file names it
from bench.screens.theme import theme
from bench.screens.tracing.area_words import (
    MOST_TOLD,
    aspect_words,
    facts,
    flow_words,
    mix_words,
    pieces_counted,
    pieces_of_size,
    share_words,
)
from bench.speech import say

FINISHES = ("opaque", "clear", "iridised")
GLASS_SIDES = ("smooth", "textured")
BANDS = 50  # of a mix, shown as bands: two in a hundred each
PIECES_MM = (2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 15, 18, 20, 25, 30, 40, 50, 75, 100, 150, 200)
ASPECTS = (0.4, 0.5, 0.6, 0.7, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5)
SHARES = (0.01, 0.02, 0.03, 0.05, *(k / 20 for k in range(2, 20)), 0.97, 0.99)


class Part(Rows):
    """One of the sides; `step` is what it acts upon, `says` what there is to tell."""

    step = ObjectProperty()
    head = StringProperty("")
    says = StringProperty("")


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


class MixPart(Part):
    """The glasses of an area's mix, and what the chosen one is like."""

    chosen = NumericProperty(0)
    share_text = StringProperty("")
    finish = StringProperty("")
    side = StringProperty("")
    single = BooleanProperty(False)
    full = BooleanProperty(False)
    lie = OptionProperty("wide", options=("wide", "tall"))

    def on_size(self, _part: object, size: tuple[float, float]) -> None:
        self.lie = "wide" if size[0] >= size[1] else "tall"

    def show(self, region: Region) -> None:
        mix = region.mix
        self.chosen = min(int(self.chosen), len(mix) - 1)
        glass = mix[int(self.chosen)]
        self.head = say("The glass of '{area}': {glass}", area=region.name, glass=glass.name)
        self.share_text = say("{share:.0f} in 100", share=100 * glass.share)
        self.finish, self.side = kind_said(glass.finish), _side_words(glass.side)
        self.single, self.full = len(mix) == 1, len(mix) >= MOST_GLASSES
        self.ids.tiles.put([self._tile(k, one) for k, one in enumerate(mix)])

    def _tile(self, k: int, glass: Glass) -> GlassTile:
        text = f"{glass.name}\n{share_words(glass.share)}"
        tile = GlassTile(text=text, colour=rgba(glass.colour), chosen=k == self.chosen)
        tile.test_name = f"glass_{k}"
        tile.bind(on_act=lambda _tile: self.choose(k))
        return tile

    def choose(self, k: int) -> None:
        """Look at another glass of the mix."""
        self.chosen = k
        self.step.show_beside()

    @property
    def _glass(self) -> Glass:
        return self.step.region.mix[int(self.chosen)]  # type: ignore[no-any-return]

    def step_share(self, by: int) -> None:
        """Take more of the glass, or less; the others give way in proportion."""
        share = stepped(SHARES, round(self._glass.share, 6), by)
        self._mix("share", with_share(self.step.region.mix, int(self.chosen), share))

    def step_light(self, by: int) -> None:
        """Take a lighter glass, or a darker one."""
        colour = lighter(self._glass.colour, by)
        self._mix("light", recoloured(self.step.region.mix, int(self.chosen), colour))

    def next_finish(self) -> None:
        """Take the next finish: opaque, clear, iridised."""
        self._change(finish=_after(FINISHES, self._glass.finish))

    def next_side(self) -> None:
        """Lay the other side up."""
        self._change(side=_after(GLASS_SIDES, self._glass.side))

    def add(self) -> None:
        """Mix another glass in, a little lighter than this one, and look at it."""
        mix = with_another(self.step.region.mix, int(self.chosen))
        self.chosen = len(mix) - 1
        self._mix("add", mix)

    def drop(self) -> None:
        """Leave the glass out of the mix."""
        mix = without(self.step.region.mix, int(self.chosen))
        self.chosen = max(0, self.chosen - 1)
        self._mix("drop", mix)

    def _change(self, **update: Any) -> None:
        mix, k = self.step.region.mix, int(self.chosen)
        glass = mix[k].model_copy(update=update)
        self._mix("glass", (*mix[:k], glass, *mix[k + 1 :]))

    def _mix(self, what: str, mix: tuple[Glass, ...]) -> None:
        self.step.mix_is(f"{what}/{self.chosen:.0f}/{len(mix)}", mix)


class SheetPart(Part):
    """Sheets of glass to choose a colour from, in place of the picture.

    whole: the colour makes the whole mix, not one glass of it.
    """

    whole = BooleanProperty(False)
    may_turn = BooleanProperty(True)

    def offer(self, head: str, *, whole: bool, may_turn: bool) -> None:
        """Ask for a colour."""
        self.head, self.whole, self.may_turn = head, whole, may_turn
        tiles = []
        for k, colour in enumerate(SHEET):
            tile = GlassTile(text=colour_words(colour), colour=rgba(colour), test_name=f"sheet_{k}")
            tile.bind(on_act=lambda _tile, colour=colour: self.step.take_sheet(colour))
            tiles.append(tile)
        self.ids.tiles.put(tiles)

    def turn(self) -> None:
        self.whole = not self.whole


def bands_of(region: Region) -> list[tuple[float, ...]]:
    """Return the colours of a mix as bands, as many of each as its share asks for, at least one."""
    ordered = sorted(region.mix, key=lambda glass: -glass.share)
    return [rgba(glass.colour) for glass in ordered for _ in range(max(1, round(BANDS * glass.share)))]


def _side_words(side: str) -> str:
    return {"smooth": say("smooth"), "textured": say("textured")}[side]


def _after(values: tuple[str, ...], now: str) -> str:
    return values[(values.index(now) + 1) % len(values)]


def rgba(colour: tuple[int, int, int]) -> tuple[float, ...]:
    return (*(value / 255 for value in colour), 1.0)


def stepped(values: tuple[float, ...], now: float, by: int) -> float:
    """Return the next larger of some values, or the next smaller; now where there is none."""
    if by > 0:
        return next((value for value in values if value > now + 1e-6), now)
    return next((value for value in reversed(values) if value < now - 1e-6), now)
