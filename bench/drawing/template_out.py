"""Sheets of a template → one PDF, or one SVG for a single sheet, at true size."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any
from xml.sax.saxutils import escape

from bench.drawing.colour import code_of
from bench.drawing.svg_out import number_text, path_text, printable
from bench.drawing.template import LINE_MM, MARGIN_MM, Piece, Sheet
from bench.paper import PT_MM, clipped, new_pdf, put, width_mm
from bench.speech import say

_OWN_MM, _AROUND_MM = 0.25, 0.12  # widths of lines
_DARK, _GREY = 20, 150
_CROSS_MM = 3.0
_TITLE_PT, _SMALL_PT, _MARK_PT = 12, 7, 5
_LEAST_MARK_PT, _SIGN = 3, 0.62  # of the type size: how wide a sign is
_EDGE_MM, _DASH_MM = 0.5, 2.0


def _note(sheet: Sheet) -> str:
    """Say how long the bar is. Rulers in mm are at hand everywhere, so it is always told in mm."""
    return say("Print at 100 %: the bar is {bar:g} mm long.", bar=math.dist(*sheet.bar_mm))


def write_pdf(sheets: Sequence[Sheet]) -> bytes:
    """Return the sheets as the pages of a PDF, each as large as its paper."""
    pdf = new_pdf(title=sheets[0].title if sheets else "")
    for sheet in sheets:
        pdf.add_page(format=sheet.paper_mm, orientation="portrait")
        left, top, width, height = sheet.window_mm
        with pdf.rect_clip(left, top, width, height):
            for piece in sorted(sheet.pieces, key=lambda one: one.own):
                _draw(pdf, piece)
            _edges(pdf, sheet)
            _marks(pdf, sheet)
            _crosses(pdf, sheet)
            _overlaps(pdf, sheet)
        pdf.set_draw_color(_DARK)
        pdf.set_line_width(_OWN_MM)
        (x, y), (end, _) = sheet.bar_mm
        pdf.line(x, y, end, y)
        for at in (x, end):
            pdf.line(at, y - 1.5, at, y + 1.5)
        pdf.set_text_color(_DARK)
        pdf.set_font_size(_TITLE_PT)
        title = clipped(pdf, sheet.title, sheet.paper_mm[0] - 2 * MARGIN_MM)
        put(pdf, MARGIN_MM, MARGIN_MM + 4.0, title)
        pdf.set_font_size(_SMALL_PT)
        for k, line in enumerate(sheet.legend):
            put(pdf, MARGIN_MM, _legend_y_mm(k), line)
        put(pdf, end + 2.5, y + 1.0, _note(sheet))
    return bytes(pdf.output())


def _draw(pdf: Any, piece: Piece) -> None:
    from fpdf.drawing import PaintedPath

    path = PaintedPath()
    for ring in piece.rings_mm:
        (x, y), *rest = ring.tolist()
        path.move_to(x, y)
        for a, b in rest:
            path.line_to(a, b)
        path.close()
    path.style.stroke_width = _OWN_MM if piece.own else _AROUND_MM
    path.style.stroke_color = code_of((_DARK, _DARK, _DARK) if piece.own else (_GREY, _GREY, _GREY))
    path.style.fill_color = code_of(piece.tint) if piece.own else None
    path.style.intersection_rule = "evenodd"
    pdf.draw_path(path)


def _marks(pdf: Any, sheet: Sheet) -> None:
    pdf.set_text_color(_DARK)
    pdf.set_font_size(_MARK_PT)
    for piece in sheet.pieces:
        if piece.mark:
            x, y = piece.spot_mm
            size_pt = mark_pt(piece)
            pdf.set_font_size(size_pt)
            put(pdf, x - width_mm(pdf, piece.mark) / 2, y + size_pt * PT_MM * 0.35, piece.mark)


def mark_pt(piece: Piece) -> float:
    """Return how large a piece's mark is written: smaller where it would not fit, never below 3 pt."""
    wide_mm = _SIGN * len(piece.mark) * _MARK_PT * PT_MM
    return max(_LEAST_MARK_PT, min(_MARK_PT, _MARK_PT * piece.room_mm / max(wide_mm, 1e-9)))


def _legend_y_mm(line: int) -> float:
    return MARGIN_MM + 8.0 + LINE_MM * line


def _crosses(pdf: Any, sheet: Sheet) -> None:
    pdf.set_draw_color(_DARK)
    pdf.set_line_width(_AROUND_MM)
    pdf.set_text_color(_GREY)
    pdf.set_font_size(_MARK_PT)
    for x, y, told in sheet.crosses:
        pdf.line(x - _CROSS_MM, y, x + _CROSS_MM, y)
        pdf.line(x, y - _CROSS_MM, x, y + _CROSS_MM)
        put(pdf, x + 0.8, y - 0.8, told)


def _edges(pdf: Any, sheet: Sheet) -> None:
    """Draw the edge of what is set: a thick dark line within a light one."""
    for grey, thick in ((255, _EDGE_MM * 2.2), (_DARK, _EDGE_MM)):
        pdf.set_draw_color(grey)
        pdf.set_line_width(thick)
        for line in sheet.edges_mm:
            pdf.polyline([(float(x), float(y)) for x, y in line.tolist()])


def _overlaps(pdf: Any, sheet: Sheet) -> None:
    pdf.set_draw_color(_DARK)
    pdf.set_line_width(_AROUND_MM)
    pdf.set_text_color(_DARK)
    pdf.set_font_size(_SMALL_PT)
    pdf.set_dash_pattern(dash=_DASH_MM, gap=_DASH_MM)
    for one in sheet.overlaps:
        (x1, y1), (x2, y2) = one.ends_mm
        pdf.line(x1, y1, x2, y2)
    pdf.set_dash_pattern()
    for one in sheet.overlaps:
        (x1, y1), (x2, y2) = one.ends_mm
        _on_white(pdf, (x1 + x2) / 2, (y1 + y2) / 2, say("sheet {number} ends here", number=one.sheet), sheet)


def _on_white(pdf: Any, x: float, y: float, text: str, sheet: Sheet) -> None:
    """Write a few words about a middle, on a white plate over whatever is drawn there, within the window."""
    wide, high = width_mm(pdf, text), _SMALL_PT * PT_MM
    left, _, across, _ = sheet.window_mm
    x = min(max(x, left + wide / 2 + 1.0), left + across - wide / 2 - 1.0)
    pdf.set_fill_color(255)
    pdf.rect(x - wide / 2 - 0.8, y - high * 0.7, wide + 1.6, high * 1.4, style="F")
    put(pdf, x - wide / 2, y + high * 0.35, text)


def write_sheet_svg(sheet: Sheet) -> bytes:
    """Return one sheet as plain SVG in mm. Its pieces are lines and tints, not glass to be read back."""
    width, height = (number_text(side) for side in sheet.paper_mm)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">'
    )
    return "\n".join([head, *_svg_body(sheet), "</svg>", ""]).encode()


def _svg_body(sheet: Sheet) -> Iterator[str]:
    left, top, wide, high = map(number_text, sheet.window_mm)
    yield f'<clipPath id="window"><rect x="{left}" y="{top}" width="{wide}" height="{high}"/></clipPath>'
    yield '<g clip-path="url(#window)" fill-rule="evenodd">'
    for piece in sorted(sheet.pieces, key=lambda one: one.own):
        fill = code_of(piece.tint) if piece.own else "none"
        grey, line = (_DARK, _OWN_MM) if piece.own else (_GREY, _AROUND_MM)
        yield f'<path fill="{fill}" {_stroke(grey, line)} d="{path_text(piece.rings_mm)}"/>'
    for edge in sheet.edges_mm:
        for grey, thick in ((255, _EDGE_MM * 2.2), (_DARK, _EDGE_MM)):
            yield f'<path class="edge" fill="none" {_stroke(grey, thick)} d="{path_text([edge])[:-1]}"/>'
    for piece in sheet.pieces:
        if piece.mark:
            x, y = piece.spot_mm
            size = mark_pt(piece)
            yield _words(x, y + size * PT_MM * 0.35, size, piece.mark, 'text-anchor="middle" ')
    for x, y, told in sheet.crosses:
        level = f"M{number_text(x - _CROSS_MM)} {number_text(y)}h{2 * _CROSS_MM:g}"
        upright = f"M{number_text(x)} {number_text(y - _CROSS_MM)}v{2 * _CROSS_MM:g}"
        yield f'<path fill="none" {_stroke(_DARK, _AROUND_MM)} d="{level}{upright}"/>'
        yield _words(x + 0.8, y - 0.8, _MARK_PT, told, f'fill="{code_of((_GREY, _GREY, _GREY))}" ')
    yield "</g>"
    (x, y), (end, _) = sheet.bar_mm
    bar = f"M{x:g} {y:g}H{end:g}M{x:g} {y - 1.5:g}v3M{end:g} {y - 1.5:g}v3"
    yield f'<path id="bar" fill="none" {_stroke(_DARK, _OWN_MM)} d="{bar}"/>'
    yield _words(MARGIN_MM, MARGIN_MM + 4.0, _TITLE_PT, sheet.title)
    for k, text in enumerate(sheet.legend):
        yield _words(MARGIN_MM, _legend_y_mm(k), _SMALL_PT, text)
    yield _words(end + 2.5, y + 1.0, _SMALL_PT, _note(sheet))


def _stroke(grey: int, width_mm: float) -> str:
    return f'stroke="{code_of((grey, grey, grey))}" stroke-width="{width_mm:g}"'


def _words(x: float, y: float, size_pt: float, text: str, more: str = "") -> str:
    size = number_text(size_pt * PT_MM)
    where = f'x="{number_text(x)}" y="{number_text(y)}"'
    return f'<text {where} {more}font-family="sans-serif" font-size="{size}">{escape(printable(text))}</text>'
