"""What is asked while a panel is finished: colours, grams, hours, each with the act it leads to."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from bench.finish.batches import MOST_POT_LIFE_MIN, MOST_WATER_SHARE, READY_MIN
from bench.finish.beheld import tint_said
from bench.finish.drying import MOST_H, drying_words, sheet_first
from bench.finish.grout_colours import GROUT_WORDS
from bench.finish.sun import Sun
from bench.job.acts import grouting, inking, zoning
from bench.job.finish_settings import grouting as set_now
from bench.job.finish_settings import set_grouting
from bench.job.finish_state import Rgb
from bench.job.finish_words import zone_words
from bench.job.job import Job
from bench.job.seeing import known_colours
from bench.job.ways import ways_told
from bench.job.zone_words import grams
from bench.job.zones import glass_colour, laid_zones, plan
from bench.screens.finishing.parts import offers_of
from bench.screens.parts.paged import Offer
from bench.speech import large_first, say


def sun_answers() -> tuple[tuple[Sun, str, str], ...]:
    """Return where a panel may hang, each with its name and a line about it."""
    return (
        ("direct", say("Direct sun"), say("A wall or window the sun reaches, indoors or out")),
        ("indirect", say("Daylight"), say("Bright, but the sun never falls on it")),
        ("indoors", say("Indoors"), say("Away from windows")),
    )


def tints_said(names: Iterable[str]) -> dict[str, str]:
    """Return names of grouts and inks by what is said of them, as it stands on the keys."""
    return {tint_said(name): name for name in names}


class Asking:
    """Ask on a screen that can `put` a part, and `attempt` what was answered."""

    def __init__(self, screen: Any) -> None:
        self.screen = screen
        self._powder_g = self._water_g = 0.0
        self._zone = 0

    @property
    def _desk(self) -> Any:
        return self.screen.desk

    @property
    def _job(self) -> Any:
        return self.screen.job

    # -- sun and colours ---------------------------------------------------------------------------------

    def sun(self) -> None:
        """Ask once where the panel will hang; `more` tells what follows from it."""
        answers = [
            (text, says, lambda sun=sun: self._tell_sun(sun))  # type: ignore[misc]
            for sun, text, says in sun_answers()
        ]
        if self._job.state.finish.sun is not None:
            follows = say("What follows"), say("Inks, grout and bed in that light"), self.screen.read_sun
            answers.append(follows)
        says = say("Inks fade in the sun, reds first.")
        self.screen.ask_few(say("Where will it hang?"), offers_of(answers), says)

    def _tell_sun(self, sun: str) -> None:
        done, _ = self._desk.attempt(zoning.tell_sun, sun)
        if done:
            self.screen.read_sun()

    def grout_name(self, number: int) -> None:
        """Ask which grout a zone gets."""
        title = say("Grout of {zone}: the name on its bag", zone=self._name(number))
        known = tints_said(GROUT_WORDS)
        self.screen.ask_name(
            title, tuple(known), lambda name: self._choose(number, known.get(name, name), "grout")
        )

    def ink_name(self, number: int) -> None:
        """Ask which ink goes over a zone's grout."""
        chosen = self._job.state.finish.zones.get(number)
        none = {say("no ink"): ""} if chosen is not None and chosen.ink is not None else {}
        title = say("Ink over {zone}: the name on its bottle", zone=self._name(number))
        known = none | tints_said(word for word in GROUT_WORDS if "grey" not in word)
        self.screen.ask_name(
            title, tuple(known), lambda name: self._choose(number, known.get(name, name), "ink")
        )

    def _choose(self, number: int, name: str, of: str) -> None:
        if of == "grout":
            done, chosen = self._desk.attempt(zoning.choose_grout, number, name, self._colour(number, name))
            self.screen.select(chosen if done else number)
        elif not name:
            self._desk.attempt(zoning.leave_ink, number)
        else:
            self._desk.attempt(zoning.choose_ink, number, name, self._colour(number, name))

    def _colour(self, number: int, name: str) -> Rgb:
        """Return the colour that a name has here; of another that of the zone's glass, until it is seen."""
        known = known_colours(self._job)
        if name in known:
            return known[name]
        return glass_colour(self._job, laid_zones(self._job).members(number))

    def _name(self, number: int) -> str:
        laid = laid_zones(self._job)
        return zone_words(laid.names[laid.numbers.index(number)])

    def ways(self) -> None:
        """Offer the ways to colour the joints, each with what it takes."""
        acts: dict[str, Callable[[Job], Any]] = {
            "inks": zoning.one_neutral,
            "colours": zoning.propose_zones,
            "groups": lambda job: zoning.propose_zones(job, "groups"),
            "sun": zoning.propose_for_sun,
        }
        answers = [(one.text, one.says, self._way(acts[one.way])) for one in ways_told(self._job)]
        says = say("Zones that are not grouted yet are drawn anew. It can be taken back.")
        self.screen.ask_few(say("How will the joints be coloured?"), offers_of(answers), says)

    def _way(self, act: Callable[[Job], Any]) -> Callable[[], None]:
        def take() -> None:
            self.screen.back()
            self._desk.attempt(act)

        return take

    # -- grout -------------------------------------------------------------------------------------------

    def grout(self, number: int) -> None:
        """Go through a mix: the cautions, the powder, the water, the lot; then it is written."""
        self._zone = number
        done, zone = self._desk.attempt(grouting.may_grout, number)
        if not done:
            return
        if not zone.shown:
            lines = list(grouting.caution_words())
            head = say("Before {zone}", zone=self._name(number))
            self.screen.read(head, lines, self._cautions_read)
            return
        self._powder()

    def _cautions_read(self) -> None:
        done, _ = self._desk.attempt(grouting.read_cautions, self._zone)
        if done:
            self._powder()

    def _powder(self) -> None:
        laid, planned = laid_zones(self._job), plan(self._job)
        one = planned.zones[laid.numbers.index(self._zone)]
        self._share = one.grout.water_g / one.grout.powder_g if one.grout.powder_g else 0.0
        batch = next(g.batch for g in planned.grouts if planned.zones.index(one) in g.zones)
        mass = grams(one.grout.powder_g)
        title = say("Powder used, in all: {mass} reckoned", mass=mass)
        if batch is not None and batch.count > 1:
            title = say(
                "Powder used, in all: {mass} reckoned, in {count} batches", mass=mass, count=batch.count
            )
        most = grouting.MOST_POWDER_G
        self.screen.ask_number(title, self._water, unit="g", decimals=1, least=0.1, most=most)

    def _water(self, powder_g: float) -> None:
        self._powder_g = powder_g
        title = say("Water used, in all: {mass} reckoned", mass=grams(self._share * powder_g))
        most = round(MOST_WATER_SHARE * powder_g, 1)
        self.screen.ask_number(title, self._lot, unit="g", decimals=1, least=0.1, most=most)

    def _lot(self, water_g: float) -> None:
        self._water_g = water_g
        self.screen.ask_lot(say("Lot on the bag"), self._grouted)

    def _grouted(self, lot: str) -> None:
        self._desk.attempt(
            grouting.grout, self._zone, powder_g=self._powder_g, water_g=self._water_g, lot=lot
        )

    # -- dry, and the wall -------------------------------------------------------------------------------

    def dry(self, number: int) -> None:
        """Ask how dry a zone was found."""
        offers = offers_of(
            [
                (say("Dry enough to tint"), say("Hard and pale"), lambda: self._tried(number, "tint")),
                (
                    say("Dry enough to seal"),
                    say("Pale all through, days old"),
                    lambda: self._tried(number, "seal"),
                ),
            ]
        )
        says = say("Not sure? Leave it: it counts as wet.")
        self.screen.ask_few(say("The grout of {zone}", zone=self._name(number)), offers, says)

    def _tried(self, number: int, dry_to: str) -> None:
        self.screen.back()
        self._desk.attempt(grouting.try_dry, number, dry_to)

    def hang(self) -> None:
        """Ask where it was hung."""
        offers = offers_of(
            [
                (say("Outdoors"), say("Sealed, and the seal is dry"), lambda: self._hung("outdoors")),
                (say("Indoors"), say("Dry is enough"), lambda: self._hung("indoors")),
            ]
        )
        self.screen.ask_few(say("Where does it hang?"), offers, say("Fixings rated for its weight."))

    def _hung(self, where: str) -> None:
        self.screen.back()
        self._desk.attempt(inking.hang, where)

    # -- ink and seal ------------------------------------------------------------------------------------

    def ink(self, number: int) -> None:
        """Ask for the lot of an ink that went on a zone; then it is written."""
        done, _ = self._desk.attempt(inking.may_ink, number)
        if done:
            self.screen.ask_lot(say("Lot on the ink's bottle"), lambda lot: self._inked(number, lot))

    def _inked(self, number: int, lot: str) -> None:
        self._desk.attempt(inking.ink, number, lot=lot)

    def seal(self) -> None:
        """Ask for the name of the sealer that went on the panel; then it is written."""
        done, _ = self._desk.attempt(inking.may_seal)
        if done:
            nameless = say("No name on it")
            self.screen.ask_name(
                say("The sealer: the name on its bottle"),
                (nameless,),
                lambda name: self._desk.attempt(inking.seal, "" if name == nameless else name),
            )

    # -- times -------------------------------------------------------------------------------------------

    def times(self) -> None:
        """Show the table of times, each set by a tap."""
        now = set_now(self._job)
        rows = [
            self._time(large_first(words), name, getattr(now, name), "h", 0.1, MOST_H)
            for name, words in drying_words().items()
        ]
        rows += [
            self._time(say("Panel grouted a minute"), "area_cm2_min", now.area_cm2_min, "cm²", 1.0, 1000.0),
            self._time(
                say("Pot life of grout"),
                *("pot_life_min", now.pot_life_min, "min", READY_MIN + 1, MOST_POT_LIFE_MIN),
            ),
            self._time(
                say("Water to a g of powder"), "water_share", now.water_share, "g", 0.1, MOST_WATER_SHARE
            ),
            Offer(
                say("Sand scratches this glass"),
                say("Yes: unsanded grout") if now.scratches else say("Only if it is iridised"),
                "time_scratches",
                lambda: self._set(scratches=not now.scratches),
            ),
        ]
        self.screen.ask_few(say("Times and pace"), rows, sheet_first(), beside=2)

    def _time(self, text: str, name: str, value: float, unit: str, least: float, most: float) -> Offer:
        def ask() -> None:
            decimals = 2 if unit == "g" else 1
            self.screen.ask_number(text, use, unit=unit, decimals=decimals, least=least, most=most)

        def use(value: float) -> None:
            self._set(**{name: value})

        return Offer(text, say("{value:g} {unit}", value=value, unit=unit), f"time_{name}", ask)

    def _set(self, **changes: Any) -> None:
        self._desk.attempt(set_grouting, **changes)
        self.times()
