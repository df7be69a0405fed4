"""Draw what the book has learned as a picture: the graphs of the Book screen, one below or beside another."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from bench.pace.graph import Graph, Layout, lay_out, outline
from bench.resources import resource

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageDraw import ImageDraw
    from PIL.ImageFont import FreeTypeFont

PAPER, INK = (246, 246, 244), (21, 21, 21)
EACH_PX = (1000, 760)
MARGIN_PX = 40
WORD_PX, HEAD_PX = 26, 36
_OVER = 2  # drawn so many times larger, then shrunk, for smooth lines


def graphs_png(graphs: Sequence[Graph], words: Sequence[str], *, title: str) -> bytes:
    """Return a PNG of the graphs, two in a row, under a title, and the words below them."""
    from PIL import Image, ImageDraw

    columns = 1 if len(graphs) == 1 else 2
    rows = math.ceil(len(graphs) / columns)
    width = columns * EACH_PX[0] + (columns + 1) * MARGIN_PX
    head_px, row_px = 2 * HEAD_PX + MARGIN_PX, EACH_PX[1] + MARGIN_PX
    lines = [part for one in words for part in wrapped(one, width - 2 * MARGIN_PX)]
    height = head_px + rows * row_px + round(1.5 * WORD_PX * len(lines)) + MARGIN_PX
    sheet = Image.new("RGB", (width, height), PAPER)
    draw = ImageDraw.Draw(sheet)
    draw.text((MARGIN_PX, MARGIN_PX), title, font=font(HEAD_PX, bold=True), fill=INK)
    for k, graph in enumerate(graphs):
        left = MARGIN_PX + k % columns * (EACH_PX[0] + MARGIN_PX)
        sheet.paste(graph_image(graph, EACH_PX), (left, head_px + k // columns * row_px))
    for k, line in enumerate(lines):
        y = head_px + rows * row_px + 1.5 * WORD_PX * k
        draw.text((MARGIN_PX, y), line, font=font(WORD_PX), fill=INK)
    out = io.BytesIO()
    sheet.save(out, "PNG")
    return out.getvalue()


def graph_image(graph: Graph, size_px: tuple[int, int]) -> Image:
    """Return a picture of one graph: its title, what is to be seen, and the graph itself."""
    from PIL import Image, ImageDraw

    width, height = (_OVER * n for n in size_px)
    sheet = Image.new("RGB", (width, height), PAPER)
    draw = ImageDraw.Draw(sheet)
    top = 0.0
    said = wrapped(graph.says, size_px[0])
    for text, px, bold in [(graph.title, HEAD_PX, True), *((line, WORD_PX, False) for line in said)]:
        draw.text((0, top), text, font=font(_OVER * px, bold=bold), fill=INK)
        top += 1.35 * px * _OVER
    if graph.spots:
        place_px = height - top - WORD_PX * _OVER / 2
        _draw(draw, lay_out(graph, width, place_px, unit=_OVER, measure=_measure), height)
    return sheet.resize(size_px, Image.Resampling.BOX)


def _measure(text: str) -> tuple[float, float]:
    return float(font(WORD_PX * _OVER).getlength(text)), 1.25 * WORD_PX * _OVER


def _draw(draw: ImageDraw, layout: Layout, height: int) -> None:
    """Draw a layout into the lower left of a sheet; y of a picture runs down."""
    for line in layout.lines:
        points = [(x, height - y) for x, y in line.points]
        draw.line(points, fill=INK, width=max(1, round(line.width)), joint="curve")
    for mark in layout.marks:
        for stroke in outline(mark.mark):
            points = [(mark.x + mark.radius * x, height - mark.y - mark.radius * y) for x, y in stroke]
            if mark.mark == "dot":
                draw.polygon(points, fill=INK)
            else:
                closed = len(points) > 2
                if closed:
                    draw.polygon(points, fill=PAPER)
                draw.line(points, fill=INK, width=max(1, round(0.34 * mark.radius)), joint="curve")
    for word in layout.words:
        at = word.x, height - word.y - _measure(word.text)[1] / 2
        draw.text(at, word.text, font=font(WORD_PX * _OVER), fill=INK, anchor="lm")


@cache
def font(px: int, *, bold: bool = False) -> FreeTypeFont:
    from PIL import ImageFont

    return ImageFont.truetype(
        str(resource("assets", "fonts", f"B612-{'Bold' if bold else 'Regular'}.otf")), px
    )


def wrapped(text: str, width_px: float) -> list[str]:
    """Return a text in lines no wider than so much, broken between words; a longer word stands alone."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and font(WORD_PX).getlength(longer) <= width_px:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
