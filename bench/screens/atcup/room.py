"""How warm is the room? Asked before every mix, because it decides how long the adhesive may be worked."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.clock import Clock
from kivy.properties import NumericProperty, StringProperty

from bench.adhesive.faults import OutsideRange
from bench.fault import Fault
from bench.job.acts import cup, dry
from bench.job.bedding import reckoned_g_per_cm2
from bench.job.glue_sheet import Mood
from bench.job.job import Job
from bench.job.learning import coverage_from_book
from bench.job.measuring import sizer
from bench.job.stock_words import coverage_words
from bench.screens import sounds
from bench.screens.atcup.step import CupStep, Turn
from bench.screens.flash import flash
from bench.screens.gluing.alarm import FLASHES
from bench.speech import celsius_typed, in_unit, large_first, plain_temperature, say

ALARMS: dict[Mood, float] = {"half": 2.0, "last pieces": 2.5, "stop": 4.5}  # each until it has died away [s]
HAIR = 6  # decimals of a degree beyond which a whole one of another unit is whole
WORTH_SAYING = 0.02  # of the label's time


def time_at(
    job: Job, number: int, temperature_C: float, adhesive_C: float | None = None
) -> tuple[float, float]:
    """Return a section's working time and how sure it is in time, in a room of this temperature. [s, 0..1]

    The time is what the book has shown, which is the label's until something went stringy sooner.
    adhesive_C: the bottles', None where they are as warm as the room.
    Raises OutsideRange where its adhesive may not be used.
    """
    section = job.section(number)
    measures = sizer(job, temperature_C, adhesive_C)
    mass_g = measures.batch(section.adhesive, np.asarray(section.tesserae, dtype=np.int32)).total_g
    time_s = measures.working_time_s(section.adhesive, mass_g=mass_g)
    time_s = measures.known.life_of(section.adhesive).quantile_s(0.5, time_s)
    return time_s, dry.in_time(job, section, temperature_C=temperature_C, adhesive_C=adhesive_C)


def reckoned_words(job: Job, number: int) -> str:
    """Say by which weighed cups the batch of a section is reckoned; "" where by none."""
    section, bench = job.section(number), job.state.bench
    reckoned = reckoned_g_per_cm2(job.product(section.adhesive), bench)
    return coverage_words(coverage_from_book(job.store, section.adhesive, bench), reckoned)


def lasting_words(job: Job, number: int) -> str:
    """Say where the book has shown another working time than the label's; "" where it has not."""
    ratio = sizer(job).known.life_of(job.section(number).adhesive).quantile_s(0.5, 1.0)
    if ratio < 1 - WORTH_SAYING:
        return say("By your book {percent:.0f} % less than the label.", percent=100 * (1 - ratio))
    if ratio > 1 + WORTH_SAYING:
        return say("As you allowed, {percent:.0f} % more than the label.", percent=100 * (ratio - 1))
    return ""


def sure_words(sure: float, promised: float) -> str:
    """Say a probability as the promise is said."""
    return say(
        "Sure of {sure:.0f} in 100; promised {promised:.0f}.", sure=100 * sure, promised=100 * promised
    )


def bottles_words(adhesive_C: float | None) -> str:
    """Say how warm the bottles are, and how to tell it."""
    if adhesive_C is None:
        return say("As warm as the room. Tap if they were kept cold or warm.")
    kept = plain_temperature(adhesive_C)
    return say("Kept at {kept}. Tap if they were kept cold or warm.", kept=kept)


def alarm_name(mood: Mood) -> str:
    """Name an alarm."""
    names: dict[Mood, str] = {
        "half": say("Half"),
        "last pieces": say("Last pieces"),
        "stop": say("Stop"),
    }
    return names[mood]


def keeps(sure: float, promised: float) -> bool:
    """Whether the promise is kept, the last digit forgiven."""
    return sure >= promised - 1e-9


class CupRoom(CupStep):
    """Set the temperature in whole degrees, or type it; the working time follows at once."""

    temperature_C = NumericProperty(21.0)
    adhesive_C = NumericProperty(None, allownone=True)
    head_text = StringProperty("")
    degrees_text = StringProperty("")
    minutes_text = StringProperty("")
    time_text = StringProperty("")
    use_text = StringProperty("")
    hear_text = StringProperty("")
    why_not = StringProperty("")
    bottles_text = StringProperty("")

    def __init__(self, *, desk: Any, turn: Turn, **kwargs: Any) -> None:
        self._heard = False  # whether the alarms are being heard
        super().__init__(desk=desk, turn=turn, temperature_C=desk.job.state.bench.temperature_C, **kwargs)
        self.hear_text = say("Try alarm")

    def refresh(self) -> None:
        self.section = self.desk.section
        self.head_text = say("How warm is the room?")
        self._reckon()

    def on_temperature_C(self, *_: object) -> None:
        if self.section:
            self._reckon()

    def on_adhesive_C(self, *_: object) -> None:
        self.on_temperature_C()

    def step(self, degrees: int) -> None:
        """Go to the next whole degree up or down, of the unit spoken."""
        value = round(in_unit(self.temperature_C), HAIR)
        whole = np.floor(value) if degrees > 0 else np.ceil(value)
        self.temperature_C = celsius_typed(float(whole + degrees))

    def _reckon(self) -> None:
        job = self.desk.job
        self.degrees_text = plain_temperature(self.temperature_C)
        self.bottles_text = bottles_words(self.adhesive_C)
        try:
            time_s, sure = time_at(job, self.section, self.temperature_C, self.adhesive_C)
        except Fault as fault:
            self.minutes_text, self.time_text = "–", large_first(fault.what) + "."
            remedy = fault.remedy if isinstance(fault, OutsideRange) else say("not in this room")
            self.use_text, self.why_not = say("To the cautions"), large_first(remedy)
            return
        self.minutes_text = say("{minutes} min", minutes=int(time_s / 60))
        promised = job.state.bench.sure
        shown = [lasting_words(job, self.section), reckoned_words(job, self.section)]
        told = [say("to work from first contact."), sure_words(sure, promised), *shown]
        if self.adhesive_C is not None and self.adhesive_C < self.temperature_C:
            told.append(say("Cold bottles gain no time."))
        self.time_text = " ".join(x for x in told if x)
        fits = keeps(sure, promised)
        self.use_text = say("To the cautions") if fits else say("Too much for one mix")
        self.why_not = ""

    def use(self) -> None:
        """Go to the cup at this temperature."""
        done, mix = self.desk.attempt(
            cup.open_mix, self.section, self.temperature_C, adhesive_C=self.adhesive_C
        )
        if done:
            self.desk.mix = mix

    def act_on_key(self) -> bool:
        if not self.why_not:
            self.use()
        return True

    def hear(self) -> None:
        """Let each alarm be heard and seen once, by its name, while the hands are clean."""
        if self._heard:
            return
        self._heard = True
        self._next_sound(list(ALARMS))

    def _next_sound(self, left: list[Mood]) -> None:
        if not left or self.get_root_window() is None:
            self._heard, self.hear_text = False, say("Try alarm")
            return
        mood = left.pop(0)
        self.hear_text = alarm_name(mood)
        sounds.play(mood)
        flash(FLASHES[mood])
        Clock.schedule_once(lambda _dt: self._next_sound(left), ALARMS[mood])

    def later(self) -> None:
        """Leave it for now; nothing was written."""
        self.desk.go("dry", section=self.section)
