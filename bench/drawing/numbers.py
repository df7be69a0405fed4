"""Numbers, lengths and transforms as SVG writes them; whatever is not quite right is refused, not guessed."""

from __future__ import annotations

import math
import re
from functools import lru_cache

from svgelements import Matrix

# Matched one at a time, never two in a row in one pattern: a long run of digits would be tried in all its
# parts. Possessive and atomic groups would prevent that, but Python before 3.11.5 gets them wrong.
NUMBER = r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?"
PX_PER_MM = 96 / 25.4
MOST = 1e12  # beyond this a number is taken for a slip of the pen

Affine = tuple[float, float, float, float, float, float]  # x' = a·x + c·y + e, y' = b·x + d·y + f
IDENTITY: Affine = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)

_LONGEST, _LONGEST_TRANSFORM = 200, 10_000  # characters

_PX = {
    "": 1.0,
    "px": 1.0,
    "mm": PX_PER_MM,
    "cm": 10 * PX_PER_MM,
    "q": PX_PER_MM / 4,
    "in": 96.0,
    "pt": 96 / 72,
    "pc": 16.0,
    "em": 16.0,  # a page's default letter height; drawings seldom mean anything else
    "rem": 16.0,
    "ex": 8.0,
    "ch": 8.0,
}
_LENGTH = re.compile(rf"\s*({NUMBER})\s*([A-Za-z]*|%)\s*")
ONE_NUMBER = re.compile(NUMBER)
_CALL = re.compile(r"[\s,]*([A-Za-z]+)\s*\(([^()]*)\)[\s,;]*")
_MOVES = ("translate", "translatex", "translatey", "rotate")
_FUNCTIONS = frozenset(("matrix", *_MOVES, "scale", "scalex", "scaley", "skew", "skewx", "skewy"))
_ARGUMENT = re.compile(rf"[\s,]*({NUMBER})(deg|grad|rad|turn|px|mm|cm|in|pt|pc)?")


class Unreadable(ValueError):
    """A text that is no number, length, path or transform; the reader of shapes adds where it stands."""

    def __init__(self, attribute: str, text: str) -> None:
        super().__init__(attribute, text)
        self.attribute = attribute
        self.text = text


def number(text: str, attribute: str) -> float:
    """Return a finite number, or raise Unreadable."""
    if len(text) > _LONGEST or not ONE_NUMBER.fullmatch(text.strip()):
        raise Unreadable(attribute, text)
    return within(float(text), attribute, text)


def within(value: float, attribute: str, text: str) -> float:
    if not abs(value) <= MOST:
        raise Unreadable(attribute, text)
    return value


def numbers(text: str, attribute: str) -> list[float]:
    """Return the numbers of a list such as `points`; anything between them but space and comma is refused."""
    found = ONE_NUMBER.findall(text)
    rest = ONE_NUMBER.sub("", text).strip(" \t\r\n\f,")
    if rest and (rest := re.sub(r"[\s,]", "", rest)):
        raise Unreadable(attribute, rest)
    values = [float(one) for one in found]
    if values and not (max(values) <= MOST and min(values) >= -MOST):
        raise Unreadable(attribute, next(one for one in found if not abs(float(one)) <= MOST))
    return values


def length_px(text: str, attribute: str, whole_px: float) -> float:
    """Return a length in px; a percentage is one of `whole_px`, a bare number is px already."""
    found = _LENGTH.fullmatch(text) if len(text) <= _LONGEST else None
    if not found:
        raise Unreadable(attribute, text)
    unit = found[2].lower()
    factor = whole_px / 100 if unit == "%" else _PX.get(unit)
    if factor is None:
        raise Unreadable(attribute, text)
    return within(float(found[1]) * factor, attribute, text)


@lru_cache(maxsize=4096)
def affine(text: str) -> Affine:
    """Read a `transform`; svgelements does the geometry, after every part of the text was understood."""
    if text.strip().lower() in ("", "none"):
        return IDENTITY
    if len(text) > _LONGEST_TRANSFORM:
        raise Unreadable("transform", text)
    calls, place = [], 0
    while place < len(text):
        call = _CALL.match(text, place)
        if not call or call[1].lower() not in _FUNCTIONS:
            raise Unreadable("transform", text[place:])
        calls.append(f"{call[1]}({','.join(_arguments(call[2]))})")
        place = call.end()
    try:
        matrix = Matrix(" ".join(calls))
        matrix.render(ppi=96, width=0, height=0)
        a, b, c, d, e, f = (float(v) for v in (matrix.a, matrix.b, matrix.c, matrix.d, matrix.e, matrix.f))
    except (ValueError, TypeError, IndexError, OverflowError):
        raise Unreadable("transform", text) from None
    found = (a, b, c, d, e, f)
    if not all(abs(value) <= MOST for value in found):
        raise Unreadable("transform", text)
    return found


def _arguments(text: str) -> list[str]:
    found, place = [], 0
    while place < len(text.rstrip(" \t\r\n,")):
        one = _ARGUMENT.match(text, place)
        if not one:
            raise Unreadable("transform", text[place:])
        found.append(f"{float(one[1])!r}{one[2] or ''}")
        place = one.end()
    if not found:
        raise Unreadable("transform", f"({text})")
    return found


def then(outer: Affine, inner: Affine) -> Affine:
    """Return the transform that does `inner` first and `outer` after it."""
    a, b, c, d, e, f = outer
    p, q, r, s, t, u = inner
    return (a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f)


def greatest_stretch(matrix: Affine) -> float:
    """Return the greatest factor by which the transform lengthens anything (its larger singular value)."""
    a, b, c, d, _, _ = matrix
    half = (a * a + b * b + c * c + d * d) / 2
    return math.sqrt(half + math.sqrt(max(0.0, half * half - (a * d - b * c) ** 2)))
