"""A picture of a panel: glass in its own colours on neutral grey, sections outlined and numbered."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.drawing.sight import REACH_MM
from bench.drawing.spot import number_spot_mm

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageDraw import ImageDraw

GROUND = (128, 128, 128)  # neutral mid-grey, against which colours look true
EDGE, EDGE_HALO = (16, 16, 16), (245, 245, 245)
_OVERSAMPLE = 2

Labels = NDArray[np.int32]


def picture_png(
    panel: Panel,
    label: NDArray[np.integer] | None = None,
    *,
    numbers: Sequence[int] | None = None,
    long_side_px: int = 1600,
) -> Image:
    """Return a picture of the panel, its longer side `long_side_px`.

    label: (n,) the section of each tessera, -1 for none; sections are then outlined and their number
    stands on a plate in their middle: numbers[label], or label + 1. None: the glass alone.
    """
    from PIL import ImageDraw

    picture, scale = _glass(panel, long_side_px)
    if label is None:
        return picture
    sections = np.asarray(label, np.int32)
    picture = outlined(picture, section_pixels(panel, sections, scale, picture.size))
    draw = ImageDraw.Draw(picture)
    for section in np.unique(sections[sections >= 0]).tolist():
        told = str(numbers[section] if numbers is not None else section + 1)
        _plate(draw, number_spot_mm(panel, np.flatnonzero(sections == section)) * scale, told, long_side_px)
    return picture


def joints_png(
    panel: Panel,
    number: NDArray[np.integer],
    *,
    most_numbered: int = 0,
    long_side_px: int = 1600,
) -> Image:
    """Return a picture of the glass with some joints drawn as lines, its longer side `long_side_px`.

    number: (m,) what is told of each of the panel's joints, 1 and up; 0 leaves it as it is. Each number up
    to `most_numbered` stands on a plate once, on the longest of its joints.
    """
    from PIL import ImageDraw

    picture, scale = _glass(panel, long_side_px)
    marked = np.flatnonzero(number > 0)
    if not len(marked):
        return picture
    n = panel.tessera_count
    owner = section_pixels(panel, np.arange(n, dtype=np.int32), scale, picture.size).astype(np.int64)
    pair = panel.joints.pair[marked].astype(np.int64)
    keys = np.sort(pair[:, 0] * n + pair[:, 1])
    edge = np.zeros(owner.shape, bool)
    for here, there in ((np.s_[:, 1:], np.s_[:, :-1]), (np.s_[1:], np.s_[:-1])):
        low, high = np.minimum(owner[here], owner[there]), np.maximum(owner[here], owner[there])
        edge[here] |= (low >= 0) & np.isin(low * n + high, keys)
    picture = _lined(picture, edge)
    draw = ImageDraw.Draw(picture)
    seen: set[int] = set()
    for k in marked[np.argsort(-panel.joints.length_mm[marked], kind="stable")].tolist():
        told = int(number[k])
        if told <= most_numbered and told not in seen:
            seen.add(told)
            middle = panel.centroid_mm[panel.joints.pair[k]].mean(axis=0)
            _plate(draw, middle * scale, str(told), long_side_px)
    return picture


def _glass(panel: Panel, long_side_px: int) -> tuple[Image, float]:
    """Return the glass alone on neutral grey, and how many pixels a mm is."""
    from PIL import Image

    scale = long_side_px * _OVERSAMPLE / max(panel.width_mm, panel.height_mm)
    size = (max(1, round(panel.width_mm * scale)), max(1, round(panel.height_mm * scale)))
    picture = Image.new("RGB", size, GROUND)
    fill(picture, panel, scale, [tuple(rgb) for rgb in panel.colour.tolist()])
    small = (max(1, size[0] // _OVERSAMPLE), max(1, size[1] // _OVERSAMPLE))
    return picture.resize(small, Image.Resampling.BOX), scale / _OVERSAMPLE


def fill(
    picture: Image, panel: Panel, scale: float, fills: Sequence[int | tuple[int, ...] | None]
) -> None:
    """Paint each tessera that has a fill; the holes of one are left as they are."""
    from PIL import Image, ImageDraw

    draw = ImageDraw.Draw(picture)
    for k, paint in enumerate(fills):
        if paint is None:
            continue
        rings = [ring * scale for ring in panel.rings_mm(k)]
        if len(rings) == 1:
            draw.polygon(rings[0].ravel().tolist(), fill=paint)
            continue
        low = np.floor(np.min([ring.min(axis=0) for ring in rings], axis=0)).astype(int)
        high = np.ceil(np.max([ring.max(axis=0) for ring in rings], axis=0)).astype(int)
        low, high = np.maximum(low, 0), np.minimum(high, picture.size)
        if not (high > low).all():
            continue
        mask = np.zeros((high - low)[::-1], bool)
        for ring in rings:
            one = Image.new("1", tuple((high - low).tolist()))
            ImageDraw.Draw(one).polygon((ring - low).ravel().tolist(), fill=1)
            mask ^= np.asarray(one)
        picture.paste(paint, tuple(low.tolist()), Image.fromarray(mask))


def section_pixels(panel: Panel, label: Labels, scale: float, size: tuple[int, int]) -> Labels:
    """Return the section of each pixel (height, width), -1 for bare ground.

    A joint is shared out between its two sides; glass next to bare ground keeps half a joint's reach.
    """
    from PIL import Image
    from scipy.ndimage import distance_transform_edt

    flat = Image.new("I", size, 0)
    fill(flat, panel, scale, (label + 2).tolist())  # 0 ground, 1 in no section, 2 the first section
    of = np.asarray(flat, np.int32)
    far, (row, column) = distance_transform_edt(of == 0, return_indices=True)
    return np.where(far <= REACH_MM / 2 * scale, of[row, column], 0).astype(np.int32) - 2


def outlined(picture: Image, of: Labels) -> Image:
    """Draw lines wherever one section ends."""
    edge = np.zeros(of.shape, bool)
    edge[:, 1:] |= (of[:, 1:] != of[:, :-1]) & (np.maximum(of[:, 1:], of[:, :-1]) >= 0)
    edge[1:] |= (of[1:] != of[:-1]) & (np.maximum(of[1:], of[:-1]) >= 0)
    return _lined(picture, edge)


def _lined(picture: Image, edge: NDArray[np.bool_]) -> Image:
    """Draw a dark line between light ones along the pixels given."""
    from PIL import Image
    from scipy.ndimage import distance_transform_edt

    if not edge.any():
        return picture
    far = distance_transform_edt(~edge)
    thick = max(1.5, max(edge.shape) / 700)
    pixels = np.array(picture)
    pixels[far <= thick * 2] = EDGE_HALO
    pixels[far <= thick] = EDGE
    return Image.fromarray(pixels)


def _plate(draw: ImageDraw, at: NDArray[np.float64], text: str, long_side_px: int) -> None:
    """Write dark on a near-white plate, in the middle of a section."""
    from PIL import ImageFont

    font = ImageFont.load_default(size=max(11, long_side_px // 50))
    left, top, right, low = draw.textbbox((0, 0), text, font=font)
    half = np.array([right - left, low - top]) / 2
    pad = max(3, long_side_px // 300)
    box = [*(at - half - pad).tolist(), *(at + half + pad).tolist()]
    draw.rounded_rectangle(box, radius=pad, fill=EDGE_HALO, outline=EDGE, width=max(1, long_side_px // 800))
    x, y = (at - half - (left, top)).tolist()
    draw.text((x, y), text, font=font, fill=EDGE)
