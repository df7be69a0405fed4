"""Contact sheets: the pictures of one screen on one page, each under its name."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from bench.resources import resource

THUMB_PX = 460
CAPTION_PX = 26
GAP_PX = 10
COLUMNS = 4
GREY, INK = (119, 119, 119), (245, 245, 245)


def thumb(picture: Path) -> Image.Image:
    """Return a picture made small, none of its sides longer than THUMB_PX."""
    with Image.open(picture) as whole:
        small = whole.convert("RGB")
        small.thumbnail((THUMB_PX, THUMB_PX), Image.Resampling.LANCZOS)
        return small


def sheet(thumbs: Sequence[tuple[str, Image.Image]]) -> Image.Image:
    """Return one page with all of them, in rows of COLUMNS, each row as high as its highest."""
    rows = [thumbs[k : k + COLUMNS] for k in range(0, len(thumbs), COLUMNS)]
    heights = [max(image.height for _, image in row) + CAPTION_PX + GAP_PX for row in rows]
    page = Image.new("RGB", (COLUMNS * (THUMB_PX + GAP_PX) + GAP_PX, sum(heights) + GAP_PX), GREY)
    draw = ImageDraw.Draw(page)
    font = ImageFont.truetype(str(resource("assets", "fonts", "B612-Regular.otf")), 17)
    y = GAP_PX
    for row, height in zip(rows, heights, strict=True):
        for k, (caption, image) in enumerate(row):
            x = GAP_PX + k * (THUMB_PX + GAP_PX)
            draw.text((x, y), caption, font=font, fill=INK)
            page.paste(image, (x, y + CAPTION_PX))
        y += height
    return page
