"""Round the bench: every place there is, and what lies there now, in words."""

from __future__ import annotations

from typing import Any

from bench.job.job import Job
from bench.job.practice import FACTORS
from bench.job.words import book_lines
from bench.screens.parts.choice import short
from bench.screens.parts.numbers import minutes_text
from bench.screens.screen import Screen
from bench.screens.stack import stack
from bench.screens.widgets import Card, Choice, Rows, Words

USUAL_MIN = 25.0  # a common working time
TEACHES = "What each screen is for, what may be told, and when to look up. A made-up hand sets the pieces."

PLACES = (
    ("panel", "Panel"),
    ("dry", "Dry"),
    ("cup", "Cup"),
    ("glueup", "Glue-up"),
    ("finish", "Finish"),
    ("book", "Book"),
    ("open", "Drawings"),
    ("setup", "Setup"),
    ("workshop", "Cautions"),
)


class RoundsScreen(Screen):
    """Rows of places; a tap goes there."""

    def __init__(self, **kwargs: Any) -> None:
        self._rows: dict[str, Choice] = {}
        super().__init__(**kwargs)
        for place, name in PLACES:
            row = Choice(text=name, size_hint_y=1, test_name=f"to_{place}")
            row.bind(on_act=lambda _row, place=place: self.desk.go(place))
            self._rows[place] = row
            self.ids.places.add_widget(row)
        self._practice = Choice(size_hint_y=1, test_name="to_practice")
        self._practice.bind(on_act=lambda _row: self._practise())
        self.ids.places.add_widget(self._practice)
        self._places = self.ids.places.__self__
        self._speeds = Rows()
        self._speeds.add_widget(Card())
        self._speeds.children[0].add_widget(Words(text=TEACHES, kind="small"))
        for factor in FACTORS:
            says = f"{USUAL_MIN:g} minutes pass in {minutes_text(60 * USUAL_MIN / factor)}"
            row = Choice(text=f"{factor:g} times as fast", says=says, size_hint_y=1)
            row.test_name = f"practice_{factor:g}"
            row.bind(on_act=lambda _row, factor=factor: self._begin(factor))
            self._speeds.add_widget(row)

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
        self.soon("Making a panel ready to practise on", lambda: self.desk.practise(factor))

    def on_size(self, _screen: object, size: tuple[float, float]) -> None:
        if self.ids:
            self._places.cols = 2 if size[0] >= size[1] else 1

    def refresh(self) -> None:
        self._practice.text = "End practice" if self.desk.practice else "Practice"
        self._practice.says = (
            "Back to the real panel" if self.desk.practice else "A glue-up on a fast clock, without a trace"
        )
        for place, says in lies_there(self.job).items():
            self._rows[place].says = says

    def tick(self) -> None:
        self._rows["glueup"].says = _glue_up(self.job)


def lies_there(job: Job) -> dict[str, str]:
    """Say of each place what lies there now."""
    state = job.state
    set_now = len(state.with_stage("set"))
    hard = sum(job.life(s.number) == "hard" for s in state.with_stage("set"))
    dry = [f"section {s.number}: {s.piece_count} pieces" for s in state.with_stage("dry")]
    at_cup = state.mix_at_cup
    newest = book_lines(job)[0]
    return {
        "panel": f"{short(state.name, 30)}: {set_now} of {len(state.sections)} sections set",
        "dry": short(f"Lies dry: {', '.join(dry)}", 80) if dry else "Nothing lies dry",
        "cup": f"Being made ready for section {at_cup.section}" if at_cup else "Nothing is being mixed",
        "glueup": _glue_up(job),
        "finish": f"{hard} of {len(state.sections)} sections are hard",
        "book": short(newest.text, 50),
        "open": "Another drawing or panel",
        "workshop": "Cutting board and glass; grout",
        "setup": f"{job.product(state.bench.adhesive).name}, {state.bench.temperature_C:g} °C",
    }


def _glue_up(job: Job) -> str:
    running = [(m.section, job.reading(m.number).left_to_work_s) for m in job.state.running_mixes]
    said = [f"Section {section}: {minutes_text(left_s)} left" for section, left_s in running]
    return ", ".join(said) if said else "No mix runs"
