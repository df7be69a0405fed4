"""Grout colours seen before they are mixed: the panel in up to four, side by side, region by region.

A tap on a picture chooses its colour for the region that is looked at.
"""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, StringProperty

from bench.drawing.grouted import Ungrouted, grouted, ungrouted
from bench.finish.beheld import tint_said
from bench.finish.grout_colours import NEUTRAL
from bench.finish.zone_called import zone_called
from bench.job.acts import zoning
from bench.job.seeing import (
    MOST_SEEN,
    compare,
    compared,
    known_colours,
    known_inks,
    known_words,
    region_lines,
    seen,
)
from bench.job.zones import laid_zones
from bench.screens.finishing.asking import tints_said
from bench.screens.finishing.asking_screen import AskingScreen
from bench.screens.finishing.colour_tile import ColourTile
from bench.screens.parts.paged import Offer
from bench.screens.parts.told import Told  # noqa: F401 - named by the kv file
from bench.speech import large_first, say

PICTURE_PX = 900


class SeeingScreen(AskingScreen):
    """Show a region in each colour that is compared, and choose one of them.

    inks: inks over the region's grout are compared, instead of grouts.
    """

    inks = BooleanProperty(False)
    head = StringProperty("")
    says = StringProperty("")
    region_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._number = 0
        self._of: object = None
        self._glass: Ungrouted | None = None
        self._tiles = tuple(ColourTile(test_name=f"seen_{k}") for k in range(MOST_SEEN))
        super().__init__(**kwargs)
        self._level = Clock.create_trigger(self._make_alike, -1)
        for k, tile in enumerate(self._tiles):
            tile.bind(on_act=lambda _tile, k=k: self.take(k), size=self._level)
            tile.ids.says.bind(texture_size=self._level)
        self.ids.tiles.bind(size=self._lay)

    def arrive(self) -> None:
        """Look at the first region that has no colour yet."""
        self.inks = False
        zones = self.job.state.finish.zones
        numbers = laid_zones(self.job).numbers
        open_ = [n for n in numbers if n not in zones or zones[n].grout is None]
        self._number = next(iter(open_), numbers[0])
        self.back()

    def refresh(self) -> None:
        laid = laid_zones(self.job)
        if self._number not in laid.numbers:
            self._number = laid.numbers[0]
        if self._of is not self.job.panel:
            self._of, self._glass = self.job.panel, None
            self.soon(say("Filling the joints …"), self._prepare)
        elif self._glass is not None:
            self._show()

    def _prepare(self) -> None:
        """Draw the glass once: its joints are then filled in a moment, colour after colour."""
        self._glass = ungrouted(self.job.panel, long_side_px=PICTURE_PX)
        self._show()

    def _show(self) -> None:
        laid = laid_zones(self.job)
        place = laid.numbers.index(self._number)
        self.head = large_first(zone_called(laid.names[place]))
        count, self.region_text = len(laid.numbers), ""
        if count > 1:
            self.region_text = say("{number} of {count} regions", number=place + 1, count=count)
        self.says = say("Tap the one its joints shall have.")
        if self.inks:
            self.says = say("An ink over its grout: a guess, so try it on an offcut.")
        looks = seen(self.job, self._number, inks=self.inks)
        assert self._glass is not None
        for tile, look in zip(self._tiles, looks, strict=False):
            tile.name, tile.says = tint_said(look.name), look.cut.words
            tile.known, tile.chosen = known_words(look), look.chosen
            tile.show(grouted(self._glass, look.grout))
        self.ids.tiles.clear_widgets()
        for tile in self._tiles[: len(looks)]:
            self.ids.tiles.add_widget(tile)
        self._level()
        self._lay()

    def _lay(self, *_: object) -> None:
        """Lay the pictures out so that they are as large as they can be."""
        grid = self.ids.tiles
        count, panel = len(grid.children), self.job.panel
        if not count or min(grid.size) <= 1:
            return

        def large(cols: int) -> float:
            rows = -(-count // cols)
            return float(min(grid.width / cols / panel.width_mm, 0.75 * grid.height / rows / panel.height_mm))

        grid.cols = max(range(1, count + 1), key=large)

    def _make_alike(self, *_: object) -> None:
        """Have as many words under all pictures, as high as the highest, so that like ones are compared."""
        shown = self.ids.tiles.children
        lines = min((tile.lines_with_room() for tile in shown), default=0)
        for tile in shown:
            tile.lines = lines
        says_px = max((tile.ids.says.texture_size[1] for tile in shown), default=0)
        for tile in shown:
            tile.says_px = says_px

    # -- acts --------------------------------------------------------------------------------------------

    def take(self, place: int) -> None:
        """Choose a colour for the region; the rest becomes a zone thereby."""
        name = compared(self.job, inks=self.inks)[place]
        if self.inks:
            self._take_ink(name)
            return
        colour = known_colours(self.job)[name]
        done, number = self.desk.attempt(zoning.choose_grout, self._number, name, colour)
        self._go_on(number if done else self._number)

    def _take_ink(self, name: str) -> None:
        zone, done = self.job.state.finish.zones.get(self._number), True
        if zone is None or zone.grout is None:
            neutral = known_colours(self.job)[NEUTRAL]
            done, number = self.desk.attempt(zoning.choose_grout, self._number, NEUTRAL, neutral)
            self._go_on(number if done else self._number)
        if done:
            self.desk.attempt(zoning.choose_ink, self._number, name, known_inks(self.job)[name])

    def _go_on(self, number: int) -> None:
        self._number = number
        self.refresh()

    def next_region(self) -> None:
        """Look at the next region."""
        numbers = laid_zones(self.job).numbers
        self._go_on(numbers[(numbers.index(self._number) + 1) % len(numbers)])

    def turn_inks(self) -> None:
        """Compare inks over the grout, or grouts again."""
        self.inks = not self.inks
        self.refresh()

    def read_regions(self) -> None:
        """Read of each region what it will be."""
        self.read(say("Region by region"), list(region_lines(self.job)), bool)

    def measure(self) -> None:
        self.desk.go("tile")

    def leave(self) -> None:
        self.desk.go("grouting")

    # -- which are compared ------------------------------------------------------------------------------

    def ask_colours(self) -> None:
        """Show the colours that are compared, each taken away by a tap, and a way to one more."""
        now = compared(self.job, inks=self.inks)
        away = say("Take it away") if len(now) > 1 else ""
        rows = [
            Offer(large_first(tint_said(name)), away, f"drop_{k}", self._dropping(name))
            for k, name in enumerate(now)
        ]
        if len(now) < MOST_SEEN:
            rows.append(Offer(say("Another colour"), "", "colour_add", self._ask_one))
        says = say("Up to {most} side by side.", most=MOST_SEEN)
        self.ask_few(say("Inks to compare") if self.inks else say("Grouts to compare"), rows, says, beside=2)

    def _ask_one(self) -> None:
        now = compared(self.job, inks=self.inks)
        known = known_inks(self.job) if self.inks else known_colours(self.job)
        left = tints_said(name for name in known if name not in now)
        self.ask_name(
            say("Which one?"), tuple(left), lambda name: self._compare((*now, left.get(name, name)))
        )

    def _dropping(self, name: str) -> Any:
        def drop() -> None:
            left = tuple(n for n in compared(self.job, inks=self.inks) if n != name)
            if left:
                self._compare(left)

        return drop

    def _compare(self, names: tuple[str, ...]) -> None:
        self.desk.attempt(lambda job: compare(job, names, inks=self.inks))
        self.ask_colours()
        self.refresh()
