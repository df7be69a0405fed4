"""What all screens share: the job, where one is, what went wrong, and the time that passes.

Screens read `desk.job` and call acts through `desk.attempt`; a mistake becomes a card on the screen, never
a crash and never a dialog. `version` counts up whenever the book has changed: screens follow it. `now_s`
moves twice a second while the app runs, for what depends on the clock.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from kivy.event import EventDispatcher
from kivy.properties import BooleanProperty, ListProperty, NumericProperty, OptionProperty, StringProperty

from bench.book import Copy, Device, Store
from bench.book.faults import OnlyReading
from bench.fault import Fault
from bench.job.absence import away_mark, is_back
from bench.job.acts import backups
from bench.job.faults import WrongOrder
from bench.job.job import Job
from bench.job.settings import FIRST_RUN, OF_DRAWING, OPEN_DRAFT, OWED
from bench.screens.keeping import Keeping
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
        self._came_back = ""  # the mark of the absence after which it was divided anew
        self.device = device or Device()
        self.came_from = "panel"
        self.handed: Picture | None = None
        self.dropped: Dropped | None = None
        self._real: Job | None = None  # waits while its maker practises
        self._keeping = Keeping(self)
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
        if self.only_practises():
            return False
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
        """Turn to what was in hand: a mix that runs, what was never asked, the cup, or a draft on its way."""
        store, running = self.job.store, self.job.state.running_mixes
        draft = store.setting(OPEN_DRAFT) or ""
        if running:
            newest = min(running, key=lambda m: self.job.reading(m.number).left_s)
            self.go("glueup", mix=newest.number)
        elif store.setting(FIRST_RUN) in (OWED, OF_DRAWING):
            self.go("first")
        elif (at_cup := self.job.state.mix_at_cup) is not None and not is_back(self.job):
            self.go("cup", section=at_cup.section, mix=at_cup.number)
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

    def only_practises(self) -> bool:
        """Tell whether a drawing taken up now would be gone at the end of practice; then the card says so."""
        if self.practice:
            self.tell(WrongOrder(say("practice leaves no trace, and no drawing"), say("end practice first")))
        return self.practice

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

        It takes a while and is done beside the screens; what is found is dropped if the book has moved on
        meanwhile.
        """
        from bench.screens.dividing import after_glue_up  # a start divides nothing

        after_glue_up(self)

    def come_back(self) -> bool:
        """After weeks away have smaller sections, once; tell whether the card of this is still to be read."""
        if not is_back(self.job):
            return False
        from bench.screens.dividing import after_away

        mark = away_mark(self.job)
        if mark != self._came_back:
            self._came_back = mark
            after_away(self)
        return self.job.store.setting(mark) is None

    # -- time ----------------------------------------------------------------------------------------

    def tick(self, dt_s: float) -> None:
        """Follow the clock, and keep what must not be lost while it goes on."""
        self.now_s += dt_s
        if self._hand is not None and self._hand.follow(self.job):
            self.version += 1
        self._keeping.tick()

    def remark(self) -> None:
        """Note every running countdown down."""
        self._keeping.remark()
