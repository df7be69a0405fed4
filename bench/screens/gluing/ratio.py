"""What the scale showed once both parts were in the cup: the ratio as a needle, and what puts it right."""

from __future__ import annotations

import math
from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from bench.adhesive.poured import Poured, poured_words
from bench.fault import Fault
from bench.job.acts import pouring
from bench.job.cup_sheet import scale_of
from bench.job.mixing import time_for_s
from bench.screens.atcup.weigh import grams_text
from bench.screens.gluing.late import GluePad
from bench.screens.gluing.view import GlueView
from bench.screens.parts.needle import Needle  # noqa: F401 - named by the kv file
from bench.speech import large_first, say


class GlueRatio(GlueView):
    """Move the hardener to what the scale showed; the needle follows, and the one act is what to do next.

    resin_g, hardener_g: the readings as they stand here; nothing is written before the act.
    """

    resin_g = NumericProperty(0.0)
    hardener_g = NumericProperty(0.0)
    resin_text = StringProperty("")
    hardener_text = StringProperty("")
    error = NumericProperty(0.0)
    worst = NumericProperty(0.0)
    tolerance = NumericProperty(0.05)
    known = BooleanProperty(True)
    low = BooleanProperty(False)  # too little height for the needle
    said = StringProperty("")
    todo = StringProperty("")
    act_text = StringProperty("")
    why_not = StringProperty("")

    def __init__(self, *, glue: Any, **kwargs: Any) -> None:
        self._poured: Poured | None = None
        self._of_mix = 0
        super().__init__(glue=glue, **kwargs)

    def ask(self) -> None:
        """Begin with what the book has of this mix; what was typed meanwhile stays."""
        mix = self._mix()
        if self._of_mix != mix.number:
            self._of_mix = mix.number
            self.resin_g = pouring.resin_in_cup_g(mix)
            target_g = self.resin_g * self._product().mass_ratio
            told_g = mix.poured_hardener_g
            self.hardener_g = scale_of(self.glue.job).nearest_g(target_g) if told_g is None else told_g
        self._judge()

    def _mix(self) -> Any:
        return self.glue.job.mix(self.glue.sheet.mix)

    def _product(self) -> Any:
        return self.glue.job.product(self.glue.job.section(self.glue.sheet.section).adhesive)

    def step(self, steps: int) -> None:
        """Move the hardener by steps of the scale, down to none."""
        scale = scale_of(self.glue.job)
        self.hardener_g = scale.on_step_g(max(0, round(self.hardener_g / scale.step_g) + steps))
        self._judge()

    def read(self, *, resin_g: float | None = None, hardener_g: float | None = None) -> None:
        """Take over a reading that was typed."""
        self.resin_g = self.resin_g if resin_g is None else resin_g
        self.hardener_g = self.hardener_g if hardener_g is None else hardener_g
        self._judge()

    def _judge(self) -> None:
        job = self.glue.job
        step_g = job.state.bench.scale_g
        self.resin_text = say("Resin {grams}", grams=grams_text(self.resin_g, step_g))
        self.hardener_text = grams_text(self.hardener_g, step_g)
        self.tolerance = self._product().tolerance
        try:
            poured = pouring.judge_cup(
                job, self.glue.sheet.mix, resin_g=self.resin_g, hardener_g=self.hardener_g
            )
        except Fault as fault:
            self._poured, self.known = None, False
            self.said = f"{large_first(fault.what)}."
            self.todo = f"{large_first(fault.todo)}."
            self.act_text, self.why_not = say("Stir on"), say("Read it again")
            return
        self._poured, self.known, self.why_not = poured, True, ""
        self.error, self.worst = poured.ratio_error, min(poured.worst_ratio_error, 9.0)
        said, todo = poured_words(poured, tolerance=self.tolerance)
        self.said, self.todo = f"{said}.", todo
        adds = poured.resin_to_add_g or poured.hardener_to_add_g
        if adds:
            self._check_added(poured, adds)
        grams = grams_text(adds, step_g)
        if poured.resin_to_add_g:
            self.act_text = say("{grams} of resin is in", grams=grams)
        else:
            self.act_text = say("{grams} of hardener is in", grams=grams) if adds else say("Stir on")

    def _check_added(self, poured: Poured, adds_g: float) -> None:
        """Say of what is to be added that it would be too much for one cup, or costs working time."""
        mix, mass_g = self._mix(), poured.resin_g + poured.hardener_g + adds_g
        try:
            pouring.check_added(self.glue.job, mix.number, mass_g)
        except Fault as fault:
            told = say("Do not add {adds_g:g} g: {why}.", adds_g=adds_g, why=fault.what)
            self.todo = f"{told} {say('Take some out, or mix anew.')}"
            self.why_not = say("Too much for one cup")
            return
        less_s = self.glue.sheet.total_s - time_for_s(self.glue.job, mix, mass_g)
        if less_s >= 30:
            self.todo += " " + say("It then lasts {minutes} min less.", minutes=math.ceil(less_s / 60))

    def use(self) -> None:
        """Keep the readings; where something had to be added, it is in now, and the needle follows."""
        poured = self._poured
        if poured is None or self.why_not:
            return
        added = {"resin_added_g": poured.resin_to_add_g, "hardener_added_g": poured.hardener_to_add_g}
        told = {"resin_g": self.resin_g, "hardener_g": self.hardener_g}
        mix = self._mix()
        if any(added.values()) or (mix.poured_resin_g, mix.poured_hardener_g) != tuple(told.values()):
            done, now = self.glue.desk.attempt(pouring.keep_poured, mix.number, **told, **added)
            if not done:
                return
            self.resin_g, self.hardener_g = now.resin_g, now.hardener_g
        if any(added.values()):
            self._judge()
        else:
            self.glue.turn("")

    def on_key(self, name: str) -> bool:
        steps = {"up": 1, "right": 1, "down": -1, "left": -1}
        if name in steps:
            self.step(steps[name])
            return True
        return super().on_key(name)


class GluePadHardener(GluePad):
    """Type what the scale shows of hardener."""

    part = StringProperty("hardener")

    def asked(self) -> str:
        return say("Hardener in the cup, as the scale shows it")

    def ask(self) -> None:
        self.ids.pad.text = ""
        self.title, self.unit = self.asked(), "g"
        self.decimals, self.least, self.most = 4, 0.0, 5000.0

    def back(self) -> None:
        self.glue.turn("ratio")

    def use(self, value: float) -> None:
        self.glue.turn("ratio")
        self.glue.look_into("ratio").read(**{f"{self.part}_g": value})


class GluePadResin(GluePadHardener):
    """Type what the scale shows of resin."""

    part = StringProperty("resin")

    def asked(self) -> str:
        return say("Resin in the cup, as the scale shows it")
