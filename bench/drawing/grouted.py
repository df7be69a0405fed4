"""The panel as it will look once it is grouted: glass and joints in true colours, joints as wide as drawn.

Light adds up where a pixel is part glass, part joint, so that joints finer than a pixel are neither too
dark nor too light.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import linear_to_srgb, srgb_to_linear
from bench.drawing.difference import write_words
from bench.drawing.figures import PAPER
from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.drawing.picture import GROUND
from bench.drawing.spans import spans

if TYPE_CHECKING:
    from PIL.Image import Image

FINE_PX, MOST_TIMES = 3200, 8  # points along the longer side, and at most along a pixel

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
    times = min(MOST_TIMES, max(2, -(-FINE_PX // long_side_px)))
    scale = long_side_px / max(panel.width_mm, panel.height_mm)
    columns = max(1, round(panel.width_mm * scale))
    rows = max(1, round(panel.height_mm * scale))
    who, joint = _fine(panel, (rows * times, columns * times), 1.0 / (scale * times))
    lit = srgb_to_linear(np.arange(256)).astype(np.float32)
    colour = np.vstack([panel.colour, np.array([GROUND], np.uint8)])  # the last is off the panel
    light, bare = np.zeros((rows, columns, 3)), np.zeros((rows, columns))
    for down, right in product(range(times), repeat=2):
        cell = joint[down::times, right::times]
        bare += cell
        light += np.where(cell[..., None], np.float32(0), lit[colour[who[down::times, right::times]]])
    middle = who[times // 2 :: times, times // 2 :: times]
    return Ungrouted(light / times**2, bare / times**2, _nearest(middle))


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


def _fine(panel: Panel, shape: tuple[int, int], step_mm: float) -> tuple[IntArray, NDArray[np.bool_]]:
    """Return the tessera of each point of a grid, -1 where there is none, and which points are joint."""
    rings = [panel.points_mm[a:b] for a, b in pairwise(panel.ring_start.tolist())]
    owner = np.repeat(np.arange(panel.tessera_count), np.diff(panel.tessera_ring))
    who = np.full(shape, -1, np.int32)
    for row, begin, end, tessera in spans(rings, owner, shape, step_mm):
        who[row, begin:end] = tessera
    inside = np.full(shape, not panel.outline_mm)
    outline = np.zeros(len(panel.outline_mm), np.int64)
    for row, begin, end, _ in spans(panel.outline_mm, outline, shape, step_mm) if panel.outline_mm else ():
        inside[row, begin:end] = True
    return who, (who < 0) & inside


def _nearest(who: IntArray) -> IntArray:
    """Return the tessera nearest to each point; the first where no point lies on any."""
    from scipy.ndimage import distance_transform_edt

    if (who < 0).all():
        return np.zeros_like(who)
    row, column = distance_transform_edt(who < 0, return_distances=False, return_indices=True)
    found: IntArray = who[row, column]
    return found
