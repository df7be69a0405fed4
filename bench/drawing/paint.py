"""What a fill comes to: a colour and whether anything of it is seen."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from svgelements import Color

from bench.drawing.numbers import Unreadable, number
from bench.drawing.xmltree import Node

Paint = tuple[int, int, int, float]  # red, green, blue of 255, and opacity of 1
BLACK: Paint = (0, 0, 0, 1.0)
GREY: Paint = (128, 128, 128, 1.0)  # stands for a pattern or gradient that has no colour of its own

_LONGEST = 1000  # characters
_HEX = re.compile(r"#(?:[0-9a-f]{3,4}|[0-9a-f]{6}|[0-9a-f]{8})")
_CALL = re.compile(r"(rgb|hsl)a?\(([-+.0-9e\s,/%dg]*)\)")
_URL = re.compile(r"url\(([^()]*)\)(.*)", re.DOTALL)
# Names that svgelements 1.9.6 has wrong or not at all; all others of CSS Color 4 it knows.
_NAMES = {"aliceblue": (240, 248, 255, 1.0), "rebeccapurple": (102, 51, 153, 1.0), "black": BLACK}


@lru_cache(maxsize=4096)
def plain_paint(text: str) -> Paint | None:
    """Return a colour written by name, in hex, rgb() or hsl(); None where it is none of these."""
    text = text[:_LONGEST].strip().lower()
    if text in _NAMES:
        return _NAMES[text]
    call = _CALL.fullmatch(text)
    if call:
        return _called(call[1], call[2])
    if not _HEX.fullmatch(text) and not text.isalpha():
        return None
    colour = Color(text)
    if colour.value is None or (colour.value == Color("black").value and text.isalpha()):
        return None  # svgelements paints an unknown word black
    return colour.red, colour.green, colour.blue, colour.opacity


def is_paint(text: str) -> bool:
    """Tell whether a `fill` or `color` can be read at all; CSS drops the ones that cannot."""
    text = text[:_LONGEST]
    word = text.lower()
    return word in ("none", "currentcolor", "inherit") or bool(_URL.fullmatch(text) or plain_paint(text))


def _called(kind: str, text: str) -> Paint | None:
    words = re.split(r"[\s,/]+", text.strip())
    if len(words) not in (3, 4):
        return None
    try:
        values = [_part(word, kind, k) for k, word in enumerate(words)]
    except Unreadable:
        return None
    alpha = min(1.0, max(0.0, values[3])) if len(values) == 4 else 1.0
    if kind == "hsl":
        colour = Color(f"hsl({values[0]},{100 * values[1]}%,{100 * values[2]}%)")
        return colour.red, colour.green, colour.blue, alpha
    red, green, blue = (round(min(255.0, max(0.0, value))) for value in values[:3])
    return red, green, blue, alpha


def _part(word: str, kind: str, place: int) -> float:
    """Return one part of rgb() up to 255, of hsl() in degrees and up to 1, the opacity up to 1."""
    share = word.endswith("%")
    value = number(word.removesuffix("%").removesuffix("deg"), "fill")
    if not share:
        return value
    return value / 100 * (255 if kind == "rgb" and place < 3 else 1)


def opacity(text: str | None) -> float:
    """Return an opacity from 0 to 1; 1 where it is not given or cannot be read."""
    text = (text or "")[:_LONGEST].strip()
    if not text:
        return 1.0
    try:
        value = number(text.removesuffix("%"), "opacity")
    except Unreadable:
        return 1.0
    return min(1.0, max(0.0, value / 100 if text.endswith("%") else value))


def fill_paint(text: str, current: Paint, by_id: Mapping[str, Node]) -> tuple[Paint | None, bool] | None:
    """Return (paint, true colour?) of a `fill`; (None, True) for no fill, None where it cannot be read.

    A gradient gives the mean of its stops; a pattern, or a gradient without stops, the colour that the
    fill falls back to, else grey, and is no true colour.
    """
    text = text[:_LONGEST].strip()
    if text.lower() == "none":
        return None, True
    if text.lower() == "currentcolor":
        return current, True
    url = _URL.fullmatch(text)
    if not url:
        plain = plain_paint(text)
        return (plain, True) if plain else None
    mean = _mean_of_stops(url[1].strip(" \t\r\n'\"").lstrip("#"), by_id)
    if mean:
        return mean, True
    return plain_paint(url[2].strip()) or GREY, False


def _mean_of_stops(name: str, by_id: Mapping[str, Node]) -> Paint | None:
    for _ in range(8):  # a gradient may lend its stops from another one
        node = by_id.get(name)
        if node is None or node.tag not in ("linearGradient", "radialGradient"):
            return None
        stops = [paint for child in node.children if child.tag == "stop" and (paint := _stop(child))]
        if stops:
            red, green, blue = (round(sum(part) / len(stops)) for part in list(zip(*stops, strict=True))[:3])
            return red, green, blue, 1.0
        name = node.attributes.get("href", "").lstrip("#")
    return None


def _stop(node: Node) -> Paint | None:
    text = node.attributes.get("stop-color", "")
    found = re.search(r"stop-color\s*:\s*([^;]+)", node.attributes.get("style", ""))
    return plain_paint(found[1] if found else text or "black")
