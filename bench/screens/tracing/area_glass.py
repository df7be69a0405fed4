"""What takes the place of the picture while glass is chosen: an area's mix, and sheets to choose from."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty

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
from bench.drawing.study.model import Glass
from bench.finish.glass import kind_said
from bench.screens.parts.split import LOW_TARGETS
from bench.screens.parts.tiles import GlassTile, TileGrid  # noqa: F401 - the second is named by the kv file
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.screens.tracing.area_parts import Part, rgba, stepped
from bench.screens.tracing.area_words import share_words
from bench.speech import say

FINISHES = ("opaque", "clear", "iridised")
GLASS_SIDES = ("smooth", "textured")
SHARES = (0.01, 0.02, 0.03, 0.05, *(k / 20 for k in range(2, 20)), 0.97, 0.99)


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
        self.low = self.lie == "wide" and size[1] < LOW_TARGETS * theme.target

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

    def on_kv_post(self, _base: Any) -> None:
        self._card, *self._keys = reversed(self.children)
        self._tiles: list[GlassTile] = []

    def on_size(self, _part: object, size: tuple[float, float]) -> None:
        self.low = size[0] >= size[1] and size[1] < LOW_TARGETS * theme.target

    def _lay(self, *_: object) -> None:
        """Leave the names to the eye where there is little height, so that a glove can hit each colour."""
        stack(self, [*([] if self.low else [self._card]), *self._keys])
        for tile, colour in zip(self._tiles, SHEET, strict=False):
            tile.text = "" if self.low else colour_words(colour)
        self.ids.tiles.put(self._tiles)

    def offer(self, head: str, *, whole: bool, may_turn: bool) -> None:
        """Ask for a colour."""
        self.head, self.whole, self.may_turn = head, whole, may_turn
        tiles = []
        for k, colour in enumerate(SHEET):
            tile = GlassTile(colour=rgba(colour), test_name=f"sheet_{k}")
            tile.bind(on_act=lambda _tile, colour=colour: self.step.take_sheet(colour))
            tiles.append(tile)
        self._tiles = tiles
        self._lay()

    def turn(self) -> None:
        self.whole = not self.whole


def _side_words(side: str) -> str:
    return {"smooth": say("smooth"), "textured": say("textured")}[side]


def _after(values: tuple[str, ...], now: str) -> str:
    return values[(values.index(now) + 1) % len(values)]
