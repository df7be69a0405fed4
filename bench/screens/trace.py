"""From a picture to a panel, a step at a time; each step is kept, so that the maker may leave and go on.

The screen holds the draft and the one picture that the step needs. It is left by 'Elsewhere' at any moment;
what was said until then is in the book.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any

from bench.drawing.panel import Panel
from bench.drawing.photo import Picture, read_picture
from bench.fault import Fault
from bench.job.drafts import Draft, Sizes, accept_draft, draft_of, drop_draft, file_of, keep_draft
from bench.job.faults import DraftUnreadable
from bench.job.settings import LAST_PANEL
from bench.screens.aside import Aside, Progress
from bench.screens.keys import Keyed
from bench.screens.parts.busy import BusyPart
from bench.screens.screen import Screen
from bench.screens.stack import stack
from bench.screens.tracing.step import Step
from bench.screens.tracing.ways import STEPS, path, step_or_first
from bench.speech import say


class TraceScreen(Keyed, Screen):
    """Hold the draft, keep it at each step, and show one step of it.

    picture: what the step needs, see `Step.needs`; only one is held at a time. size_mm: true width and
    height between the corners. raw_px: width and height of the picture as it was read. aside: long work.
    kept: what a step has worked out and another step of the same draft may need.
    """

    def __init__(self, **kwargs: Any) -> None:
        self.draft_id = 0
        self.draft = Draft(name="")
        self.aside = Aside()
        self.picture: Picture | None = None
        self.size_mm: Sizes = (None, None)
        self.raw_px = (0, 0)
        self.kept: Any = None
        self._holds: tuple[object, ...] = ()
        self._step: Step | None = None
        super().__init__(**kwargs)
        self._busy = BusyPart(aside=self.aside)
        self._busy.bind(on_stop=lambda _part: self._stop_reading())

    # -- coming and going --------------------------------------------------------------------------------

    def arrive(self) -> None:
        """Go on where the desk's draft was left; while a mix runs, go back to where one chooses."""
        draft_id = int(self.desk.draft)
        if not draft_id or self.job.state.running_mixes:
            self.desk.go("open")
            if draft_id:
                self.desk.may_open()
            return
        if draft_id == self.draft_id and self._step is not None:
            return
        handed, self.desk.handed = self.desk.handed, None
        self._forget()
        self.draft_id = draft_id
        try:
            self.draft = draft_of(self.job.store, draft_id)
        except DraftUnreadable as fault:
            self.draft = Draft(name=fault.name)
            self.desk.tell(fault)
        except Fault as fault:
            self._give_up(fault)
            return
        if handed is not None:
            self.picture, self._holds = handed, ("raw",)
        self.turn(step_or_first(self.draft.kind, self.draft.step))

    def _give_up(self, fault: Fault) -> None:
        self._forget()
        self.desk.draft = 0
        self.desk.go("open")
        self.desk.tell(fault)

    def _forget(self) -> None:
        """Let go of the draft at hand and of its picture; the book keeps it."""
        self._quit_step()
        self.picture, self._holds, self._step, self.draft_id = None, (), None, 0
        self.kept = None

    def _stop_reading(self) -> None:
        self._forget()
        self.desk.go("open")

    # -- the steps ---------------------------------------------------------------------------------------

    @property
    def steps(self) -> tuple[str, ...]:
        return path(self.draft.kind)

    def go_on(self) -> None:
        """Turn to the next step; the last one ends in `accept`."""
        steps = self.steps
        place = steps.index(self.draft.step) + 1
        if place < len(steps):
            self.turn(steps[place])

    def go_back(self) -> None:
        """Turn to the step before; before the first one lie the drawings."""
        place = self.steps.index(self.draft.step)
        if place:
            self.turn(self.steps[place - 1])
        else:
            self.desk.go("open")

    def turn(self, step: str) -> None:
        """Show a step, once the picture that it needs is at hand."""
        self._quit_step()
        self.change(step=step)
        module, _, class_name = STEPS[step].partition(":")
        kind = getattr(import_module(module), class_name)
        wanted = self._wanted(kind.needs)
        if wanted in ((), self._holds):
            self._show(kind)
        else:
            self._fetch(wanted, lambda: self._show(kind))

    def _quit_step(self) -> None:
        """Turn away from the step, and drop what runs for it."""
        if self._step is not None:
            for part in self._step.walk():
                if getattr(part, "focus", False):
                    part.focus = False  # off the screen it would go on listening to the keys
            self._step.leave()
        self.aside.drop()

    def _wanted(self, needs: str) -> tuple[object, ...]:
        """Name the picture that a step needs so that another one is told from it."""
        said = self.draft
        if said.kind == "empty":
            return ()
        about = (said.turned, said.lighten, said.corner_px, said.width_mm, said.height_mm)
        return {"": (), "raw": ("raw",), "ready": ("ready", *about)}[needs]

    def _fetch(self, wanted: tuple[object, ...], then: Any) -> None:
        """Read the picture anew, or square up the one at hand, on a thread; only one is ever held."""
        draft = self.draft
        raw = self.picture if self._holds == ("raw",) else None
        self.picture, self._holds, self._step = None, (), None
        try:
            data = None if raw is not None else file_of(self.job.store, self.draft_id)
        except Fault as fault:
            self._give_up(fault)
            return

        def work(_progress: Progress) -> tuple[Picture, Sizes, tuple[int, int]]:
            picture = read_picture(data or b"", draft.name) if raw is None else raw
            found = draft.ready(picture) if wanted[0] == "ready" else picture
            return found, draft.size_mm(picture), picture.pixels.shape[1::-1]

        def use(found: tuple[Picture, Sizes, tuple[int, int]]) -> None:
            (self.picture, self.size_mm, self.raw_px), self._holds = found, wanted
            then()

        words = say("Squaring up the picture …")
        if wanted[0] == "raw":
            words = say("Reading {name} …", name=draft.name)
        self.title = draft.title
        stack(self.ids.place, [self._busy])
        self.aside.begin(words, work, use, self._not_read)

    def _not_read(self, fault: Fault) -> None:
        """Tell what keeps the picture from being read or squared up, where that can be mended."""
        if self.draft.step in ("picture", "corners"):
            self._give_up(fault)
        else:
            self.turn("corners")
            self.desk.tell(fault)

    def _show(self, kind: type[Step]) -> None:
        self._step = kind(flow=self)
        self._step.arrive()
        self.title = f"{self.steps.index(self.draft.step) + 1}. {self._step.title}"
        stack(self.ids.place, [self._step])

    @property
    def shown_part(self) -> str:
        return self.draft.step if self._step is not None else ""

    # -- what the maker says -----------------------------------------------------------------------------

    def change(self, **update: Any) -> None:
        """Say something of the draft, and keep it in the book; what was kept before stays if that fails."""
        self.take(self.draft.changed(**update))

    def take(self, draft: Draft) -> None:
        """Have another draft in place of this one, and keep it."""
        self.draft = draft
        try:
            keep_draft(self.job.store, self.job.clock, self.draft_id, draft)
        except Fault as fault:
            self.desk.tell(fault)

    def drop(self) -> None:
        """Drop the draft; it can be brought back from the drawings until another is dropped."""
        try:
            self.desk.dropped = drop_draft(self.job.store, self.draft_id)
        except Fault as fault:
            self.desk.tell(fault)
            return
        self._forget()
        self.desk.draft = 0
        self.desk.go("open")

    def accept(self, panel: Panel) -> None:
        """Open what was found as a panel of the book; the draft is done with."""
        if self.busy or not self.desk.may_open():
            return
        self.soon(say("Dividing it into sections …"), lambda: self._accept(panel))

    def _accept(self, panel: Panel) -> None:
        try:
            job = accept_draft(self.job.store, self.job.clock, self.draft_id, panel)
        except Fault as fault:
            self.desk.tell(fault)
            return
        self.desk.keep_setting(LAST_PANEL, str(job.panel_id))
        self._forget()
        self.desk.draft = 0
        self.desk.take_job(job)

    def on_busy(self, _screen: object, busy: str) -> None:
        if busy:
            self.title = busy

    def on_key(self, name: str) -> bool:
        if name in ("enter", "numpadenter") and self._step is not None and not self.aside.busy:
            self._step.act_on_key()
            return True
        if name == "escape" and self._step is not None:
            self.go_back()
            return True
        return False
