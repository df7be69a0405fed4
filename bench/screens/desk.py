"""What all screens share: the job, where one is, what went wrong, and the time that passes.

Screens read `desk.job` and call acts through `desk.attempt`; a mistake becomes a card on the screen, never
a crash and never a dialog. `version` counts up whenever the book has changed: screens follow it. `now_s`
moves twice a second while the app runs, for what depends on the clock.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import date
from typing import TYPE_CHECKING, Any

from kivy.clock import Clock
from kivy.event import EventDispatcher
from kivy.properties import BooleanProperty, ListProperty, NumericProperty, OptionProperty, StringProperty

from bench.book import MARK_EVERY_S, Copy, Device, Store, back_up
from bench.book.faults import OnlyReading
from bench.fault import Fault
from bench.job.acts import backups, opening
from bench.job.away import AWAY_DAYS, away_days
from bench.job.faults import WrongOrder
from bench.job.job import Job
from bench.job.planning import plan_ground
from bench.job.settings import FIRST_RUN, OF_DRAWING, OPEN_DRAFT, OWED
from bench.speech import say, speak

if TYPE_CHECKING:
    from bench.drawing.photo import Picture
    from bench.job.drafts import Dropped
    from bench.job.practice import PlayingHand

SCREENS = (
    "panel",
    "dry",
    "photograph",
    "edge",
    "cup",
    "glueup",
    "finish",
    "grouting",
    "seeing",
    "tile",
    "book",
    "open",
    "trace",
    "setup",
    "label",
    "workshop",
    "rounds",
    "stock",
    "tablet",
    "card",
    "first",
)
TICK_S = 0.5


def _is_kept(store: Store, draft: str) -> bool:
    from bench.job.drafts import drafts  # a start without a draft need not know what they are made of

    return draft in {str(kept.draft_id) for kept in drafts(store)}


class MixRuns(Fault):
    def __init__(self) -> None:
        super().__init__(
            say("a mix runs, and its clock must stay in sight"), todo=say("say done first, then practise")
        )


class Desk(EventDispatcher):
    """Hold the open panel for the screens.

    section, mix: what Dry, Cup and Glue-up are about. dividing: a division is being worked out.
    practice: the book lives in memory only. fault_*: the last mistake, in its three parts, "" for none.
    draft: the draft that is worked on, 0 for none; handed: its picture where it was just read, taken by
    whoever turns to it; dropped: the draft dropped last, which can be brought back. device: what is true of
    this machine, whichever panel is open. came_from: the screen before this one.
    news: what is told until it was read, whatever is done meanwhile. reading_because: why nothing can be
    written, "" where all can. spoken counts up when another language or unit is spoken.
    """

    screen = OptionProperty("panel", options=SCREENS)
    section = NumericProperty(0)
    mix = NumericProperty(0)
    draft = NumericProperty(0)
    version = NumericProperty(0)
    now_s = NumericProperty(0.0)
    dividing = BooleanProperty(False)
    practice = BooleanProperty(False)
    fault_what = StringProperty("")
    fault_where = StringProperty("")
    fault_todo = StringProperty("")
    news = ListProperty()
    reading_because = StringProperty("")
    spoken = NumericProperty(0)

    def __init__(
        self, job: Job, *, device: Device | None = None, hand: PlayingHand | None = None, **kwargs: Any
    ) -> None:
        self.job = job
        self._hand = hand  # sets the pieces in practice
        self.device = device or Device()
        self.came_from = "panel"
        self.handed: Picture | None = None
        self.dropped: Dropped | None = None
        self._real: Job | None = None  # waits while its maker practises
        self._marked_s = 0.0
        self._backed_up: date | None = None
        super().__init__(reading_because=job.store.reading_because, **kwargs)

    # -- acts ----------------------------------------------------------------------------------------

    def attempt(self, act: Callable[..., Any], *args: Any, **kwargs: Any) -> tuple[bool, Any]:
        """Do one act on the job; return whether it was done, and what it returned.

        A fault is told by the card and changes nothing; the card goes with the next act that works.
        """
        try:
            result = act(self.job, *args, **kwargs)
        except Fault as fault:
            self.tell(fault)
            return False, None
        self.clear_fault()
        self.version += 1
        return True, result

    def tell(self, fault: Fault) -> None:
        """Show a mistake as a card."""
        self.fault_what, self.fault_where, self.fault_todo = fault.what, fault.where, fault.todo

    def clear_fault(self) -> None:
        self.fault_what = self.fault_where = self.fault_todo = ""

    def read_news(self) -> None:
        """Put the news away that was read."""
        self.news = self.news[1:]

    def keep_setting(self, key: str, value: str) -> None:
        """Keep a setting; where the book is only read it holds until the app ends."""
        try:
            self.job.store.set_setting(key, value)
        except OnlyReading:
            pass
        except Fault as fault:
            self.tell(fault)

    def speak(self, **how: object) -> None:
        """Speak otherwise from now on, and keep it: the fields of the machine's settings. Shown at once."""
        try:
            self.device.change(**how)
        except Fault as fault:
            self.tell(fault)
        speak(self.device.tongue())
        self.spoken += 1

    def put_back(self, copy: Copy) -> None:
        """Put a copy in the place of the book, and turn to its panel."""
        try:
            job, told = backups.put_back(self.job, copy)
        except Fault as fault:
            self.tell(fault)
            return
        self.take_job(job)
        self.news = [*self.news, told]

    def may_open(self) -> bool:
        """Tell whether another panel may be opened; while a mix runs it may not, and the card says so."""
        if not self.job.state.running_mixes:
            return True
        self.tell(WrongOrder(say("a mix runs on this panel"), say("close its glue-up first")))
        return False

    def go(
        self, screen: str, *, section: int | None = None, mix: int | None = None, draft: int | None = None
    ) -> None:
        """Turn to a screen, for a section, a mix or a draft where it is about one."""
        if section is not None:
            self.section = section
        if mix is not None:
            self.mix = mix
        if draft is not None:
            self.draft = draft
        self.clear_fault()
        if screen != self.screen:
            self.came_from = self.screen
        self.screen = screen

    def take_job(self, job: Job) -> None:
        """Work on another panel from now on, and turn to it."""
        self.hold_job(job)
        self.go("panel")
        self.come_back()

    def hold_job(self, job: Job) -> None:
        """Work on another panel from now on, or on the same one as it has become."""
        self.job = job
        self.section = self.mix = 0
        self.version += 1

    def open_where_it_was(self) -> None:
        """Turn to what was in hand: a mix that runs, what was never asked yet, or a draft on its way."""
        store, running = self.job.store, self.job.state.running_mixes
        draft = store.setting(OPEN_DRAFT) or ""
        if running:
            newest = min(running, key=lambda m: self.job.reading(m.number).left_s)
            self.go("glueup", mix=newest.number)
        elif store.setting(FIRST_RUN) in (OWED, OF_DRAWING):
            self.go("first")
        elif draft and _is_kept(store, draft):
            self.go("trace", draft=int(draft))
        else:
            self.come_back()

    # -- practice ------------------------------------------------------------------------------------

    def practise(self, factor: float = 10.0) -> None:
        """Turn to the same drawing on a book in memory, a fast clock and a made-up hand; the real job waits.

        Refused while a mix runs, since its clock would go out of sight.
        """
        if self.practice:
            return
        if self.job.state.running_mixes:
            self.tell(MixRuns())
            return
        try:
            from bench.job.practice import PlayingHand, practice_of

            job = practice_of(self.job, factor=factor)
        except Fault as fault:
            self.tell(fault)
            return
        self._real, self._hand = self.job, PlayingHand()
        self._change_to(job, practice=True)

    def end_practice(self) -> None:
        """Go back to the real job; the practice book is gone with all that was in it."""
        if self._real is None:
            return
        real, self._real, self._hand = self._real, None, None
        self.job.store.close()
        self._change_to(real, practice=False)

    def _change_to(self, job: Job, *, practice: bool) -> None:
        self.dividing = False
        self.job = job
        self.section = self.mix = self.draft = 0
        self.handed = self.dropped = None
        self.screen = "panel"
        self.clear_fault()
        self.practice = practice
        self.version += 1

    # -- dividing anew, beside the screens --------------------------------------------------------------

    def divide_anew(self) -> None:
        """Divide all bare ground again with what was just learned.

        The figures are read here, the search runs on a thread of its own, and the result comes back
        between two frames; it is dropped if the book has moved on meanwhile.
        """
        self._divide(lambda job, plan, newest: opening.keep_plan(
            job, plan, why=opening.AFTER_GLUE_UP, newest_act=newest
        ))

    def come_back(self) -> None:
        """After weeks away divide all bare ground again: the hands are less sure, and sections smaller."""
        if away_days(self.job) >= AWAY_DAYS and not self.job.state.running_mixes:
            self._divide(lambda job, plan, newest: opening.keep_after_away(job, plan, newest_act=newest))

    def _divide(self, keep: Callable[[Job, Any, str], object]) -> None:
        job = self.job
        work = opening.prepare_division(job)
        if work is None:
            return
        newest_act = job.state.act_ids[-1]
        self.dividing = True

        def search() -> None:
            plan, fault = None, None
            try:
                plan = plan_ground(work.sizer, **work.ground)
            except Fault as found:
                fault = found
            Clock.schedule_once(lambda _dt: self._back(job, plan, newest_act, fault, keep))

        threading.Thread(target=search, name="dividing", daemon=True).start()

    def _back(
        self,
        job: Job,
        plan: Any,
        newest_act: str,
        fault: Fault | None,
        keep: Callable[[Job, Any, str], object],
    ) -> None:
        if job is not self.job:
            return  # another panel is on the desk: what was found is dropped
        self.dividing = False
        if fault is not None:
            self.tell(fault)
        elif plan is not None:
            try:
                keep(job, plan, newest_act)
            except Fault as found:
                self.tell(found)
            self.version += 1

    # -- time ----------------------------------------------------------------------------------------

    def tick(self, dt_s: float) -> None:
        """Follow the clock, and the other program where the book is only read; each quarter of a minute
        note every running countdown down, and see whether the backup of the day is made.
        """
        self.now_s += dt_s
        if self._hand is not None and self._hand.follow(self.job):
            self.version += 1
        if self.job.store.read_only:
            self._follow()
        elif self.now_s - self._marked_s >= MARK_EVERY_S:
            self.remark()
            self._back_up()

    def _follow(self) -> None:
        try:
            if self.job.follow():
                self.version += 1
        except Fault as fault:
            self.tell(fault)

    def remark(self) -> None:
        self._marked_s = self.now_s
        if self.job.store.read_only:
            return
        try:
            self.job.remark()
        except Fault as fault:
            self.tell(fault)

    def _back_up(self) -> None:
        """Try it once a day, and not while somebody has pieces in a bed."""
        today = self.job.clock.utc().astimezone().date()
        if self._backed_up != today and not self.job.state.running_mixes:
            self._backed_up = today
            self.news = [*self.news, *back_up(self.job.store, self.job.clock)]
