"""Path data → sub-paths of lines and cubic curves, strictly: one stray sign is refused, not skipped.

One pass over the text, since a drawing holds thousands of paths.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field

from bench.drawing.arcs import cubics_of_arc
from bench.drawing.numbers import MOST, ONE_NUMBER, Unreadable, numbers

MOST_POINTS = 5_000_000  # of all outlines of a drawing

_LETTERS = "MmZzLlHhVvCcSsQqTtAa"
_COMMAND = re.compile(rf"([{_LETTERS}])([^{_LETTERS}]*)")
_SEPARATOR = re.compile(r"[\s,]*")
_POLYGON = re.compile(r"M([-+.0-9eE\s,L]*)([Zz]?)")  # by far the most common path of a mosaic
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2}


@dataclass(slots=True)
class Subpath:
    """One stroke of the pen, x and y in turn. `curve_ends` are the points at which a cubic ends.

    The two points before such an end are the cubic's control points; every other point ends a line.
    """

    flat: list[float]
    curve_ends: list[int] = field(default_factory=list)
    closed: bool = False

    def cubic_to(self, *coordinates: float) -> None:
        self.flat += coordinates
        self.curve_ends.append(len(self.flat) // 2 - 1)

    def quadratic_to(self, qx: float, qy: float, x: float, y: float) -> None:
        """Draw a quadratic curve as the cubic that it equals."""
        px, py = self.flat[-2:]
        self.cubic_to(
            px + (qx - px) * 2 / 3, py + (qy - py) * 2 / 3, x + (qx - x) * 2 / 3, y + (qy - y) * 2 / 3, x, y
        )

    def arc_to(self, rx: float, ry: float, turn: float, large: bool, sweep: bool, x: float, y: float) -> None:
        """Draw an elliptical arc as cubics of at most 30°, each within 1e-6 of the radius."""
        px, py = self.flat[-2:]
        if rx == 0 or ry == 0 or (px, py) == (x, y):
            self.flat += (x, y)
            return
        for cubic in cubics_of_arc(complex(px, py), complex(x, y), rx, ry, turn, large, sweep):
            self.cubic_to(*cubic)
        self.flat[-2:] = (x, y)


def read_path(text: str) -> list[Subpath]:
    """Return the sub-paths of a `d` attribute, in the order drawn; none for an empty one.

    Raises Unreadable where the text is no path data, a number is missing or too many, or not finite.
    """
    if text.strip() in ("", "none"):
        return []
    if plain := _polygon(text):
        return [plain]
    head = _COMMAND.search(text)
    if not head or text[: head.start()].strip():
        raise Unreadable("path", text[: head.start()] if head else text)
    pen = _Pen()
    for found in _COMMAND.finditer(text):
        pen.draw(found[1], found[2])
        if pen.points > MOST_POINTS:
            break  # more than any drawing may have: whoever counts them says so
    return [stroke for stroke in pen.strokes if len(stroke.flat) > 2]


def _polygon(text: str) -> Subpath | None:
    """Return a path of absolute lines only, None for any other or one that is not quite right."""
    plain = _POLYGON.fullmatch(text.strip())
    if not plain:
        return None
    runs = [run.split() for run in plain[1].replace(",", " ").split("L")]
    if (len(runs) < 2 and len(runs[0]) < 4) or any(len(run) % 2 or not run for run in runs):
        return None
    try:
        flat = [float(one) for run in runs for one in run]
    except ValueError:
        return None
    if not (max(flat) <= MOST and min(flat) >= -MOST):
        return None
    return Subpath(flat, closed=plain[2] != "")


class _Pen:
    """Follow the commands of one path."""

    def __init__(self) -> None:
        self.strokes: list[Subpath] = []
        self.up = True  # a new stroke must begin before the next line or curve
        self.last = ""  # the command before, for the smooth ones
        self.control: list[float] = []  # of the last quadratic curve: its control point and end

    @property
    def points(self) -> int:
        """Points of the stroke that is being drawn."""
        return len(self.strokes[-1].flat) // 2 if self.strokes else 0

    def draw(self, letter: str, text: str) -> None:
        kind = letter.upper()
        relative = letter != kind
        if kind == "A":
            values = _arc_numbers(text)
        else:
            values = numbers(text, "path")
            takes = _TAKES.get(kind, 0)
            if (len(values) % takes or not values) if takes else values:
                raise Unreadable("path", letter + text)
        if not self.strokes and kind != "M":
            raise Unreadable("path", letter + text)
        if kind == "Z":
            self.strokes[-1].closed = True
            self.up = True
        elif kind == "M":
            self._move(values, relative)
        else:
            if self.up:
                self.strokes.append(Subpath(self.strokes[-1].flat[:2]))
                self.up = False
            getattr(self, "_" + kind)(self.strokes[-1], values, relative)
        self.last = kind
        if self.strokes and not abs(self.strokes[-1].flat[-1]) + abs(self.strokes[-1].flat[-2]) <= 2 * MOST:
            raise Unreadable("path", letter + text)

    def _move(self, values: list[float], relative: bool) -> None:
        x = y = 0.0
        if relative and self.strokes:
            flat = self.strokes[-1].flat
            x, y = flat[:2] if self.up else flat[-2:]
        self.strokes.append(Subpath([x + values[0], y + values[1]]))
        self.up = False
        self._L(self.strokes[-1], values[2:], relative)

    def _L(self, stroke: Subpath, values: list[float], relative: bool) -> None:
        if not relative:
            stroke.flat += values
            return
        x, y = stroke.flat[-2:]
        for k in range(0, len(values), 2):
            x += values[k]
            y += values[k + 1]
            stroke.flat += (x, y)

    def _H(self, stroke: Subpath, values: list[float], relative: bool) -> None:
        for value in values:
            x, y = stroke.flat[-2:]
            stroke.flat += (x + value if relative else value, y)

    def _V(self, stroke: Subpath, values: list[float], relative: bool) -> None:
        for value in values:
            x, y = stroke.flat[-2:]
            stroke.flat += (x, y + value if relative else value)

    def _C(self, stroke: Subpath, values: list[float], relative: bool) -> None:
        for k in range(0, len(values), 6):
            stroke.cubic_to(*_shifted(stroke, values[k : k + 6], relative))

    def _S(self, stroke: Subpath, values: list[float], relative: bool) -> None:
        for k in range(0, len(values), 4):
            mirror = self._mirror(stroke, "CS")
            stroke.cubic_to(*mirror, *_shifted(stroke, values[k : k + 4], relative))
            self.last = "S"

    def _Q(self, stroke: Subpath, values: list[float], relative: bool) -> None:
        for k in range(0, len(values), 4):
            self.control = _shifted(stroke, values[k : k + 4], relative)
            stroke.quadratic_to(*self.control)

    def _T(self, stroke: Subpath, values: list[float], relative: bool) -> None:
        for k in range(0, len(values), 2):
            px, py = stroke.flat[-2:]
            qx, qy = self.control[:2] if self.last in ("Q", "T") else (px, py)
            self.control = [2 * px - qx, 2 * py - qy, *_shifted(stroke, values[k : k + 2], relative)]
            stroke.quadratic_to(*self.control)
            self.last = "T"

    def _A(self, stroke: Subpath, values: list[float], relative: bool) -> None:
        for k in range(0, len(values), 7):
            rx, ry, turn, large, sweep = values[k : k + 5]
            x, y = _shifted(stroke, values[k + 5 : k + 7], relative)
            stroke.arc_to(rx, ry, turn, large == 1, sweep == 1, x, y)
            if len(stroke.flat) > 2 * MOST_POINTS:
                return  # more than any drawing may have: whoever counts them says so

    def _mirror(self, stroke: Subpath, after: str) -> tuple[float, float]:
        """Return the control point that continues the curve before smoothly, or the point itself."""
        px, py = stroke.flat[-2:]
        if self.last not in after or len(stroke.flat) < 4:
            return px, py
        return 2 * px - stroke.flat[-4], 2 * py - stroke.flat[-3]


def _shifted(stroke: Subpath, values: list[float], relative: bool) -> list[float]:
    if not relative:
        return values
    here = stroke.flat[-2:]
    return [value + here[k % 2] for k, value in enumerate(values)]


def _arc_numbers(text: str) -> list[float]:
    """Return the seven numbers of each arc; the two flags may stand without a space."""
    values: list[float] = []
    place = _after_separator(text, 0)
    while place < len(text) or not values or len(values) % 7:
        if len(values) % 7 in (3, 4):
            one = text[place : place + 1]
            end = place + 1 if one in ("0", "1") else 0
        else:
            found = ONE_NUMBER.match(text, place)
            one, end = (found[0], found.end()) if found else ("", 0)
        if not end or not math.isfinite(float(one)):
            raise Unreadable("path", "A" + text[place : place + 40])
        values.append(float(one))
        place = _after_separator(text, end)
    return values


def _after_separator(text: str, place: int) -> int:
    found = _SEPARATOR.match(text, place)
    return found.end() if found else place
