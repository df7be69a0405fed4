"""How warm the mix gets if it is left in the cup; one that would run away is split before it is poured."""

from __future__ import annotations

from kivy.properties import BooleanProperty, StringProperty

from bench.job.acts import cup
from bench.job.cup_heat import heat_words
from bench.screens.atcup.heat_curve import HeatCurve  # noqa: F401 - named by the kv file
from bench.screens.atcup.hot import CupSplit
from bench.speech import say


class CupWarms(CupSplit):
    """The curve, shown only where it is of use; then 'I spread it at once', or nothing but the split."""

    head_text = StringProperty("")
    says = StringProperty("")
    runs_away = BooleanProperty(False)
    act_text = StringProperty("")

    def refresh(self) -> None:
        heat = cup.heat(self.desk.job, self.desk.mix)
        if heat is None:
            return
        self.section = self.desk.job.mix(self.desk.mix).section
        self.runs_away = heat.cups > 1
        self.head_text, self.says = heat_words(heat)
        self.act_text = say("Split it now") if self.runs_away else say("I spread it at once")
        self.ids.curve.show(heat.in_cup, heat.spread)

    def act(self) -> None:
        """Split what would run away, or go on to the cautions."""
        if self.runs_away:
            self.split()
        else:
            self.turn("warned")

    def act_on_key(self) -> bool:
        return True  # a foot on the pedal has read nothing
