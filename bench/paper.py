"""Paper to write on as PDF: the bundled typeface, and signs for whatever a maker may have typed.

The typeface has English, German and the signs of measure; for names in other letters the one that comes
with the screen's library stands in, where it is installed. A sign that neither has is printed as '?'.
"""

from __future__ import annotations

from datetime import datetime
from functools import cache
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path
from typing import Any

from bench.resources import resource

FAMILY = "bench"
_MORE = "more"
PT_MM = 25.4 / 72


def new_pdf(*, title: str = "", at: datetime | None = None) -> Any:
    """Return an empty PDF in mm without a page, its typeface chosen; at: when it says that it was made."""
    from fpdf import FPDF

    pdf = FPDF(unit="mm")
    pdf.set_auto_page_break(False)
    for style, name in (("", "Regular"), ("B", "Bold")):
        _add(pdf, FAMILY, style, resource("assets", "fonts", f"B612-{name}.ttf"))
    pdf.set_font(FAMILY)
    pdf.set_title(title)
    if at is not None:
        pdf.set_creation_date(at)
    return pdf


def _add(pdf: Any, family: str, style: str, path: Path) -> None:
    """Have a typeface in a PDF, read into memory: a PDF that is dropped leaves no file open."""
    pdf.add_font(family, style, path)
    reader = pdf.fonts[family + style].ttfont.reader
    reader.file.close()
    reader.file = BytesIO(path.read_bytes())


def put(pdf: Any, x_mm: float, y_mm: float, text: str) -> float:
    """Write one line from a place on, its base line at y, in the size and style that are set.

    Return how wide it is. [mm]
    """
    at_mm, style = x_mm, pdf.font_style
    for family, part in _runs(pdf, text):
        pdf.set_font(family, style)
        pdf.text(at_mm, y_mm, part)
        at_mm += pdf.get_string_width(part)
    pdf.set_font(FAMILY, style)
    return float(at_mm - x_mm)


def width_mm(pdf: Any, text: str) -> float:
    """Return how wide a line is in the size and style that are set. [mm]"""
    wide_mm, style = 0.0, pdf.font_style
    for family, part in _runs(pdf, text):
        pdf.set_font(family, style)
        wide_mm += pdf.get_string_width(part)
    pdf.set_font(FAMILY, style)
    return wide_mm


def wrapped(pdf: Any, text: str, most_mm: float) -> list[str]:
    """Return a text in lines no wider than so much; a longer word stands alone and is cut at the end."""
    lines, line = [], ""
    for word in text.split():
        longer = f"{line} {word}".strip()
        if line and width_mm(pdf, longer) > most_mm:
            lines.append(line)
            line = word
        else:
            line = longer
    return [clipped(pdf, one, most_mm) for one in (*lines, line) if one]


def clipped(pdf: Any, text: str, most_mm: float) -> str:
    """Return a line cut with '…' where it is wider than so much."""
    if width_mm(pdf, text) <= most_mm:
        return text
    keep = len(text)
    while keep and width_mm(pdf, text[:keep].rstrip() + "…") > most_mm:
        keep -= 1
    return text[:keep].rstrip() + "…"


def _runs(pdf: Any, text: str) -> list[tuple[str, str]]:
    """Return a text as stretches of one typeface each, '?' for a sign that none has."""
    known = _signs(resource("assets", "fonts", "B612-Regular.ttf"))
    text = " ".join(text.split())
    if all(ord(c) in known for c in text):
        return [(FAMILY, text)]
    more = _more()
    also = _signs(more) if more is not None else frozenset()
    if more is not None and _MORE not in pdf.fonts:
        for style in ("", "B"):
            _add(pdf, _MORE, style, more)
    runs: list[tuple[str, str]] = []
    for c in text:
        family = _MORE if ord(c) in also and ord(c) not in known else FAMILY
        sign = c if ord(c) in known or ord(c) in also else "?"
        if runs and runs[-1][0] == family:
            runs[-1] = family, runs[-1][1] + sign
        else:
            runs.append((family, sign))
    return runs


@cache
def _signs(path: Path) -> frozenset[int]:
    """Return the letters that a typeface has a glyph for."""
    from fontTools.ttLib import TTFont

    with TTFont(str(path), lazy=True) as font:
        return frozenset(font.getBestCmap())


def _more() -> Path | None:
    """Return the file of the typeface that stands in; nothing is imported to find it."""
    spec = find_spec("kivy")
    for folder in (spec.submodule_search_locations or ()) if spec is not None else ():
        path = Path(folder) / "data" / "fonts" / "DejaVuSans.ttf"
        if path.is_file():
            return path
    return None
