"""Resin first, then hardener, by mass; and the moment they meet."""

from __future__ import annotations

from kivy.properties import BooleanProperty, ListProperty, NumericProperty, StringProperty

from bench.adhesive.batch import scale_advice
from bench.adhesive.scale import Scale
from bench.job.acts import cup
from bench.job.cup_sheet import CupSheet, is_first_today
from bench.screens.atcup.step import CupStep
from bench.screens.parts.plates import Plate
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say

FLAT_TARGETS = 1.6
LARGE_TYPE = 1.2  # of the usual; above it one line at a time


class Mass(Plate):
    """One mass; `now` is the one to pour, and huge: the other stands by at the least size for numbers.

    flat: where there is little height what it is stands beside the number, and grows no larger than usual.
    """

    text = StringProperty("")
    says = StringProperty("")
    now = BooleanProperty(False)
    flat = BooleanProperty(False)

    def on_height(self, *_: object) -> None:
        self.flat = self.height < FLAT_TARGETS * theme.target


class CupWeigh(CupStep):
    """Both masses at once, so that nothing need be touched; a rung tapped says what is in the cup."""

    resin_text = StringProperty("")
    hardener_text = StringProperty("")
    resin_says = StringProperty("")
    hardener_says = StringProperty("")
    poured = BooleanProperty(False)
    mixed = BooleanProperty(True)
    rungs = ListProperty()
    prescribed = NumericProperty(-1)
    chosen = NumericProperty(-1)
    act_text = StringProperty("")
    care_text = StringProperty("")

    def refresh(self) -> None:
        job = self.desk.job
        shown = cup.sheet(job, self.desk.mix)
        mix = job.mix(self.desk.mix)
        self.section = shown.section
        self.mixed = shown.product.is_two_part
        self.poured = mix.poured_resin_g is not None
        if self.mixed:
            self.act_text = say("Hardener meets resin: start")
        else:
            self.act_text = say("The adhesive is out: start")
        self._say_masses(shown, job.state.bench.cumulative)
        self._set_rungs(shown, mix.poured_resin_g)
        self._take_care(shown)
        self._lay_out()

    def _lay_out(self) -> None:
        ids = self.ids
        stack(ids.masses, [ids.resin, ids.hardener] if self.mixed else [ids.resin])
        if self.mixed:
            stack(ids.ladder_row, [ids.ladder, ids.type] if self.wide else [ids.ladder])
            ids.type.size_hint = (0.16, 1) if self.wide else (1, None)
        typed_here = [] if self.wide and self.mixed else [ids.type]
        stack(ids.sides, [ids.met, *typed_here, ids.away, ids.elsewhere])
        if typed_here:
            ids.type.size_hint = (1, None)
            ids.type.height = max(theme.target, ids.type.minimum_height)
        ladder = [ids.ladder_row] if self.mixed else []
        stack(self, [ids.masses, *ladder, *([ids.care] if self.care_text else []), ids.acts])

    def _say_masses(self, shown: CupSheet, cumulative: bool) -> None:
        batch, step_g = shown.batch, self.desk.job.state.bench.scale_g
        self.resin_text = grams_text(batch.resin_g, step_g)
        self.hardener_text = grams_text(batch.hardener_g, step_g)
        if not self.mixed:
            self.resin_says = say("Adhesive")
        else:
            self.resin_says = say("Resin, in the cup") if self.poured else say("1 · Resin first")
        if cumulative:
            total = grams_text(batch.total_g, step_g)
            self.hardener_says = say("2 · Hardener, to {total} in all", total=total)
        else:
            self.hardener_says = say("2 · Hardener, tared")

    def _set_rungs(self, shown: CupSheet, poured_g: float | None) -> None:
        """Lay the ladder out once round the batch prescribed, so that it stays put under the finger."""
        step_g = self.desk.job.state.bench.scale_g
        rungs = shown.rungs if self.wide and not self.low else shown.rungs[1:-1]
        if poured_g is None or not self.rungs:
            self._resins = [rung.resin_g for rung in rungs]
            self.rungs = [
                (grams_text(r.resin_g, step_g, unit=False), grams_text(r.hardener_g, step_g, unit=False))
                for r in rungs
            ]
        batch = self.desk.job.mix(self.desk.mix).batch
        self.prescribed = _place(self._resins, None if batch is None else batch.resin_g)
        self.chosen = _place(self._resins, poured_g)

    def on_wide(self, *_: object) -> None:
        if self.rungs:
            self.rungs = []
            if self.get_root_window() is not None:  # else it is read again when it is shown
                self.refresh()

    def on_low(self, *_: object) -> None:
        self.on_wide()

    def _take_care(self, shown: CupSheet) -> None:
        job = self.desk.job
        bench = job.state.bench
        scale = Scale(step_g=bench.scale_g, cumulative=bench.cumulative)
        told = [scale_advice(shown.product, shown.batch, scale)]
        roomy = theme.text_scale <= LARGE_TYPE and not self.low  # else the masses would shrink
        has_room = roomy or not told[0]
        if has_room and is_first_today(job, job.mix(self.desk.mix)):
            told.append(say("Small scales switch off and swallow slow drips: tap the pan and read again."))
        self.care_text = " ".join(x for x in told if x)

    def pour(self, rung: int) -> None:
        """Say that the resin of this rung is in the cup."""
        self.desk.attempt(cup.pour_resin, self.desk.mix, self._resins[rung])

    def start(self) -> None:
        """Hardener meets resin, now."""
        make_contact(self.desk, 0.0)

    def act_on_key(self) -> bool:
        self.start()
        return True


def make_contact(desk: object, back_dated_s: float) -> None:
    """Start the clock, so many seconds ago, and turn to the glue-up."""
    mix = desk.mix  # type: ignore[attr-defined]
    done, _ = desk.attempt(cup.first_contact, mix, back_dated_s=back_dated_s)  # type: ignore[attr-defined]
    if done:
        desk.go("glueup", mix=mix)  # type: ignore[attr-defined]


def grams_text(mass_g: float, step_g: float, *, unit: bool = True) -> str:
    """Say a mass with as many decimals as the scale shows; unit: whether its unit stands behind it."""
    decimals = 0 if step_g >= 1 else 1 if step_g >= 0.1 else 2 if step_g >= 0.01 else 3
    if not unit:
        return say("{mass_g:.{decimals}f}", mass_g=mass_g, decimals=decimals)
    return say("{mass_g:.{decimals}f} g", mass_g=mass_g, decimals=decimals)


def _place(resins_g: list[float], wanted_g: float | None) -> int:
    """Return which rung a mass is on, -1 for none."""
    if wanted_g is None:
        return -1
    return next((k for k, resin_g in enumerate(resins_g) if abs(resin_g - wanted_g) < 1e-6), -1)
