"""The first run: what to make, with which adhesive, how many pieces a minute; then the panel.

Three questions and no more; the demo is one tap away from the first. Nothing is written before the last is
answered, so that closing the app in between only asks again. How pieces go over to the panel is asked at Dry,
when the first section is laid.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, StringProperty

from bench.adhesive.product_file import find_product, shipped_products
from bench.book.events import BenchSet
from bench.drawing.load import file_bytes, load_drawing
from bench.drawing.photo import read_picture
from bench.fault import Fault
from bench.job.acts import opening
from bench.job.drafts import begin_draft, begin_empty, draft_of, keep_draft
from bench.job.job import Job
from bench.job.settings import FIRST_RUN, LAST_PANEL, OF_DRAWING, OWED, TRANSFER_OWED, USUAL_BENCH
from bench.screens.drawings import DRAWN, PICTURES, folder_words, name_words
from bench.screens.open import LEAST_MM, MOST_MM
from bench.screens.parts.numbers import minutes_text
from bench.screens.parts.paged import Offer
from bench.screens.screen import Screen
from bench.screens.shelf import Shelf
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import said, say

QUESTIONS = ("what", "adhesive", "pace")
TIMED_PIECES = 10
LOW = 7  # targets in height, below which the question takes one line
LEAST_PACE, MOST_PACE = 0.2, 60.0


class FirstScreen(Screen):
    """Ask one question at a time; `step` is the part that is shown."""

    step = StringProperty("")
    head = StringProperty("")
    says = StringProperty("")
    count = StringProperty("")  # which question it is
    time_text = StringProperty("0:00")
    time_act = StringProperty("")
    too_soon = BooleanProperty(False)  # nobody lays ten so fast: a second touch was a slip
    low = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self._make: Callable[[BenchSet], object] = self._take_drawing
        self._adhesive = BenchSet().adhesive
        self._began_s: float | None = None
        self._size_mm: list[float] = []
        self._asked_from = "what"  # the question that the pad belongs to
        super().__init__(**kwargs)
        self._parts = self.hold("what", "adhesive", "pace", "time", "ask")
        endings, what = DRAWN + PICTURES, self._parts["what"]
        self._shelf = Shelf(listing=what, endings=endings, row=self._row, others=self._others)
        self._head, self._place = self.ids.head.__self__, self.ids.place.__self__
        self.bare = True

    def on_size(self, *_: object) -> None:
        self.low = self.height < LOW * theme.target

    # -- coming and going --------------------------------------------------------------------------------

    def arrive(self) -> None:
        """Ask from the start; with a drawing that was opened the first question is answered."""
        self._of_drawing = self.job.store.setting(FIRST_RUN) == OF_DRAWING
        self.turn("adhesive" if self._of_drawing else "what")

    def turn(self, step: str) -> None:
        """Show a part."""
        self.step, self._began_s, self.too_soon = step, None, False
        if step in QUESTIONS:
            asked = QUESTIONS[1:] if self._of_drawing else QUESTIONS
            self.says = self.count = say("{part} of {whole}", part=asked.index(step) + 1, whole=len(asked))
            getattr(self, f"_ask_{step}")()
        elif step == "time":
            self.head, self.time_text, self.time_act = say("Lay ten pieces dry"), "0:00", say("Start")
        stack(self._place, [self._parts[step]])
        stack(self, [*([] if step == "ask" else [self._head]), self._place])  # the pad has a head

    def step_back(self) -> bool:
        """Go back a question; from the first one nowhere."""
        before = {"adhesive": "what", "pace": "adhesive", "time": "pace", "ask": self._asked_from}
        to = before.get(self.step, self.step)
        self.turn("adhesive" if to == "what" and self._of_drawing else to)
        return True

    # -- what to make ------------------------------------------------------------------------------------

    def _ask_what(self) -> None:
        self.head = say("What will you make?")
        self._shelf.offer()

    def _others(self, _count: int, _done: bool) -> list[Offer]:
        bowl = say("A bowl of lemons, to try everything on")
        demo = Offer(say("Look at the demo"), bowl, "first_demo", self.look, icon="drawing")
        size = say("Type its size, then draw on it")
        empty = Offer(say("A new panel"), size, "first_size", self._ask_size, icon="add")
        return [demo, empty]

    def _row(self, p: Path) -> Offer:
        take = partial(self._take_file, p)
        return Offer(name_words(p.name), folder_words(p), f"first_{p.stem}", take, icon="file")

    def look(self) -> None:
        """Look at the demo, with nothing asked."""
        self._done()
        self.desk.go("panel")

    def _ask_size(self) -> None:
        self._size_mm = []
        self._ask_side(say("Width of the panel"))

    def _ask_side(self, title: str) -> None:
        ask = self._parts["ask"]
        ask.ask_length(title, self._take_side, least_mm=LEAST_MM, most_mm=MOST_MM)
        self.head, self._asked_from = say("What will you make?"), "what"
        self.turn("ask")

    def _take_side(self, side_mm: float) -> None:
        self._size_mm.append(side_mm)
        if len(self._size_mm) < 2:
            self._ask_side(say("Height of the panel"))
        else:
            self._make = self._begin_empty
            self.turn("adhesive")

    def _take_file(self, path: Path) -> None:
        if path.suffix.lower() in PICTURES:
            self._make = lambda bench: self._begin_picture(path, bench)
        else:
            self._make = lambda bench: self._open(path, bench)
        self.turn("adhesive")

    # -- adhesive and pace -------------------------------------------------------------------------------

    def _ask_adhesive(self) -> None:
        self.head = say("Which adhesive?")
        typical = say("These are typical ones; your own label is read out later, under Setup.")
        self.says = f"{self.count}. {typical}"
        offers = [self._adhesive_offer(name) for name in shipped_products()]
        self.ids.adhesives.offer(offers)

    def _adhesive_offer(self, name: str) -> Offer:
        product = find_product(name)
        says = say("{minutes:g} min to work", minutes=product.working_time.minutes)
        return Offer(said(product.name), says, f"first_{name}", lambda: self._take_adhesive(name))

    def _take_adhesive(self, name: str) -> None:
        self._adhesive = name
        self.turn("pace")

    def _ask_pace(self) -> None:
        self.head = say("How many pieces do you set in a minute?")
        five = say("Begin with five; the book learns yours")
        rows = (
            ("first_time", say("Time me"), say("Lay ten pieces dry against a stopwatch"), self.time_pace),
            ("first_type", say("I know it"), say("Type it"), self.type_pace),
            ("first_unknown", say("I do not know"), five, self.finish),
        )
        self.ids.paces.offer([Offer(text, says, name, act) for name, text, says, act in rows])

    def time_pace(self) -> None:
        """Lay ten pieces against the stopwatch."""
        self.turn("time")

    def type_pace(self) -> None:
        """Type the pace."""
        ask = self._parts["ask"]
        ask.ask(
            say("Medium pieces in a minute"),
            self.finish,
            unit=say("a minute"),
            decimals=1,
            least=LEAST_PACE,
            most=MOST_PACE,
        )
        self._asked_from = "pace"
        self.turn("ask")

    def press_watch(self) -> None:
        """Start the stopwatch, or take over what it shows."""
        if self._began_s is None:
            self._began_s, self.time_act = Clock.time(), say("Ten are laid")
            self.too_soon = True
            return
        spent_s = max(Clock.time() - self._began_s, 1.0)
        self.finish(min(max(60.0 * TIMED_PIECES / spent_s, LEAST_PACE), MOST_PACE))

    def tick(self) -> None:
        if self._began_s is not None:
            spent_s = Clock.time() - self._began_s
            self.time_text = minutes_text(spent_s)
            self.too_soon = spent_s < 60 * TIMED_PIECES / MOST_PACE

    # -- the panel ---------------------------------------------------------------------------------------

    def finish(self, pace_per_min: float | None = None) -> None:
        """All is answered: open what was asked for. What is wrong with it is told, and asked again."""
        pace = None if pace_per_min is None else round(pace_per_min, 2)
        bench = BenchSet(adhesive=self._adhesive, pace_per_min=pace)
        if not self.busy:
            self.soon(say("Dividing it into sections …"), lambda: self._finish(bench))

    def _finish(self, bench: BenchSet) -> None:
        try:
            self._make(bench)
        except Fault as fault:
            self.turn("adhesive" if self._of_drawing else "what")
            self.desk.tell(fault)

    def _done(self) -> None:
        self.job.store.set_setting(FIRST_RUN, "")
        self.job.store.set_setting(TRANSFER_OWED, OWED)

    def _take_drawing(self, bench: BenchSet) -> None:
        """Work the panel that is open so."""
        update = {"adhesive": bench.adhesive, "pace_per_min": bench.pace_per_min}
        opening.set_bench(self.job, self.job.state.bench.model_copy(update=update))
        self._done()
        self.desk.version += 1
        self.desk.go("panel")

    def _open(self, path: Path, bench: BenchSet) -> None:
        data, panel = load_drawing(path)
        store, clock = self.job.store, self.job.clock
        self._take(opening.open_panel(store, clock, data, path.name, bench=bench, panel=panel))

    def _take(self, job: Job) -> None:
        job.store.set_setting(LAST_PANEL, str(job.panel_id))
        self._done()
        self.desk.take_job(job)

    def _begin_picture(self, path: Path, bench: BenchSet) -> None:
        data = file_bytes(path)
        picture = read_picture(data, path.name)
        draft_id = begin_draft(self.job.store, self.job.clock, path.name, data)
        self.desk.handed = picture
        self._go_on_with(draft_id, bench)

    def _begin_empty(self, bench: BenchSet) -> None:
        store, clock = self.job.store, self.job.clock
        width_mm, height_mm = self._size_mm
        with store.together():
            draft_id = begin_empty(store, clock)
            draft = draft_of(store, draft_id).changed(width_mm=width_mm, height_mm=height_mm)
            keep_draft(store, clock, draft_id, draft)
        self._go_on_with(draft_id, bench)

    def _go_on_with(self, draft_id: int, bench: BenchSet) -> None:
        self.job.store.set_setting(USUAL_BENCH, bench.model_dump_json(exclude={"products"}))
        self._done()
        self.desk.go("trace", draft=draft_id)
