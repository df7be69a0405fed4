"""The panel as one picture in true glass colours, to be panned, zoomed and tapped.

`show` turns the tesserae into a few meshes, once. `divide` lays outlines, hatching, numbers and the pointer
over them. Panning and zooming only change a matrix and where the labels stand.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

import numpy as np
from kivy.graphics import PopMatrix, PushMatrix, Scale, Translate
from kivy.metrics import dp
from kivy.properties import (
    BooleanProperty,
    DictProperty,
    ListProperty,
    NumericProperty,
    ObjectProperty,
    StringProperty,
)

from bench.book.readings import Readings
from bench.drawing.panel import Panel
from bench.screens.picture import program
from bench.screens.picture.clip import Clip
from bench.screens.picture.division import Section, overlay
from bench.screens.picture.glass import glass_meshes
from bench.screens.picture.ink import along
from bench.screens.picture.labels import WORDLESS, Labels
from bench.screens.picture.life import life_word
from bench.screens.picture.marks import board, crosses
from bench.screens.picture.picking import Picker
from bench.screens.picture.pointer import Pointer
from bench.screens.picture.touched import Touched
from bench.screens.picture.traced import Traced
from bench.screens.picture.triangles import triangulate
from bench.screens.picture.view import View
from bench.screens.theme import theme

SLACK_DP = 12


class PanelPicture(Touched):
    """Show a panel; tell `on_pick(tessera, number)` what was tapped, number 0 where it has no section.

    word_for: turns a stage into the word on its label. notes: by number, what its label says after the word
    where there is room. pointing: the pointer stands on the next section; off where that fills the picture
    and the pointer would hide its pieces. labelled: whether the others are named; names_next: and the next.
    """

    least_targets = 1  # with less height nothing is seen: what stands above a screen gives way
    test_name = StringProperty("")
    word_for = ObjectProperty(life_word)
    notes = DictProperty()
    marked = ListProperty()
    next_number = NumericProperty(0)
    pointing = BooleanProperty(True)
    labelled = BooleanProperty(True)
    names_next = BooleanProperty(False)

    __events__ = ("on_pick",)

    def __init__(self, **kwargs: Any) -> None:
        self.panel: Panel | None = None
        self.sections: tuple[Section, ...] = ()
        self._labelled: tuple[Section, ...] = ()
        self._number = np.zeros(0, np.int32)
        self._picker: Picker | None = None
        self._traced: Traced | None = None
        self._labels, self._pointer, self._clip = Labels(), Pointer(), Clip()
        super().__init__(**kwargs)
        self._build()
        self.bind(pos=self._place, size=self._on_room, pointing=self._place, notes=self._place)
        for name in ("plate", "ink", "small", "head"):
            theme.bind(**{name: self._place})

    def _build(self) -> None:
        self._shift, self._scale = Translate(), Scale()
        self._glass = program.glass_context()
        self._board, self._lines, self._marks = (program.line_context() for _ in range(3))
        for instruction in (
            self._clip.before,
            program.blending(False),
            PushMatrix(),
            self._shift,
            self._scale,
            self._board,
            self._glass,
            self._lines,
            self._marks,
            PopMatrix(),
            program.blending(True),
            self._labels.group,
            self._pointer.group,
            self._ink.group,
            self._clip.after,
        ):
            self.canvas.add(instruction)

    # -- what is shown ------------------------------------------------------------------------------

    def show(self, panel: Panel, readings: Readings | None = None) -> None:
        """Show a panel, undivided, as large as it fits. readings: where its lines may have been kept."""
        self.panel = panel
        self._picker, self._traced = Picker(panel), Traced(panel, readings)
        self._number = np.zeros(panel.tessera_count, np.int32)
        self._glass.clear()
        program.fill(self._glass, glass_meshes(panel, triangulate(panel)), program.GLASS_FORMAT)
        self._lines.clear()
        self._board.clear()
        program.fill(self._board, board(panel), program.LINE_FORMAT)
        self.sections = self._labelled = ()
        self.marked = []
        self.fit()

    def divide(
        self,
        number: np.ndarray,
        states: Mapping[int, str] | None = None,
        next_number: int | None = None,
        *,
        keep: bool = False,
    ) -> None:
        """Lay a division over the panel.

        number: (n,) the section of each tessera, 0 or less where it has none. states: the stage of each
        section ('drawn' where it is missing). next_number: the one to point at. keep: have its lines ready
        at the next start.
        """
        if self.panel is None or self._traced is None:
            return
        self._number = np.asarray(number, np.int32)
        drawn = overlay(self.panel, self._traced, self._number, states or {}, next_number, keep=keep)
        self.sections, self.next_number = drawn.sections, next_number or 0
        self._lines.clear()
        program.fill(self._lines, drawn.lines, program.LINE_FORMAT)
        self.on_names_next()

    def on_names_next(self, *_: object) -> None:
        unnamed = 0 if self.names_next else self.next_number
        self._labelled = tuple(s for s in self.sections if self.labelled and s.number != unnamed)
        self._place()

    def mark(self, tesserae: Iterable[int]) -> None:
        """Mark single tesserae, e.g. those left over, with a frame and a cross; none unmarks all."""
        self.marked = sorted({int(i) for i in tesserae})

    def on_marked(self, *_: object) -> None:
        if self.panel is None:
            return
        self._marks.clear()
        program.fill(self._marks, crosses(self.panel, self.marked), program.LINE_FORMAT)

    def section(self, number: int) -> Section | None:
        """Return what the picture knows of a section, or None."""
        return next((s for s in self.sections if s.number == number), None)

    # -- the view -----------------------------------------------------------------------------------

    def fit(self) -> None:
        """Show the whole panel."""
        self.fitted = True
        if self.panel is not None and min(self.size) > 0:
            self.view = View(*self.size, self.panel.width_mm, self.panel.height_mm).fitted()

    def focus_on(self, *numbers: int) -> None:
        """Show one section as large as it fits, or several; unknown numbers alone show the whole panel."""
        boxes = np.array([s.box_mm for s in map(self.section, numbers) if s is not None])
        if not boxes.size or self.view is None or min(self.size) <= 0:
            self.fit()
        else:
            self.fitted = False
            low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
            self.view = self.view.fitted((*low.tolist(), *high.tolist()))

    def true_size(self, number: int, px_per_mm: float) -> None:
        """Show one section at its true size; an unknown number leaves the view as it is."""
        section = self.section(number)
        if section is not None and self.view is not None:
            self.fitted = False
            self.view = self.view.at_true_size(px_per_mm, section.box_mm)

    def on_view(self, *_: object) -> None:
        self._place()

    def _on_room(self, *_: object) -> None:
        """A turned or resized screen keeps what was in the middle, or the whole panel if that was shown."""
        if self.view is None or self.fitted:
            self.fit()
        else:
            self.view = replace(self.view, width_px=self.width, height_px=self.height)

    def _place(self, *_: object) -> None:
        view = self.view
        if view is None:
            return
        x, y = view.to_px(0.0, 0.0)
        self._shift.xy = (round(self.x + x), round(self.y + y))
        self._scale.xyz = (view.px_per_mm, -view.px_per_mm, 1.0)
        for lines in (self._board, self._lines, self._marks):
            lines["mm_per_dp"] = float(dp(1) / view.px_per_mm)
        self._labels.place(view, self.pos, self._labelled, self.word_for, self.notes)
        pointed = self.section(self.next_number) if self.pointing else None
        word = self.word_for(pointed.stage) if pointed and pointed.stage not in WORDLESS else ""
        self._pointer.place(pointed, view, self.pos, word, self._labels.plates)
        self._clip.place(view, self.pos)
        self._ink.place(view, self.pos)

    # -- fingers ------------------------------------------------------------------------------------

    def on_pick(self, tessera: int, number: int) -> None:
        """Tell which tessera was tapped, and its section: bound by the screen."""

    def under(self, points_mm: list[tuple[float, float]]) -> list[int]:
        """Return the tesserae that a stroke runs over, in its order."""
        if self._picker is None:
            return []
        found = (self._picker.pick(x, y) for x, y in along(points_mm))
        return list(dict.fromkeys(t for t in found if t is not None))

    def pick_at(self, x_px: float, y_px: float) -> int | None:
        """Return the tessera at a place of the window, with a glove's slack, or None."""
        if self.view is None or self._picker is None:
            return None
        x_mm, y_mm = self.view.to_mm(x_px - self.x, y_px - self.y)
        return self._picker.pick(x_mm, y_mm, slack_mm=dp(SLACK_DP) / self.view.px_per_mm)

    def on_tapped(self, x_px: float, y_px: float) -> None:
        tessera = self.pick_at(x_px, y_px)
        if tessera is not None:
            self.dispatch("on_pick", tessera, max(0, int(self._number[tessera])))
