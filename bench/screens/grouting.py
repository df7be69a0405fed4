"""Grout, ink, seal: the panel in its zones, the one next act, and from when on the others may be done.

Zones are drawn on the picture by finger: a stroke or a tap gathers whole pieces, and their joints go along.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
from kivy.properties import BooleanProperty, OptionProperty, StringProperty

from bench.book import documents_folder
from bench.fault import Fault
from bench.finish.zone_called import zone_called
from bench.finish.zone_plan import ZonesPlan
from bench.job.acts import grouting, inking, record, zoning
from bench.job.finish_advice import FinishNext, finish_next
from bench.job.finish_days import when_lines
from bench.job.ics import write_calendar
from bench.job.words import words
from bench.job.zone_words import sun_lines, zone_lines
from bench.job.zones import Laid, laid_zones, plan
from bench.screens.finishing import parts
from bench.screens.finishing.act_words import does, stage_word
from bench.screens.finishing.asking import Asking
from bench.screens.finishing.asking_screen import AskingScreen
from bench.screens.parts.choice import short
from bench.speech import large_first, say

LOOK_AGAIN_TICKS = 60
NEW_ZONE = 10_000  # the number that pieces being gathered have on the picture


class GroutingScreen(AskingScreen):
    """Show the zones, the next act of finishing, and the card of a zone that was tapped."""

    beside = OptionProperty("next", options=("next", "zone", "when"))
    inking = BooleanProperty(False)
    undo_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._next = FinishNext("wait", 0, "", "")
        self._zone = 0
        self._gathered: dict[int, None] = {}
        self._shown: Any = None
        self._divided: Any = None
        self._planned: tuple[Any, ZonesPlan | None, Laid] | None = None
        self._ticks = 0
        self._fault = ""  # why the zones cannot be reckoned
        self._asking = Asking(self)
        super().__init__(**kwargs)
        self.ids.picture.word_for = stage_word
        self._parts |= {"next": self.ids.next.__self__, **self.hold("zone", "when")}

    # -- following the book ------------------------------------------------------------------------------

    def arrive(self) -> None:
        self._zone, self.beside = 0, "next"
        self._parts["zone"].way, self._parts["when"].said = "", ""
        self._gather_none()
        self.back()

    def refresh(self) -> None:
        self._next = finish_next(self.job)
        newest = record.newest_act(self.job)
        self.undo_text = short(words(newest.event), 60) if newest else ""
        if self._zone not in laid_zones(self.job).numbers:
            self._zone = laid_zones(self.job).numbers[0]
        self._draw()
        self._fill()

    def tick(self) -> None:
        self._ticks += 1
        if self._ticks % LOOK_AGAIN_TICKS == 0:
            self.refresh()

    def _draw(self) -> None:
        picture, job = self.ids.picture, self.job
        if self._shown is not job.panel:
            picture.show(job.panel, job.store.readings)
            self._shown, self._divided = job.panel, None
        laid = laid_zones(job)
        numbers = np.array(laid.numbers, np.int32)[laid.label]
        if self._gathered:
            numbers[list(self._gathered)] = NEW_ZONE if self._parts["zone"].way == "new" else self._zone
        zones = job.state.finish.zones
        looks = {n: "hard" if n in zones and zones[n].grouted else "drawn" for n in laid.numbers if n}
        pointed = self._zone if self.beside == "zone" else self._next.zone
        state = (numbers.tobytes(), tuple(sorted(looks.items())), pointed)
        if state != self._divided:
            picture.divide(numbers, looks, pointed or None)
            self._divided = state

    def _fill(self) -> None:
        getattr(self, f"_fill_{self.beside}")()
        self.ids.split.put_side(self._parts[self.beside])

    def _fill_next(self) -> None:
        part = self._parts["next"]
        part.headline, part.why, part.act_text = self._next.headline, self._next.why, does(self._next.act)

    def _fill_zone(self) -> None:
        part = self._parts["zone"]
        planned, laid = self._plan()
        part.head = short(large_first(zone_called(laid.names[laid.numbers.index(self._zone)])), 40)
        part.may_keep = part.way == "new" and bool(self._gathered)
        one = self.job.state.finish.zones.get(self._zone)
        part.may_drop = one is not None and one.grouted is None
        part.may_ink = one is not None and one.inked is None and not one.sealed
        if part.way == "new":
            part.head = say("New zone")
        lines = [parts.how_to(part.way)] if part.way else [self._fault]
        if planned is not None and not part.way:
            lines = list(zone_lines(self.job, laid, planned, self._zone))
        part.says = "\n".join(lines)

    def _fill_when(self) -> None:
        """What is shown beside it says all."""

    def _plan(self) -> tuple[ZonesPlan | None, Laid]:
        """Return the plan of the zones, reckoned once for each state of the book."""
        seq = self.job.store.last_seq(self.job.panel_id)
        key = (self.job.panel_id, id(self.job.panel), seq, self.desk.version)
        if self._planned is None or self._planned[0] != key:
            laid = laid_zones(self.job)
            try:
                found: ZonesPlan | None = plan(self.job)
            except Fault as fault:
                found, self._fault = None, fault.sentence
            self._planned = (key, found, laid)
        return self._planned[1], self._planned[2]

    def read_sun(self) -> None:
        """Show what the sun asks for."""
        self.read(say("In that light"), list(sun_lines(self.job)), bool)

    # -- the next act ------------------------------------------------------------------------------------

    def do_next(self) -> None:
        """Do the one big act."""
        act, number = self._next.act, self._next.zone
        at_once = {
            "mask": grouting.mask,
            "try_ink": inking.try_ink,
        }
        if act in at_once:
            self.desk.attempt(at_once[act], number)
        else:
            asks: dict[str, Callable[[], object]] = {
                "sun": self._asking.sun,
                "choose": lambda: self._asking.grout_name(number),
                "grout": lambda: self._asking.grout(number),
                "ink": lambda: self._asking.ink(number),
                "seal": self._asking.seal,
                "try_dry": lambda: self._asking.dry(number),
                "hang": self._asking.hang,
                "wait": self.show_when,
                "done": lambda: self.desk.go("book"),
            }
            asks[act]()

    def ask_sun(self) -> None:
        self._asking.sun()

    def undo(self) -> None:
        self._gather_none()
        self.desk.attempt(record.undo)

    # -- from when on ------------------------------------------------------------------------------------

    def show_when(self) -> None:
        """Show what may be done now, and what from when."""
        self.beside = "when"
        self._parts["when"].said = ""
        self._fill()
        self.read(say("From when on"), list(when_lines(self.job)), self.close, alone=False)

    def write_ics(self) -> None:
        """Write the days as a calendar into the documents folder, and say where."""
        done, path = self.desk.attempt(write_calendar, documents_folder())
        if done:
            name, folder = path.name, path.parent.name
            self._parts["when"].said = say("Written: {name}, in {folder}.", name=name, folder=folder)

    def times(self) -> None:
        self._asking.times()

    def close(self) -> None:
        """Go back to the next act."""
        self.beside = "next"
        self._gather_none()
        self.back()
        self.refresh()

    # -- zones -------------------------------------------------------------------------------------------

    def show_zones(self) -> None:
        """Show the zones: the one that is next first."""
        self.beside = "zone"
        self.select(self._next.zone)

    def select(self, number: int) -> None:
        """Open a zone's card."""
        self._zone = number
        self.back()
        if self.beside == "zone" and self._planned is None:
            self.soon(say("Measuring the joints …"), self.refresh)  # a moment, the first time
        else:
            self.refresh()

    def tapped(self, tessera: int, number: int) -> None:
        """Open the zone of a piece, or gather the piece."""
        if self._parts["zone"].way and self.beside == "zone":
            self._gather([tessera])
        else:
            self.beside = "zone"
            self.select(number if number in self.job.state.finish.zones else 0)

    def stroked(self, points_mm: list[tuple[float, float]]) -> None:
        """Gather the pieces under a stroke."""
        self.ids.picture.wipe()
        self._gather(self.ids.picture.under(points_mm))

    def _gather(self, tesserae: Sequence[int]) -> None:
        way = self._parts["zone"].way
        if way == "add" and tesserae:
            self.desk.attempt(zoning.add_to_zone, self._zone, tesserae)
            return
        self._gathered.update(dict.fromkeys(tesserae))
        self._draw()
        self._fill()

    def _gather_none(self) -> None:
        self._gathered.clear()
        self.inking = False
        if "zone" in self._parts:
            self._parts["zone"].way = ""

    def follow_way(self) -> None:
        """Draw with the finger, or move the picture again."""
        self._gathered.clear()
        self.inking = bool(self._parts["zone"].way)
        self._draw()
        self._fill()

    def keep_zone(self) -> None:
        """Keep what was gathered as a zone, under a name; with nothing gathered, go back to the next act."""
        if not self._parts["zone"].may_keep:
            self.close()
            return
        gathered = tuple(self._gathered)
        usual = (say("focal"), say("outline"), say("ground"), say("border"))
        names = tuple(dict.fromkeys((*self.job.panel.group_names, *usual)))

        def use(name: str) -> None:
            self._gather_none()
            done, number = self.desk.attempt(zoning.draw_zone, gathered, name)
            self.select(number if done else self._zone)

        self.ask_name(say("What is the zone called?"), names, use)

    def propose(self) -> None:
        """Offer the ways to colour the joints: zones of several grouts, or one grout and inks."""
        self._gather_none()
        self.soon(say("Looking at the colours …"), self._asking.ways)

    def drop(self) -> None:
        self.desk.attempt(zoning.drop_zone, self._zone)

    def choose_grout(self) -> None:
        self._asking.grout_name(self._zone)

    def choose_ink(self) -> None:
        self._asking.ink_name(self._zone)
