"""The panel as it will look once it is grouted: glass and joints in true colours, joints as wide as drawn.

Light adds up where a pixel is part glass, part joint, so that joints finer than a pixel are neither too
dark nor too light.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import linear_to_srgb, srgb_to_linear
from bench.drawing.difference import write_words
from bench.drawing.figures import PAPER
from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.drawing.picture import GROUND, fill, nearest_pixels

if TYPE_CHECKING:
    from PIL.Image import Image

FINE_PX = 1200  # a picture as large as this is fine enough at half the oversampling

Colours = NDArray[np.integer]


@dataclass(frozen=True, eq=False)
class Ungrouted:
    """The glass of a panel as light, to be grouted in one colour after another.

    light: (rows, columns, 3) of glass and of what lies off the panel, in linear light, by the share that
    each has of a pixel. bare: (rows, columns) the share that is joint. nearest: the tessera nearest to it.
    """

    light: FloatArray
    bare: FloatArray
    nearest: IntArray


def ungrouted(panel: Panel, *, long_side_px: int) -> Ungrouted:
    """Return the glass of a panel in a picture whose longer side is `long_side_px`.

    A panel without an outline of its own is grouted to the edges of the page.
    """
    times = 2 if long_side_px >= FINE_PX else 4
    scale = long_side_px / max(panel.width_mm, panel.height_mm)
    columns = max(1, round(panel.width_mm * scale))
    rows = max(1, round(panel.height_mm * scale))
    fine = _fine(panel, scale * times, (columns * times, rows * times))
    lit = srgb_to_linear(np.arange(256)).astype(np.float32)
    light, bare = np.zeros((rows, columns, 3)), np.zeros((rows, columns))
    for down, right in product(range(times), repeat=2):
        cell = fine[down::times, right::times]
        joint = cell[..., 3] > 0
        bare += joint
        light += np.where(joint[..., None], np.float32(0), lit[cell[..., :3]])
    light, bare = light / times**2, bare / times**2
    everyone = np.arange(panel.tessera_count, dtype=np.int32)
    nearest, _ = nearest_pixels(panel, everyone, scale, (columns, rows))
    return Ungrouted(light, bare, np.maximum(nearest, 0))


def grouted(glass: Ungrouted, grout: Colours) -> NDArray[np.uint8]:
    """Return the picture with its joints filled, (rows, columns, 3) sRGB.

    grout: (n, 3) the colour of the joints around each tessera; a joint is shared out between its sides.
    """
    lit = srgb_to_linear(grout)
    return linear_to_srgb(glass.light + glass.bare[..., None] * lit[glass.nearest])


def side_by_side(pictures: Sequence[NDArray[np.uint8]], words: Sequence[Sequence[str]]) -> Image:
    """Return pictures of one size in one or two rows on paper, a few lines of words below each."""
    from PIL import Image

    rows, columns = pictures[0].shape[:2]
    across = len(pictures) if columns <= rows or len(pictures) < 3 else 2
    down = -(-len(pictures) // across)
    step = max(16, max(rows, columns) // 34)
    lines = max(len(told) for told in words)
    wide, high = columns + step, rows + (2 * lines + 1) * step
    whole = Image.new("RGB", (across * wide + step, down * high + step), PAPER)
    for k, (picture, told) in enumerate(zip(pictures, words, strict=True)):
        x, y = step + k % across * wide, step + k // across * high
        whole.paste(Image.fromarray(picture), (x, y))
        for n, line in enumerate(told):
            write_words(whole, (x, y + rows + step + 3 * n * step // 2), line, step)
    return whole


def _fine(panel: Panel, scale: float, size: tuple[int, int]) -> NDArray[np.uint8]:
    """Return the glass (rows, columns, 4), the last where there is joint."""
    from PIL import Image, ImageDraw

    glass = Image.new("RGB", size, GROUND)
    fill(glass, panel, scale, [tuple(rgb) for rgb in panel.colour.tolist()])
    covered = Image.new("1", size, 0)
    fill(covered, panel, scale, [1] * panel.tessera_count)
    joint = ~np.asarray(covered)
    if panel.outline_mm:
        inside = np.zeros(joint.shape, bool)
        for ring in panel.outline_mm:
            one = Image.new("1", size, 0)
            ImageDraw.Draw(one).polygon((ring * scale).ravel().tolist(), fill=1)
            inside ^= np.asarray(one)
        joint &= inside
    return np.dstack([np.asarray(glass), joint.astype(np.uint8)])
