"""The end of a glue-up: all placed, or some left; how many, or which; and why."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.metrics import dp
from kivy.properties import ListProperty, NumericProperty, StringProperty

from bench.job.glue_sheet import how_many
from bench.job.ground import section_numbers
from bench.screens.gluing.view import GlueView
from bench.screens.gluing.words import reasons
from bench.screens.theme import theme
from bench.speech import say, say_n

LATE_MIN = 0.5  # from here on it is said for when the glue-up is closed


class GlueDone(GlueView):
    """Done was touched: only a second touch, elsewhere, ends the glue-up."""

    head_text = StringProperty("")
    pedal_text = StringProperty("")

    def ask(self) -> None:
        sheet, ago_min = self.glue.sheet, round(self.glue.ending.ago_s / 60, 1)
        section, pieces = sheet.section, how_many(sheet)
        if ago_min >= LATE_MIN:
            self.head_text = say(
                "Section {section}: {pieces}, done {minutes:g} min ago.",
                section=section,
                pieces=pieces,
                minutes=ago_min,
            )
        else:
            self.head_text = say("Section {section}: {pieces}.", section=section, pieces=pieces)
        roomy = theme.text_scale <= 1.2 and self.glue.height >= dp(700)
        pedal = roomy and "done" in self.glue.desk.device.settings.keys
        self.pedal_text = " " + say("The pedal, held once more, says: all placed.") if pedal else ""

    def on_key(self, name: str) -> bool:
        if name == "a":
            self.glue.ending.close(0, None)
            return True
        if name == "l":
            self.glue.turn("left")
            return True
        return super().on_key(name)


class GlueLeft(GlueView):
    """Some are left: as counted, how many, or which."""

    counted_left = NumericProperty(0)
    counted_text = StringProperty("")

    def ask(self) -> None:
        sheet = self.glue.sheet
        self.counted_left = sheet.pieces - sheet.placed if sheet.counted else 0
        self.counted_text = say("{count}, as counted", count=self.counted_left)
        acts = self.ids.acts
        if (self.ids.counted.parent is not None) != (self.counted_left > 0):
            if self.counted_left > 0:
                acts.add_widget(self.ids.counted, index=len(acts.children))
            else:
                acts.remove_widget(self.ids.counted)


class GlueWhich(GlueView):
    """Tap the pieces that are left, on the picture; a second tap takes the mark off."""

    marked = ListProperty()
    use_text = StringProperty("")
    why_not = StringProperty("")

    def ask(self) -> None:
        job, sheet = self.glue.job, self.glue.sheet
        picture = self.ids.picture
        if picture.panel is not job.panel:
            picture.show(job.panel, job.store.readings)
        numbers = section_numbers(job)
        picture.divide(numbers, {n: job.life(n) for n in job.state.sections}, sheet.section)
        picture.next_number = 0  # no pointer: it would lie over the pieces to be tapped
        Clock.schedule_once(lambda _dt: picture.focus_on(sheet.section))  # once it has its room
        self._members = set(job.section(sheet.section).tesserae)
        self._set([])

    def pick(self, tessera: int) -> None:
        """Mark a piece of this section, or take its mark off."""
        if tessera not in self._members:
            return
        others = [t for t in self.marked if t != tessera]
        self._set(others if tessera in self.marked else [*others, tessera])

    def _set(self, marked: list[int]) -> None:
        self.marked = marked
        self.ids.picture.mark(marked)
        self.use_text = say_n("This one is left", "These {count} are left", len(marked))
        self.why_not = "" if marked else say("Tap the pieces")

    def use(self) -> None:
        """Go on to why, with the pieces marked."""
        self.glue.ending.leave(tuple(self.marked))


class GlueWhy(GlueView):
    """Why they were left decides what is learned."""

    def __init__(self, *, glue: Any, **kwargs: Any) -> None:
        super().__init__(glue=glue, **kwargs)
        from bench.screens.parts.acts import SideAct

        for k, (why, text) in enumerate(reasons()):
            act = SideAct(text=text, test_name=f"why_{k}")
            act.bind(on_act=lambda _act, why=why: self.glue.ending.close_left(why))
            self.ids.reasons.add_widget(act, index=1)  # before the way back
