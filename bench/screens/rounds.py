"""Round the bench: every place there is, and what lies there now, in words."""

from __future__ import annotations

from typing import Any

from kivy.uix.widget import Widget

from bench.job.job import Job
from bench.job.practice import FACTORS
from bench.job.words import book_lines
from bench.screens.parts.choice import short
from bench.screens.parts.numbers import minutes_text
from bench.screens.screen import Screen
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.screens.widgets import Card, Choice, Rows, Words
from bench.speech import said, say, say_n, temperature

ICONS = {
    "panel": "panel",
    "dry": "lay",
    "cup": "cup",
    "glueup": "glue",
    "finish": "grout",
    "book": "book",
    "open": "drawing",
    "setup": "setup",
    "workshop": "caution",
}
USUAL_MIN = 25.0  # a common working time


def places() -> tuple[tuple[str, str], ...]:
    """Return each place there is: the screen, and what it is called."""
    return (
        ("panel", say("Panel")),
        ("dry", say("Dry")),
        ("cup", say("Cup")),
        ("glueup", say("Glue-up")),
        ("finish", say("Finish")),
        ("book", say("Book")),
        ("open", say("Drawings")),
        ("setup", say("Setup")),
        ("workshop", say("Cautions")),
    )


class RoundsScreen(Screen):
    """Rows of places; a tap goes there."""

    def __init__(self, **kwargs: Any) -> None:
        self._rows: dict[str, Choice] = {}
        super().__init__(**kwargs)
        for place, name in places():
            row = Choice(text=name, icon=ICONS[place], terse=True, size_hint_y=1)
            row.size_hint_min_y, row.test_name = theme.target, f"to_{place}"
            row.bind(on_act=lambda _row, place=place: self.desk.go(place))
            self._rows[place] = row
            self.ids.places.add_widget(row)
        self._practice = Choice(icon="practice", terse=True, size_hint_y=1)
        self._practice.size_hint_min_y, self._practice.test_name = theme.target, "to_practice"
        self._practice.bind(on_act=lambda _row: self._practise())
        self.ids.places.add_widget(self._practice)
        self._places = self.ids.places.__self__
        self._speeds = Rows()
        self._speeds.add_widget(Card())
        teaches = say(
            "What each screen is for, what may be told, and when to look up. A made-up hand sets the pieces."
        )
        self._speeds.children[0].add_widget(Words(text=teaches))
        for factor in FACTORS:
            passes = minutes_text(60 * USUAL_MIN / factor)
            says = say("{minutes:g} minutes pass in {time}", minutes=USUAL_MIN, time=passes)
            row = Choice(text=say("{factor:g} times as fast", factor=factor), says=says, large=True, lines=2)
            row.test_name = f"practice_{factor:g}"
            row.bind(on_act=lambda _row, factor=factor: self._begin(factor))
            self._speeds.add_widget(row)
        self._speeds.add_widget(Widget())  # the rest of the screen

    def arrive(self) -> None:
        stack(self, [self._places])

    def step_back(self) -> bool:
        asked = self._speeds.parent is not None
        self.arrive()
        return asked

    def _practise(self) -> None:
        if self.desk.practice:
            self.desk.end_practice()
        else:
            stack(self, [self._speeds])

    def _begin(self, factor: float) -> None:
        self.soon(say("Making a panel ready to practise on"), lambda: self.desk.practise(factor))

    def on_size(self, _screen: object, size: tuple[float, float]) -> None:
        if self.ids:
            low = size[1] < 6 * theme.target  # then two abreast would be lower than a glove needs
            self._places.cols = 1 if size[0] < size[1] else 3 if low else 2

    def refresh(self) -> None:
        if self.desk.practice:
            self._practice.text, self._practice.says = say("End practice"), say("Back to the real panel")
        else:
            self._practice.text = say("Practice")
            self._practice.says = say("A glue-up on a fast clock, without a trace")
        for place, says in lies_there(self.job).items():
            self._rows[place].says = says

    def tick(self) -> None:
        self._rows["glueup"].says = _glue_up(self.job)


def lies_there(job: Job) -> dict[str, str]:
    """Say of each place what lies there now."""
    state = job.state
    set_now = len(state.with_stage("set"))
    hard = sum(job.life(s.number) == "hard" for s in state.with_stage("set"))
    sections = len(state.sections)
    newest = book_lines(job)[0]
    return {
        "panel": say(
            "{panel}: {set_now} of {count} sections set",
            panel=short(state.name, 30),
            set_now=set_now,
            count=sections,
        ),
        "dry": _dry(job),
        "cup": _cup(job),
        "glueup": _glue_up(job),
        "finish": say("{hard} of {count} sections are hard", hard=hard, count=sections),
        "book": short(newest.text, 50),
        "open": say("Another drawing or panel"),
        "workshop": say("Cutting board and glass; grout"),
        "setup": f"{said(job.product(state.bench.adhesive).name)}, {_warmth(state.bench.temperature_C)}",
    }


def _dry(job: Job) -> str:
    lying = [
        say_n("section {section}: {count} piece", "section {section}: {count} pieces", count, section=number)
        for number, count in ((s.number, s.piece_count) for s in job.state.with_stage("dry"))
    ]
    if not lying:
        return say("Nothing lies dry")
    return short(say("Lies dry: {sections}", sections=", ".join(lying)), 80)


def _cup(job: Job) -> str:
    at_cup = job.state.mix_at_cup
    if at_cup is None:
        return say("Nothing is being mixed")
    return say("Being made ready for section {section}", section=at_cup.section)


def _glue_up(job: Job) -> str:
    running = [(m.section, job.reading(m.number).left_to_work_s) for m in job.state.running_mixes]
    said = [say("Section {section}: {left} left", section=n, left=minutes_text(s)) for n, s in running]
    return ", ".join(said) if said else say("No mix runs")


def _warmth(celsius: float) -> str:
    return temperature(celsius, 0 if float(celsius).is_integer() else 1)
