"""What is laid is too much for one mix in this room: say so in numbers, and offer to split it now."""

from __future__ import annotations

from kivy.properties import StringProperty

from bench.job.acts import cup, dry, record
from bench.screens.atcup.room import sure_words
from bench.screens.atcup.step import CupStep
from bench.speech import plain_temperature, say, say_n


class CupSplit(CupStep):
    """A step from which the section may be split before anything is poured."""

    def split(self) -> None:
        """Put the cup away and part the section so that each part fits a mix in this room."""
        mix = self.desk.job.mix(self.desk.mix)
        done, _ = self.desk.attempt(cup.put_away, mix.number)
        if not done:
            return
        parted, _ = self.desk.attempt(
            dry.split, mix.section, temperature_C=mix.temperature_C, adhesive_C=mix.adhesive_C
        )
        if parted:
            self.desk.go("dry", section=mix.section)


class CupHot(CupSplit):
    """Split before anything is poured, or go on knowingly."""

    head_text = StringProperty("")
    sure_text = StringProperty("")
    time_text = StringProperty("")

    def refresh(self) -> None:
        job = self.desk.job
        shown = cup.sheet(job, self.desk.mix)
        self.section = shown.section
        pieces = job.section(shown.section).piece_count
        self.head_text = say(
            "Section {section} is too much for one mix at {room}",
            section=shown.section,
            room=plain_temperature(shown.temperature_C),
        )
        self.sure_text = sure_words(shown.in_time, job.state.bench.sure)
        self.time_text = say_n(
            "{count} piece lies dry, and there are {minutes} minutes to work. "
            "Split it now and each part gets a mix of its own; the pieces stay where they lie.",
            "{count} pieces lie dry, and there are {minutes} minutes to work. "
            "Split it now and each part gets a mix of its own; the pieces stay where they lie.",
            pieces,
            minutes=int(shown.working_time_s / 60),
        )

    def go_on(self) -> None:
        """Keep to one mix, knowing what it is likely to cost; the book keeps that it was known."""
        note = say(
            "Section {section}: one mix all the same. {sure}", section=self.section, sure=self.sure_text
        )
        kept, _ = self.desk.attempt(record.note, note)
        if kept:
            self.turn("knowing")
