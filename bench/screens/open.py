"""Drawings: go on with a panel of the book, or open a drawing as a new one.

A file is first shown with what can be said about it, its width asked if the maker wishes; reading it is
announced before it begins. While a mix runs no other panel is opened: its clock would be out of sight.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kivy.properties import NumericProperty, StringProperty
from kivy.uix.widget import Widget

from bench.drawing import load_drawing
from bench.fault import Fault
from bench.job.acts.opening import open_panel
from bench.job.faults import WrongOrder
from bench.job.job import Job
from bench.job.settings import LAST_PANEL
from bench.resources import resource
from bench.screens import revising  # noqa: F401 - the kv file names its class
from bench.screens.drawings import drawing_files, usual_folders
from bench.screens.parts.choice import short
from bench.screens.parts.pages import pages_of
from bench.screens.screen import Screen
from bench.screens.theme import theme
from bench.screens.widgets import Choice

LEAST_MM, MOST_MM = 10.0, 5000.0
MOST_NAME = 28  # signs of the panel's name on the act


@dataclass(frozen=True)
class Offer:
    """One row: what it is called, a line about it, its test_name, and what a tap does."""

    text: str
    says: str
    test_name: str
    act: Callable[[], object]


class OpenScreen(Screen):
    """Choose what to work on."""

    page = NumericProperty(0)
    last_page = NumericProperty(0)
    page_text = StringProperty("")
    file_name = StringProperty("")
    file_says = StringProperty("")
    panel_name = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._offers: list[Offer] = []
        self._path: Path | None = None
        self._width_mm: float | None = None
        super().__init__(**kwargs)
        self._listing = self.ids.listing.__self__
        self._parts = self.hold("file", "ask", "revise")
        self.ids.rows.bind(size=lambda *_: self._lay())

    # -- what there is -----------------------------------------------------------------------------------

    def arrive(self) -> None:
        self.page = 0
        self.panel_name = short(self.job.state.name, MOST_NAME)
        self._offers = [*self._panels(), self._demo(), *self._files()]
        self._parts["revise"].drop()
        self._put(self._listing)
        self._lay()

    def _panels(self) -> list[Offer]:
        """Offer the panels of the book, the newest first, but for the one that is open."""
        panels = [p for p in self.job.store.panels() if p.panel_id != self.job.panel_id]
        return [
            Offer(
                panel.name,
                f"A panel of the book, opened {panel.created_utc.astimezone():%d.%m.%Y}",
                f"open_panel_{panel.panel_id}",
                lambda panel=panel: self._begin(panel.name, lambda: self._go_back_to(panel.panel_id)),
            )
            for panel in reversed(panels)
        ]

    def _demo(self) -> Offer:
        path = resource("assets", "demo", "lemons.svg")
        return Offer("Bowl of lemons", "The demo", "open_demo", lambda: self._show(path))

    def _files(self) -> list[Offer]:
        return [
            Offer(path.name, str(path.parent), f"open_file_{path.stem}", lambda path=path: self._show(path))
            for path in drawing_files(usual_folders())
        ]

    def _lay(self) -> None:
        """Lay out the page: as many rows as there is room for."""
        rows = self.ids.rows
        pages = pages_of([theme.target] * len(self._offers), rows.height - theme.gap, theme.gap)
        self.last_page = len(pages) - 1
        self.page = min(self.page, self.last_page)
        self.page_text = f"{self.page + 1:.0f} of {len(pages)}"
        rows.clear_widgets()
        for k in pages[int(self.page)]:
            offer = self._offers[k]
            row = Choice(text=offer.text, says=offer.says, test_name=offer.test_name)
            row.bind(on_act=lambda _row, act=offer.act: act())
            rows.add_widget(row)
        rows.add_widget(Widget())  # the rest of the page

    def turn(self, by: int) -> None:
        """Turn pages, as far as there are any."""
        self.page = min(max(0, self.page + by), self.last_page)
        self._lay()

    # -- one file ----------------------------------------------------------------------------------------

    def _show(self, path: Path) -> None:
        self._path, self._width_mm = path, None
        self._say()
        self._put(self._parts["file"])

    def _say(self) -> None:
        assert self._path is not None
        self.file_name = self._path.name
        width = "as the drawing has it" if self._width_mm is None else f"{self._width_mm:g} mm"
        self.file_says = f"{self._path.parent}\nWidth: {width}"

    def ask_width(self) -> None:
        self._parts["ask"].ask(
            "Width of the panel", self._set_width, unit="mm", decimals=1, least=LEAST_MM, most=MOST_MM
        )
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
        self._begin(self._path.name, self._open)

    def lay_over(self) -> None:
        """Lay the file over the panel that is open; the difference is shown before anything is kept."""
        path, part = self._path, self._parts["revise"]
        if path is not None and not self.busy:
            self.soon(f"Laying {path.name} over the panel …", lambda: part.lay(path) and self._put(part))

    def _put(self, part: Any) -> None:
        place = self.ids.place
        if place.children != [part]:
            place.clear_widgets()
            place.add_widget(part)

    # -- opening -----------------------------------------------------------------------------------------

    def _begin(self, name: str, act: Callable[[], Job]) -> None:
        if self.busy:
            return
        if self.job.state.running_mixes:
            self.desk.tell(WrongOrder("a mix runs on this panel", "close its glue-up first"))
            return
        self.soon(f"Reading {name} …", lambda: self._take(act))

    def _take(self, act: Callable[[], Job]) -> None:
        try:
            job = act()
        except Fault as fault:
            self.desk.tell(fault)
            return
        job.store.set_setting(LAST_PANEL, str(job.panel_id))
        self.desk.take_job(job)

    def _go_back_to(self, panel_id: int) -> Job:
        return Job(self.job.store, self.job.clock, panel_id)

    def _open(self) -> Job:
        assert self._path is not None
        data, panel = load_drawing(self._path, width_mm=self._width_mm)
        name, width_mm = self._path.name, self._width_mm
        return open_panel(self.job.store, self.job.clock, data, name, width_mm=width_mm, panel=panel)
