"""A table of figures beside a picture, e.g. the sections of a division."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from bench.speech import say

if TYPE_CHECKING:
    from PIL.Image import Image

PAPER, INK = (245, 245, 245), (16, 16, 16)
MOST_SIZE, LEAST_SIZE = 50, 140  # lines of text that the picture's height holds, at the largest and least


def with_figures(picture: Image, head: Sequence[str], rows: Sequence[Sequence[str]]) -> Image:
    """Return the picture with a table to its right, figures set flush right.

    The type is as large as the rows allow; of more rows than are legible the rest is counted in the last
    line. No rows return the picture as it is.
    """
    from PIL import Image, ImageDraw, ImageFont

    if not rows:
        return picture
    lines = min(len(rows), LEAST_SIZE - 2)
    step = picture.height / max(MOST_SIZE, lines + 3)
    font = ImageFont.load_default(size=max(9, int(step * 0.75)))
    shown = [tuple(head), *map(tuple, rows[:lines])]
    widths = [max(font.getlength(row[c]) for row in shown) for c in range(len(head))]
    gap = font.getlength("00")
    wide = int(sum(widths) + gap * (len(head) + 1))
    whole = Image.new("RGB", (picture.width + wide, picture.height), PAPER)
    whole.paste(picture, (0, 0))
    draw = ImageDraw.Draw(whole)
    for k, row in enumerate(shown):
        right = picture.width + gap
        for text, width in zip(row, widths, strict=True):
            right += width
            draw.text((right, (k + 1) * step), text, font=font, fill=INK, anchor="rm")
            right += gap
    if lines < len(rows):
        place = (picture.width + gap, (len(shown) + 1) * step)
        draw.text(place, say("and {count} more", count=len(rows) - lines), font=font, fill=INK, anchor="lm")
    return whole
