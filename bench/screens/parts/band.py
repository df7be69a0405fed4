"""Geometry of the border that drains: boxes along the rim of the screen, and hatching within a box."""

from __future__ import annotations

from collections.abc import Iterator

Box = tuple[float, float, float, float]  # x, y, width, height


def rim_boxes(width: float, height: float, band: float, start: float, end: float) -> list[Box]:
    """Return the boxes that cover the rim from `start` to `end`, 0 to 1 clockwise from the top's middle.

    A rim thicker than half the screen covers it all and is cut to that; an empty span has no boxes.
    """
    band = min(band, width / 2, height / 2)
    half, tall = width / 2, height - 2 * band
    total = 2 * width + 2 * tall
    boxes, gone = [], 0.0
    for side, length in enumerate((half, tall, width, tall, half)):
        a = min(max(start * total - gone, 0.0), length)
        b = min(max(end * total - gone, 0.0), length)
        gone += length
        if b <= a:
            continue
        boxes.append(
            (
                (half + a, height - band, b - a, band),
                (width - band, height - band - b, band, b - a),
                (width - b, 0.0, b - a, band),
                (0.0, band + a, band, b - a),
                (a, height - band, b - a, band),
            )[side]
        )
    return boxes


def hatch(box: Box, pitch: float) -> Iterator[tuple[float, float, float, float]]:
    """Yield the diagonals x − y = k·pitch within a box, as x1, y1, x2, y2; they meet from box to box."""
    x, y, width, height = box
    k = int((x - y - height) // pitch) + 1
    while k * pitch < x + width - y:
        shift = k * pitch
        x1, x2 = max(x, y + shift), min(x + width, y + height + shift)
        if x2 > x1:
            yield x1, x1 - shift, x2, x2 - shift
        k += 1
