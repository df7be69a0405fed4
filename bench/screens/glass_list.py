"""The glass of the panel as a list by pages, each glass in its own shades, then in words and figures."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from bench.finish.buying import USUAL_SHEET, Wanted
from bench.finish.glass import GlassList
from bench.job.finishing import glasses
from bench.job.job import Job
from bench.screens.parts.pages import pages_of, text_height_px
from bench.screens.parts.shades import bands
from bench.screens.parts.split import SIDE_IN_TEXTS
from bench.screens.theme import theme
from bench.screens.widgets import Rows
from bench.speech import area, plain_size, say, say_n

# ΔE00 up to which colours are one glass; at first what a varied sheet can hold
STEPS_DE = (0.0, 1.0, 2.0, 3.0, 5.0, 8.0, 12.0)
USUAL_STEP = 4
SWATCH_TARGETS = 1.6  # how wide the shades are, in targets


class GlassLine(BoxLayout):
    """One glass: its shades, what it is called, and how much of it there is."""

    text = StringProperty("")
    says = StringProperty("")
    low = BooleanProperty(False)
    test_name = StringProperty("")


class GlassActs(Rows):
    """What can be done with a glass list, beside it."""

    part = ObjectProperty(None, allownone=True, rebind=True)
    cols = NumericProperty(1)
    side_in_texts = NumericProperty(SIDE_IN_TEXTS)
    __events__ = ("on_close",)

    def on_close(self) -> None:
        """Bound by the screen."""


class GlassPart(Rows):
    """Page through the glasses, put together more or less closely. low: there is little height."""

    low = BooleanProperty(False)

    page = NumericProperty(0)
    last_page = NumericProperty(0)
    page_text = StringProperty("")
    head_text = StringProperty("")
    step = NumericProperty(USUAL_STEP)
    last_step = NumericProperty(len(STEPS_DE) - 1)

    def __init__(self, **kwargs: Any) -> None:
        self._job: Job | None = None
        self._listed: GlassList | None = None
        self._wanted: tuple[Wanted, ...] = ()
        super().__init__(**kwargs)

    def on_kv_post(self, _base: Any) -> None:
        self.ids.rows.bind(size=self._lay)
        self.bind(low=self._lay)
        theme.bind(text=self._lay)

    def show(self, job: Job) -> None:
        """List the glass of a panel, like colours together."""
        self._job = job
        self.page = 0
        self._sort()

    def closer(self) -> None:
        """Tell colours apart that were one glass."""
        self.step, self.page = max(0, self.step - 1), 0
        self._sort()

    def looser(self) -> None:
        """Take colours for one glass that were two."""
        self.step, self.page = min(self.last_step, self.step + 1), 0
        self._sort()

    def turn(self, pages: int) -> None:
        self.page = min(max(0, self.page + pages), self.last_page)
        self._lay()

    def _sort(self) -> None:
        if self._job is None:
            return
        self._listed, self._wanted = glasses(self._job, like_de=STEPS_DE[int(self.step)])
        count = len(self._wanted)
        self.head_text = say_n(
            "{count} glass, {area} laid",
            "{count} glasses, {area} laid",
            count,
            area=area(self._job.panel.glass_area_mm2),
        )
        self._lay()

    def _lay(self, *_: object) -> None:
        """Lay out the page: as many glasses as there is room for."""
        rows = self.ids.rows
        if self._listed is None or self._job is None or rows.height < theme.target:
            return
        words = [_words(one) for one in self._wanted]
        width_px = int(rows.width - SWATCH_TARGETS * theme.target - theme.gap - 2 * theme.pad)
        heights = [_height_px(texts, width_px, low=self.low) for texts in words]
        pages = pages_of(heights, rows.height - theme.gap, theme.gap)  # a gap is below the last one too
        self.last_page = len(pages) - 1
        self.page = min(self.page, self.last_page)
        self.page_text = say(
            "Page {page} of {pages}; sheets of {size}",
            page=int(self.page) + 1,
            pages=len(pages),
            size=plain_size(USUAL_SHEET.long_mm, USUAL_SHEET.short_mm),
        )
        rows.clear_widgets()
        for k in pages[int(self.page)]:
            line = GlassLine(
                text=words[k][0], says=words[k][1], low=self.low, height=heights[k], test_name=f"glass_{k}"
            )
            pieces = np.flatnonzero(self._listed.of == k)
            line.ids.shades.colours = bands(self._job.panel.colour[pieces])
            rows.add_widget(line)
        rows.add_widget(Widget())  # the rest of the page


def _words(one: Wanted) -> tuple[str, str]:
    """Return what a glass is called, and how much of it there is."""
    glass = one.glass
    pieces = say_n("{count} piece", "{count} pieces", glass.pieces)
    take = say("longer than a sheet")
    if one.fits:
        take = say_n("{count} sheet", "{count} sheets", sum(count for _, count in one.buy))
    return glass.name, say(
        "{pieces}, {area}, {sheets}", pieces=pieces, area=area(glass.area_mm2, 1), sheets=take
    )


def _height_px(texts: tuple[str, str], width_px: int, *, low: bool) -> float:
    name, says = texts
    high = text_height_px(name, width_px, int(theme.text), bold=True)
    says_px = theme.small if low else theme.text
    return high + text_height_px(says, width_px, int(says_px)) + theme.gap * (1 if low else 1.5)
