"""What a revised drawing changes, as a picture: the panel as it is beside the panel as it would be.

Gone, changed and added are told apart by how they are hatched, what stays by a thick line around it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bench.drawing.figures import INK, PAPER
from bench.drawing.panel import Panel
from bench.drawing.picture import EDGE, EDGE_HALO, fill, outlined, picture_png, section_pixels
from bench.drawing.revised import Revision
from bench.speech import say

if TYPE_CHECKING:
    from PIL.Image import Image

HATCHED = {1: "crossed", 2: "striped", 3: "lined"}  # how each mark looks; for a person see hatching()
GONE, CHANGED, ADDED = HATCHED
_WIDE = 1.4  # pages wider than that are shown one below the other

Marks = NDArray[np.integer]


def hatching(mark: int) -> str:
    """Say how a mark looks."""
    return {GONE: say("crossed"), CHANGED: say("striped"), ADDED: say("lined")}[mark]


def as_it_is_png(old: Panel, revision: Revision, *, long_side_px: int = 1200) -> Image:
    """Return the panel as it is: what would go crossed, what would change striped."""
    mark = np.where(revision.gone, GONE, np.where(revision.changed, CHANGED, 0))
    return marked_png(old, mark, revision.kept, long_side_px=long_side_px)


def as_it_would_be_png(revision: Revision, *, long_side_px: int = 1200) -> Image:
    """Return the panel as it would be: what was added lined, what has changed striped."""
    mark = np.zeros(revision.panel.tessera_count, np.int32)
    mark[revision.added] = ADDED
    mark[revision.to_new[revision.changed]] = CHANGED
    stays = np.zeros(len(mark), bool)
    stays[revision.to_new[revision.kept]] = True
    return marked_png(revision.panel, mark, stays, long_side_px=long_side_px)


def marked_png(panel: Panel, mark: Marks, stays: NDArray[np.bool_], *, long_side_px: int) -> Image:
    """Return a picture of the panel with some tesserae hatched, and a thick line around what stays.

    mark: (n,) one of HATCHED, 0 for none. stays: (n,).
    """
    from PIL import Image

    picture = picture_png(panel, long_side_px=long_side_px)
    scale = long_side_px / max(panel.width_mm, panel.height_mm)
    marked = Image.new("I", picture.size, 0)
    fill(marked, panel, scale, np.asarray(mark).tolist())
    hatched = Image.fromarray(_hatched(np.array(picture), np.asarray(marked), max(8, long_side_px // 90)))
    if not stays.any():
        return hatched
    return outlined(hatched, section_pixels(panel, np.where(stays, 0, -1), scale, hatched.size))


def difference_png(old: Panel, revision: Revision, *, long_side_px: int = 1200) -> Image:
    """Return both pictures with a word over each, and what the hatching means below, with its counts."""
    from PIL import Image

    pictures = [
        as_it_is_png(old, revision, long_side_px=long_side_px),
        as_it_would_be_png(revision, long_side_px=long_side_px),
    ]
    step = max(20, long_side_px // 30)
    across = pictures[0].width < _WIDE * pictures[0].height
    wide = sum(p.width for p in pictures) + 3 * step if across else max(p.width for p in pictures) + 2 * step
    spots, right, low = [], step, step
    for picture in pictures:
        spots.append((right, low + 2 * step))
        right += (picture.width + step) * across
        low += (picture.height + 3 * step) * (not across)
    bottom = max(y + p.height for (_, y), p in zip(spots, pictures, strict=True))
    whole = Image.new("RGB", (wide, bottom + 8 * step), PAPER)
    for title, spot, picture in zip((say("As it is"), say("As it would be")), spots, pictures, strict=True):
        whole.paste(picture, spot)
        write_words(whole, (spot[0], spot[1] - step), title, step)
    _legend(whole, revision, (step, bottom + 2 * step), step)
    return whole


def _legend(whole: Image, revision: Revision, spot: tuple[int, int], step: int) -> None:
    """Write what each hatching stands for, and how many pieces it is, a line each."""
    from PIL import Image, ImageDraw

    counts = {
        GONE: say("crossed: {count} gone", count=int(revision.gone.sum())),
        CHANGED: say("striped: {count} changed", count=int(revision.changed.sum())),
        ADDED: say("lined: {count} added", count=len(revision.added)),
    }
    x, y = spot
    for k, count in counts.items():
        grey = np.full((step, 3 * step, 3), 160, np.uint8)
        sample = _hatched(grey, np.full(grey.shape[:2], k), max(8, step // 2))
        whole.paste(Image.fromarray(sample), (x, y - step // 2))
        write_words(whole, (x + 4 * step, y), count, step)
        y += step + step // 2
    box = (x, y - step // 2, x + 3 * step, y + step // 2)
    ImageDraw.Draw(whole).rectangle(box, outline=EDGE, width=max(3, step // 6))
    kept = int(revision.kept.sum())
    words = say("within a thick line: {count} dry or set, which stay", count=kept)
    write_words(whole, (x + 4 * step, y), words, step)


def write_words(whole: Image, spot: tuple[int, int], text: str, step: int) -> None:
    """Write a line in ink, `step` pixels high, its left end and middle at `spot`."""
    from PIL import ImageDraw, ImageFont

    font = ImageFont.load_default(size=step)
    ImageDraw.Draw(whole).text(spot, text, font=font, fill=INK, anchor="lm")


def _hatched(pixels: NDArray[np.uint8], marked: Marks, period_px: int) -> NDArray[np.uint8]:
    """Return the pixels hatched and rimmed where they are marked: dark lines between light ones."""
    row, column = np.indices(marked.shape)
    ways = {"up": column + row, "down": column - row, "upright": column}
    of = {GONE: ("up", "down"), CHANGED: ("up",), ADDED: ("upright",)}
    rim = np.zeros(marked.shape, bool)
    rim[:, 1:] |= marked[:, 1:] != marked[:, :-1]
    rim[1:] |= marked[1:] != marked[:-1]
    out = pixels.copy()
    thick = max(1, period_px // 6)
    for paint, reach in ((EDGE_HALO, thick), (EDGE, 0)):  # a light line to either side of the dark one
        for mark, names in of.items():
            for name in names:
                line = (ways[name] + reach) % period_px < thick + 2 * reach
                out[(marked == mark) & line] = paint
    out[rim] = EDGE
    return out
