"""Finish: how far the panel has hardened, the joints to fill, what it weighs, and the glass it is made of."""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty, StringProperty

from bench.adhesive.workshop import workshop_cautions
from bench.job import finishing
from bench.job.advice import clock_words
from bench.job.job import Job
from bench.job.zone_words import ready_line
from bench.screens.finishing.costs import CostsPart
from bench.screens.finishing.figures import FiguresPart, FiguresSide  # noqa: F401 - the kv file names them
from bench.screens.finishing.papers import PapersPart
from bench.screens.finishing.weight import WeightPart
from bench.screens.glass_list import GlassActs, GlassPart  # noqa: F401 - the kv file names them
from bench.screens.screen import Screen
from bench.speech import area, plain_length, say, say_n

LOOK_AGAIN_TICKS = 60  # a cure takes hours


class FinishScreen(Screen):
    """Say what is hard, when the last will be, what to grout with, and what the panel weighs."""

    hard_text = StringProperty("")
    when_text = StringProperty("")
    joint_text = StringProperty("")
    grout_text = StringProperty("")
    grout_says = StringProperty("")
    weight_text = StringProperty("")
    weight_says = StringProperty("")
    thick_text = StringProperty("")
    _ticks = NumericProperty(0)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._figures, self._acts = self.ids.figures.__self__, self.ids.acts.__self__
        self._parts = self.hold("ask", "glass", "glass_acts", "cautions")
        self._part: FiguresPart | None = None  # what is shown in place of the figures
        self._all: dict[type, FiguresPart] = {}

    def arrive(self) -> None:
        """Show the figures; from the edge one comes back to the papers."""
        if not isinstance(self._part, PapersPart):
            self._part = None
        self.back()

    def refresh(self) -> None:
        self.hard_text, self.when_text = hardness(self.job)
        found = finishing.finishing(self.job)
        self.joint_text = area(found.grout.joint_area_mm2)
        self.grout_text = say("{mass_g:.0f} g", mass_g=found.grout.powder_g)
        self.grout_says = say("Grout powder, and {water_g:.0f} g of water", water_g=found.grout.water_g)
        self.weight_text = say("{mass_kg:.2f} kg", mass_kg=found.weight.total_g / 1000)
        self.weight_says = say("Finished panel, with its board")
        if found.backer_kg_per_m2 is None:
            self.weight_says = say("Finished panel, without its board")
        self.thick_text = say("Glass: {thick}", thick=plain_length(found.glass_mm))
        if self._part is not None:
            self._part.show()

    def tick(self) -> None:
        self._ticks += 1
        if self._ticks % LOOK_AGAIN_TICKS == 0:
            self.refresh()

    @property
    def shown_part(self) -> str:
        return "" if self._part is None else type(self._part).__name__

    def to_grouting(self) -> None:
        self.desk.go("grouting")

    def to_panel(self) -> None:
        self.desk.go("panel")

    # -- figures that only the maker knows ---------------------------------------------------------------

    def ask_thickness(self) -> None:
        self.ask_length(
            say("How thick is the glass?"),
            finishing.set_glass_mm,
            least_mm=finishing.LEAST_GLASS_MM,
            most_mm=finishing.MOST_GLASS_MM,
        )

    def ask(self, title: str, act: Any, unit: str, **how: Any) -> None:
        """Ask for a number and hand it to an act of the job."""
        self._parts["ask"].ask(title, lambda value: self.desk.attempt(act, value), unit=unit, **how)
        self._put(self._parts["ask"])

    def ask_length(self, title: str, act: Any, *, least_mm: float, most_mm: float) -> None:
        """Ask for a length in the unit spoken and hand it to an act of the job, in mm."""
        part = self._parts["ask"]
        part.ask_length(
            title, lambda value_mm: self.desk.attempt(act, value_mm), least_mm=least_mm, most_mm=most_mm
        )
        self._put(part)

    def show_weight(self) -> None:
        """Turn to what it weighs and how it hangs."""
        self._show_part(WeightPart)

    def show_costs(self) -> None:
        """Turn to cost and hours."""
        self.soon(say("Reading the book …"), lambda: self._show_part(CostsPart))

    def show_papers(self) -> None:
        """Turn to the papers."""
        self._show_part(PapersPart)

    def _show_part(self, kind: type[FiguresPart]) -> None:
        if kind not in self._all:
            self._all[kind] = kind(screen=self)
        self._part = self._all[kind]
        self.back()

    def leave_part(self) -> None:
        """Show the figures again."""
        self._part = None
        self.back()

    # -- the glass ---------------------------------------------------------------------------------------

    def show_glass(self) -> None:
        """Turn to the glass list: sorting much glass takes a moment."""
        self.soon(say("Sorting the glass …"), self._show_glass)

    def _show_glass(self) -> None:
        self.title = say("List of glass")
        self._put(self._parts["glass"], self._parts["glass_acts"])
        self._parts["glass"].show(self.job)

    def show_cautions(self) -> None:
        """Turn to what grout can do to skin, eyes and lungs."""
        groups = workshop_cautions("grout")
        told = [line for group in groups if not group.codes for line in group.lines]
        stated = [f"{group.title}: {'; '.join(group.lines)}" for group in groups if group.codes]
        self.read(say("Before grouting"), [*told, *stated])

    def read(self, head: str, lines: list[str]) -> None:
        """Show longer text in place."""
        reading = self._parts["cautions"]
        reading.head, reading.lines, reading.page = head, lines, 0
        self._put(reading)

    def back(self) -> None:
        """Show what was turned to last: a part, or the figures."""
        self.title = self._part.title if self._part is not None else say("Finish")
        if self._part is None:
            self._put(self._figures, self._acts)
            return
        self._part.show()
        self._put(self._part, self._part.side)

    def _put(self, part: Any, acts: Any = None) -> None:
        """Show a part with its acts beside it, or one that has all the room."""
        split = self.ids.split
        split.alone = acts is None
        if acts is not None:
            split.put_side(acts)
        split.put_main(part)


def hardness(job: Job) -> tuple[str, str]:
    """Return how many sections are hard, and what grouting still waits for."""
    sections = job.state.sections
    lives = {n: job.life(n) for n in sections}
    hard = sum(life == "hard" for life in lives.values())
    counted = say("{some} of {all}", some=hard, all=len(sections))
    if any(zone.grouted for zone in job.state.finish.zones.values()):
        return counted, ready_line(job) or say("It hangs.")
    if hard == len(sections):
        return counted, say("Every section is hard: grout when you like.")
    to_set = sum(life in ("drawn", "dry", "wet") for life in lives.values())
    if to_set:
        return counted, say_n(
            "Grout when every section is hard; {count} is not set yet.",
            "Grout when every section is hard; {count} are not set yet.",
            to_set,
        )
    waiting = [n for n, life in lives.items() if life != "hard"]
    unsure = [n for n in waiting if job.cure_unsure(n)]
    if unsure:
        numbers = ", ".join(map(str, unsure))
        return counted, say(
            "The clock changed: try section {numbers} by hand before grouting.", numbers=numbers
        )
    last = max(at for at in (job.hard_utc(n) for n in waiting) if at is not None)
    at = clock_words(job, last)
    return counted, say("Grout when every section is hard: the last one is hard from {at}.", at=at)
