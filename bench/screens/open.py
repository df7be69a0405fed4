"""Drawings: go on with a draft or a panel of the book, or open a drawing or a picture as a new one.

A drawing is first shown with what can be said about it, its width asked if the maker wishes; a picture goes
its own way, step by step. Reading is announced before it begins. While a mix runs no other panel is opened:
its clock would be out of sight.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

from kivy.properties import StringProperty

from bench.drawing.load import file_bytes, load_drawing
from bench.drawing.photo import read_picture
from bench.fault import Fault
from bench.job.acts.bringing import open_the_bundle
from bench.job.acts.opening import open_panel
from bench.job.drafts import begin_draft, begin_empty, bring_back, drafts
from bench.job.job import Job
from bench.job.settings import LAST_PANEL
from bench.resources import resource
from bench.screens import bringing, revising  # noqa: F401 - the kv file names their classes
from bench.screens.drawings import BUNDLES, DRAWN, PICTURES, folder_words, is_meant, name_words
from bench.screens.dropped import TakesFiles
from bench.screens.parts.choice import short
from bench.screens.parts.listing import Offer
from bench.screens.screen import Screen
from bench.screens.shelf import Shelf
from bench.speech import brief_date, clock_time, plain_length, say

LEAST_MM, MOST_MM = 10.0, 5000.0
MOST_NAME = 28  # signs of the panel's name on the act


def _left_at(at: datetime) -> str:
    day = brief_date(at)
    return say("On its way to a panel, left at {time} on {day}", time=clock_time(at), day=day)


def _named(path: Path) -> str:
    """Name a file's row: a drawing and the picture that it was made from may share their stem."""
    kinds = {**dict.fromkeys(PICTURES, "picture"), **dict.fromkeys(BUNDLES, "bundle")}
    return f"open_{kinds.get(path.suffix.lower(), 'file')}_{path.stem}"


class OpenScreen(TakesFiles, Screen):
    """Choose what to work on."""

    file_name = StringProperty("")
    file_says = StringProperty("")
    panel_name = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._path: Path | None = None
        self._width_mm: float | None = None
        super().__init__(**kwargs)
        self._listing = self.ids.listing.__self__
        self._parts = self.hold("file", "ask", "revise", "bring")
        self._shelf = Shelf(
            listing=self._listing,
            endings=BUNDLES + DRAWN + PICTURES,
            row=self._row,
            others=self._others,
            keeps=is_meant,
            rank=lambda path: path.suffix.lower() not in BUNDLES,
        )

    # -- what there is -----------------------------------------------------------------------------------

    def arrive(self) -> None:
        self.panel_name = short(self.job.state.name, MOST_NAME)
        self._parts["revise"].drop()
        self._shelf.offer()
        self._put(self._listing)

    def _drafts(self) -> list[Offer]:
        """Offer what was begun and left, and what was just dropped."""
        begun = [
            Offer(
                say("Go on with {name}", name=draft.name),
                _left_at(draft.changed_utc.astimezone()),
                f"draft_{draft.draft_id}",
                lambda draft=draft: self._go_on_with(draft.draft_id),
                icon="draw",
            )
            for draft in drafts(self.job.store)
        ]
        dropped = self.desk.dropped
        if dropped is not None:
            text, says = say("Bring back {name}", name=dropped.name), say("It was dropped just now")
            begun.append(Offer(text, says, "bring_back", self._bring_back, icon="undo"))
        return begun

    def _panels(self) -> list[Offer]:
        """Offer the panels of the book, the newest first, but for the one that is open."""
        panels = [p for p in self.job.store.panels() if p.panel_id != self.job.panel_id]
        return [
            Offer(
                panel.name,
                say("A panel of the book, opened {day}", day=brief_date(panel.created_utc.astimezone())),
                f"open_panel_{panel.panel_id}",
                lambda panel=panel: self._begin(
                    panel.name, lambda: self._take(lambda: self._go_back_to(panel.panel_id))
                ),
                icon="panel",
            )
            for panel in reversed(panels)
        ]

    def _demo(self) -> Offer:
        path = resource("assets", "demo", "lemons.svg")
        text, says = say("Bowl of lemons"), say("The demo")
        return Offer(text, says, "open_demo", lambda: self._show(path), icon="drawing")

    def _empty(self) -> Offer:
        says = say("Areas drawn by finger, and laid")
        return Offer(say("An empty panel"), says, "open_empty", self._begin_empty, icon="add")

    def _others(self, _count: int, _done: bool) -> list[Offer]:
        """Offer what is no file of the maker's."""
        return [*self._drafts(), *self._panels(), self._demo(), self._empty()]

    def _row(self, path: Path) -> Offer:
        """Offer a file."""
        if path.suffix.lower() in BUNDLES:
            name, icon = path.stem, "bundle"
            says = say("A panel in one file, {folder}", folder=folder_words(path))
        else:
            name, icon, says = path.name, "file", folder_words(path)
        return Offer(name_words(name), says, _named(path), lambda: self.take_file(path), icon=icon)

    def take_file(self, path: Path) -> None:
        """Begin with a file: bring in a bundle, make a draft of a picture, show a drawing."""
        ending = path.suffix.lower()
        if ending in BUNDLES:
            self._begin(path.name, lambda: self._bring(path))
        elif ending in PICTURES:
            self._begin(path.name, lambda: self._begin_draft(path))
        else:
            self._show(path)

    def _bring(self, path: Path) -> None:
        """Bring in what a bundle holds, and say what came of it before turning to it."""
        done, brought = self.desk.attempt(lambda job: open_the_bundle(job.store, job.clock, path))
        if done:
            self._parts["bring"].show(brought)
            self._put(self._parts["bring"])

    # -- one file ----------------------------------------------------------------------------------------

    def _show(self, path: Path) -> None:
        self._path, self._width_mm = path, None
        self._say()
        self._put(self._parts["file"])

    def _say(self) -> None:
        assert self._path is not None
        self.file_name = name_words(self._path.name)
        if self._width_mm is None:
            width = say("Width: as the drawing has it")
        else:
            width = say("Width: {width}", width=plain_length(self._width_mm))
        self.file_says = f"{folder_words(self._path)}\n{width}"

    def ask_width(self) -> None:
        title = say("Width of the panel")
        self._parts["ask"].ask_length(title, self._set_width, least_mm=LEAST_MM, most_mm=MOST_MM)
        self._put(self._parts["ask"])

    def _set_width(self, width_mm: float) -> None:
        self._width_mm = width_mm
        self._say()

    def show_file(self) -> None:
        """Look at the file again."""
        self._put(self._parts["file"])

    def leave_file(self) -> None:
        self._put(self._listing)

    def open_file(self) -> None:
        """Read the file and divide it; whatever is wrong with it is told by the card."""
        assert self._path is not None
        self._begin(self._path.name, lambda: self._take(self._open))

    def lay_over(self) -> None:
        """Lay the file over the panel that is open; the difference is shown before anything is kept."""
        path, part = self._path, self._parts["revise"]
        if path is not None and not self.busy and not self.desk.only_practises():
            words = say("Laying {name} over the panel …", name=path.name)
            self.soon(words, lambda: part.lay(path) and self._put(part))

    def _put(self, part: Any) -> None:
        place = self.ids.place
        if place.children != [part]:
            place.clear_widgets()
            place.add_widget(part)

    def step_back(self) -> bool:
        chosen = self._listing.parent is None
        self.leave_file()
        return chosen

    # -- opening -----------------------------------------------------------------------------------------

    def _begin(self, name: str, act: Callable[[], object]) -> None:
        if not self.busy and self.desk.may_open():
            self.soon(say("Reading {name} …", name=name), act)

    def _take(self, act: Callable[[], Job]) -> None:
        try:
            job = act()
        except Fault as fault:
            self.desk.tell(fault)
            return
        self.desk.keep_setting(LAST_PANEL, str(job.panel_id))
        self.desk.take_job(job)

    def _begin_draft(self, path: Path) -> None:
        """Read a picture, keep it as a draft, and turn to its first step; a bad one leaves no draft."""
        try:
            data = file_bytes(path)
            picture = read_picture(data, path.name)
            draft_id = begin_draft(self.job.store, self.job.clock, path.name, data)
        except Fault as fault:
            self.desk.tell(fault)
            return
        self.desk.handed = picture
        self.desk.go("trace", draft=draft_id)

    def _begin_empty(self) -> None:
        """Keep a draft without a picture, and turn to its first step."""
        if self.busy or not self.desk.may_open():
            return
        done, draft_id = self.desk.attempt(lambda job: begin_empty(job.store, job.clock))
        if done:
            self.desk.go("trace", draft=draft_id)

    def _go_on_with(self, draft_id: int) -> None:
        if self.desk.may_open():
            self.desk.go("trace", draft=draft_id)

    def _bring_back(self) -> None:
        done, _ = self.desk.attempt(lambda job: bring_back(job.store, job.clock, self.desk.dropped))
        if done:
            self.desk.dropped = None
            self.arrive()

    def _go_back_to(self, panel_id: int) -> Job:
        return Job(self.job.store, self.job.clock, panel_id)

    def _open(self) -> Job:
        assert self._path is not None
        data, panel = load_drawing(self._path, width_mm=self._width_mm)
        name, width_mm = self._path.name, self._width_mm
        return open_panel(self.job.store, self.job.clock, data, name, width_mm=width_mm, panel=panel)
