"""The page of a drawing: its size in px, and how its own units and a viewBox come to px."""

from __future__ import annotations

import re
from dataclasses import dataclass

from svgelements import Viewbox

from bench.drawing.faults import PageSizeWrong, SizeOutOfRange
from bench.drawing.numbers import IDENTITY, PX_PER_MM, Affine, Unreadable, affine, length_px, numbers
from bench.drawing.xmltree import Node

Box = tuple[float, float, float, float]

LEAST_MM, MOST_MM = 5.0, 20_000.0
_PLAIN_WHOLE_PX = (300.0, 150.0)  # what a percentage is of where nothing gives a size (CSS 2.2, 10.3.2)


@dataclass(frozen=True, slots=True)
class Page:
    """`width_px` and `height_px` are 0 where the drawing gives no size; `whole_px` is what 100 % is."""

    width_px: float
    height_px: float
    inner: Affine  # from the drawing's units to px
    whole_px: tuple[float, float]


def page_of(root: Node, name: str) -> Page:
    """Return the page; one missing side follows from the viewBox, both missing are the viewBox in px.

    Raises PageSizeWrong for a size that is zero, negative or not readable.
    """
    text = " × ".join(root.attributes.get(key, "") for key in ("width", "height"))
    try:
        box = view_box(root)
        width, height = (_side(root, key) for key in ("width", "height"))
    except Unreadable as error:
        raise PageSizeWrong(name, f"{error.attribute}={error.text}") from None
    if box is not None and not (box[2] > 0 and box[3] > 0):
        raise PageSizeWrong(name, "viewBox " + root.attributes["viewBox"])
    width, height = _completed(width, height, box)
    if width is None or height is None:
        if box is None and width is None and height is None:
            return Page(0.0, 0.0, IDENTITY, _PLAIN_WHOLE_PX)
        raise PageSizeWrong(name, text)
    if not (width > 0 and height > 0):
        raise PageSizeWrong(name, text)
    if box is None:
        return Page(width, height, IDENTITY, (width, height))
    try:
        return Page(width, height, view_affine(root, width, height), (box[2], box[3]))
    except Unreadable:
        raise PageSizeWrong(name, "viewBox " + root.attributes["viewBox"]) from None


def _completed(
    width: float | None, height: float | None, box: Box | None
) -> tuple[float | None, float | None]:
    """Return both sides, where the viewBox can tell the missing ones."""
    if box is None:
        return width, height
    if width is None:
        return (box[2], box[3]) if height is None else (height * box[2] / box[3], height)
    return width, width * box[3] / box[2] if height is None else height


def _side(root: Node, key: str) -> float | None:
    """Return the width or height in px; None where it is missing or a share of nothing known."""
    text = root.attributes.get(key, "").strip()
    return None if text in ("", "auto") or text.endswith("%") else length_px(text, key, 0.0)


def view_box(node: Node) -> Box | None:
    text = node.attributes.get("viewBox", "")
    if not text.strip():
        return None
    values = numbers(text, "viewBox")
    if len(values) != 4:
        raise Unreadable("viewBox", text)
    return values[0], values[1], values[2], values[3]


def view_affine(node: Node, width_px: float, height_px: float) -> Affine:
    """Return the transform of a viewBox into a window of the given size; svgelements knows the rule."""
    box = view_box(node)
    if box is None or not (box[2] > 0 and box[3] > 0):
        return IDENTITY
    aspect = " ".join(re.findall(r"[A-Za-z]+", node.attributes.get("preserveAspectRatio", ""))) or None
    return affine(Viewbox.viewbox_transform(0, 0, width_px, height_px, *box, aspect))


def panel_size_mm(
    page: Page, name: str, width_mm: float | None, height_mm: float | None
) -> tuple[float, float]:
    """Return the panel's size, rescaled where a side is given; one side given keeps the proportion.

    Raises SizeOutOfRange outside of 5 mm to 20 m.
    """
    width, height = page.width_px / PX_PER_MM, page.height_px / PX_PER_MM
    if not (width > 0 and height > 0):
        raise SizeOutOfRange(name, width, height)
    if width_mm is not None:
        width, height = width_mm, height_mm if height_mm is not None else width_mm * height / width
    elif height_mm is not None:
        width, height = height_mm * width / height, height_mm
    if not (LEAST_MM <= width <= MOST_MM and LEAST_MM <= height <= MOST_MM):
        raise SizeOutOfRange(name, width, height)
    return round(width, 9), round(height, 9)
