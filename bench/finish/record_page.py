"""Pages of running text, tables and pictures: what the papers of a panel are set with."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from bench.paper import FAMILY, PT_MM, clipped, new_pdf, put, width_mm, wrapped
from bench.speech import say

if TYPE_CHECKING:
    from PIL.Image import Image

MARGIN_MM = 18.0
_TITLE_PT, _HEAD_PT, _TEXT_PT, _FOOT_PT = 20.0, 12.0, 9.5, 8.0
_LEAD = 1.35  # of the type size, from line to line
_GUTTER_MM = 4.0
_INK, _QUIET, _RULE = 20, 110, 180


class Pages:
    """A document that is written from the top down; a new page begins where a line no longer fits."""

    def __init__(self, title: str, paper_mm: tuple[float, float], at: datetime) -> None:
        self._pdf = new_pdf(title=title, at=at)
        self._title, self._paper_mm = title, paper_mm
        self._turn()
        self._lines([title], _TITLE_PT, bold=True)
        self.gap(4.0)

    @property
    def width_mm(self) -> float:
        return self._paper_mm[0] - 2 * MARGIN_MM

    def head(self, text: str) -> None:
        """Begin a part; its head never stands alone at the foot of a page."""
        self.gap(4.0)
        self._have(_HEAD_PT * PT_MM * _LEAD + 3 * _TEXT_PT * PT_MM * _LEAD)
        self._lines([text], _HEAD_PT, bold=True)
        self.gap(1.0)

    def text(self, text: str, *, quiet: bool = False) -> None:
        """Write a paragraph."""
        self._set(_TEXT_PT)
        self._lines(wrapped(self._pdf, text, self.width_mm), _TEXT_PT, quiet=quiet)
        self.gap(1.0)

    def gap(self, height_mm: float) -> None:
        self._y_mm += height_mm

    def picture(self, image: Image, most_high_mm: float) -> None:
        """Show a picture as wide as the page, or as high as it may be."""
        wide, high = image.size
        scale = min(self.width_mm / wide, most_high_mm / high)
        self._have(high * scale)
        left = MARGIN_MM + (self.width_mm - wide * scale) / 2
        self._pdf.image(image, left, self._y_mm, wide * scale, high * scale)
        self._y_mm += high * scale + 3.0

    def table(self, head: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
        """Write rows under their heads, which are said again on every page; long cells take several lines."""
        columns = self._columns(head, rows)
        self._row(head, columns, bold=True)
        for row in rows:
            if self._row(row, columns, dry=True) > self._left_mm:
                self._turn()
                self._row(head, columns, bold=True)
            self._row(row, columns)
        self.gap(2.0)

    def done(self) -> bytes:
        """Return the document with the number of each page at its foot."""
        pdf, count = self._pdf, self._pdf.pages_count
        for page in range(1, count + 1):
            pdf.page = page
            self._set(_TEXT_PT)  # another size first: a size that seems set already is not said to the page
            self._set(_FOOT_PT, quiet=True)
            foot = self._paper_mm[1] - MARGIN_MM / 2
            told = say("page {page} of {count}", page=page, count=count)
            put(pdf, MARGIN_MM, foot, clipped(pdf, self._title, self.width_mm - 30.0))
            put(pdf, self._paper_mm[0] - MARGIN_MM - width_mm(pdf, told), foot, told)
        return bytes(pdf.output())

    # -- how lines are set -------------------------------------------------------------------------------

    @property
    def _left_mm(self) -> float:
        return self._paper_mm[1] - MARGIN_MM - self._y_mm

    def _turn(self) -> None:
        self._pdf.add_page(format=self._paper_mm, orientation="portrait")
        self._y_mm = MARGIN_MM

    def _have(self, height_mm: float) -> None:
        if height_mm > self._left_mm:
            self._turn()

    def _set(self, size_pt: float, *, bold: bool = False, quiet: bool = False) -> None:
        self._pdf.set_font(FAMILY, "B" if bold else "", size_pt)
        self._pdf.set_text_color(_QUIET if quiet else _INK)

    def _lines(
        self, lines: Sequence[str], size_pt: float, *, bold: bool = False, quiet: bool = False
    ) -> None:
        for line in lines:
            self._have(size_pt * PT_MM * _LEAD)
            self._set(size_pt, bold=bold, quiet=quiet)
            self._y_mm += size_pt * PT_MM * _LEAD
            put(self._pdf, MARGIN_MM, self._y_mm, clipped(self._pdf, line, self.width_mm))

    def _columns(self, head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[float]:
        """Return how wide each column is: as its longest cell, the widest ones less where all do not fit."""
        wide = []
        for k, name in enumerate(head):
            self._set(_TEXT_PT, bold=True)
            head_mm = width_mm(self._pdf, name)
            self._set(_TEXT_PT)
            wide.append(max([head_mm, *(width_mm(self._pdf, row[k]) for row in rows)]))
        room = self.width_mm - _GUTTER_MM * (len(head) - 1)
        while sum(wide) > room + 1e-6:
            most = max(wide)
            second = max([w for w in wide if w < most], default=0.0)
            widest = [k for k, w in enumerate(wide) if w == most]
            less = min(most - second, (sum(wide) - room) / len(widest))
            for k in widest:
                wide[k] = most - less
        return wide

    def _row(
        self, cells: Sequence[str], columns: Sequence[float], *, bold: bool = False, dry: bool = False
    ) -> float:
        """Write one row, or only say how high it would be. [mm]"""
        self._set(_TEXT_PT, bold=bold)
        told = [wrapped(self._pdf, cell, wide + 1e-6) for cell, wide in zip(cells, columns, strict=True)]
        step_mm = _TEXT_PT * PT_MM * _LEAD
        high_mm = step_mm * max(1, *(len(lines) for lines in told)) + 1.2
        if dry:
            return high_mm
        x_mm = MARGIN_MM
        for lines, wide in zip(told, columns, strict=True):
            for k, line in enumerate(lines):
                put(self._pdf, x_mm, self._y_mm + step_mm * (k + 1), line)
            x_mm += wide + _GUTTER_MM
        self._y_mm += high_mm
        self._pdf.set_draw_color(_INK if bold else _RULE)
        self._pdf.set_line_width(0.2 if bold else 0.1)
        self._pdf.line(MARGIN_MM, self._y_mm + 0.2, MARGIN_MM + self.width_mm, self._y_mm + 0.2)
        return high_mm
