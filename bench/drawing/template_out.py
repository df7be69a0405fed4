"""Sheets of a template → one PDF, or one SVG for a single sheet, at true size."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

from bench.drawing.svg_out import number_text, path_text, printable
from bench.drawing.template import LINE_MM, MARGIN_MM, Piece, Sheet
from bench.speech import say

_OWN_MM, _AROUND_MM = 0.25, 0.12  # widths of lines
_DARK, _GREY = 20, 150
_CROSS_MM = 3.0
_TITLE_PT, _SMALL_PT, _MARK_PT = 12, 7, 5
_MM_PER_PT = 25.4 / 72


def _note(sheet: Sheet) -> str:
    """Say how long the bar is. Rulers in mm are at hand everywhere, so it is always told in mm."""
    return say("Print at 100 %: the bar is {bar:g} mm long.", bar=math.dist(*sheet.bar_mm))


def write_pdf(sheets: Sequence[Sheet]) -> bytes:
    """Return the sheets as the pages of a PDF, each as large as its paper."""
    from fpdf import FPDF

    pdf = FPDF(unit="mm")
    pdf.set_auto_page_break(False)
    pdf.set_font("helvetica")
    for sheet in sheets:
        pdf.add_page(format=sheet.paper_mm, orientation="portrait")
        left, top, width, height = sheet.window_mm
        with pdf.rect_clip(left, top, width, height):
            for piece in sorted(sheet.pieces, key=lambda one: one.own):
                _draw(pdf, piece)
            _marks(pdf, sheet)
            _crosses(pdf, sheet)
        pdf.set_draw_color(_DARK)
        pdf.set_line_width(_OWN_MM)
        (x, y), (end, _) = sheet.bar_mm
        pdf.line(x, y, end, y)
        for at in (x, end):
            pdf.line(at, y - 1.5, at, y + 1.5)
        pdf.set_text_color(_DARK)
        pdf.set_font_size(_TITLE_PT)
        pdf.text(MARGIN_MM, MARGIN_MM + 4.0, _latin(sheet.title))
        pdf.set_font_size(_SMALL_PT)
        for k, line in enumerate(sheet.legend):
            pdf.text(MARGIN_MM, _legend_y_mm(k), _latin(line))
        pdf.text(end + 2.5, y + 1.0, _latin(_note(sheet)))
    return bytes(pdf.output())


def _draw(pdf, piece: Piece) -> None:  # type: ignore[no-untyped-def]
    from fpdf.drawing import PaintedPath

    path = PaintedPath()
    for ring in piece.rings_mm:
        (x, y), *rest = ring.tolist()
        path.move_to(x, y)
        for a, b in rest:
            path.line_to(a, b)
        path.close()
    path.style.stroke_width = _OWN_MM if piece.own else _AROUND_MM
    path.style.stroke_color = _hex((_DARK, _DARK, _DARK) if piece.own else (_GREY, _GREY, _GREY))
    path.style.fill_color = _hex(piece.tint) if piece.own else None
    path.style.intersection_rule = "evenodd"
    pdf.draw_path(path)


def _marks(pdf, sheet: Sheet) -> None:  # type: ignore[no-untyped-def]
    pdf.set_text_color(_DARK)
    pdf.set_font_size(_MARK_PT)
    for piece in sheet.pieces:
        if piece.mark:
            x, y = piece.spot_mm
            mark = _latin(piece.mark)
            pdf.text(x - pdf.get_string_width(mark) / 2, y + _MARK_PT * _MM_PER_PT * 0.35, mark)


def _legend_y_mm(line: int) -> float:
    return MARGIN_MM + 8.0 + LINE_MM * line


def _crosses(pdf, sheet: Sheet) -> None:  # type: ignore[no-untyped-def]
    pdf.set_draw_color(_DARK)
    pdf.set_line_width(_AROUND_MM)
    pdf.set_text_color(_GREY)
    pdf.set_font_size(_MARK_PT)
    for x, y, told in sheet.crosses:
        pdf.line(x - _CROSS_MM, y, x + _CROSS_MM, y)
        pdf.line(x, y - _CROSS_MM, x, y + _CROSS_MM)
        pdf.text(x + 0.8, y - 0.8, told)


def _latin(text: str) -> str:
    """Return what the PDF's own typeface has signs for, '?' in place of the rest."""
    return text.encode("latin-1", "replace").decode("latin-1")


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
        fill = _hex(piece.tint) if piece.own else "none"
        grey, line = (_DARK, _OWN_MM) if piece.own else (_GREY, _AROUND_MM)
        yield f'<path fill="{fill}" {_stroke(grey, line)} d="{path_text(piece.rings_mm)}"/>'
    for piece in sheet.pieces:
        if piece.mark:
            x, y = piece.spot_mm
            yield _words(x, y + _MARK_PT * _MM_PER_PT * 0.35, _MARK_PT, piece.mark, 'text-anchor="middle" ')
    for x, y, told in sheet.crosses:
        level = f"M{number_text(x - _CROSS_MM)} {number_text(y)}h{2 * _CROSS_MM:g}"
        upright = f"M{number_text(x)} {number_text(y - _CROSS_MM)}v{2 * _CROSS_MM:g}"
        yield f'<path fill="none" {_stroke(_DARK, _AROUND_MM)} d="{level}{upright}"/>'
        yield _words(x + 0.8, y - 0.8, _MARK_PT, told, f'fill="{_hex((_GREY, _GREY, _GREY))}" ')
    yield "</g>"
    (x, y), (end, _) = sheet.bar_mm
    bar = f"M{x:g} {y:g}H{end:g}M{x:g} {y - 1.5:g}v3M{end:g} {y - 1.5:g}v3"
    yield f'<path id="bar" fill="none" {_stroke(_DARK, _OWN_MM)} d="{bar}"/>'
    yield _words(MARGIN_MM, MARGIN_MM + 4.0, _TITLE_PT, sheet.title)
    for k, text in enumerate(sheet.legend):
        yield _words(MARGIN_MM, _legend_y_mm(k), _SMALL_PT, text)
    yield _words(end + 2.5, y + 1.0, _SMALL_PT, _note(sheet))


def _stroke(grey: int, width_mm: float) -> str:
    return f'stroke="{_hex((grey, grey, grey))}" stroke-width="{width_mm:g}"'


def _hex(colour: tuple[int, int, int]) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour)


def _words(x: float, y: float, size_pt: float, text: str, more: str = "") -> str:
    size = number_text(size_pt * _MM_PER_PT)
    where = f'x="{number_text(x)}" y="{number_text(y)}"'
    return f'<text {where} {more}font-family="sans-serif" font-size="{size}">{escape(printable(text))}</text>'
