"""The forms of the demo: lemons in a bowl on a cloth, in mm on a page of 360 × 270 mm, y down."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from shapely.affinity import rotate, scale, translate
from shapely.geometry import Point, Polygon, box
from shapely.geometry.base import BaseGeometry

WIDTH_MM, HEIGHT_MM = 360.0, 270.0
PAGE = box(0.4, 0.4, WIDTH_MM - 0.4, HEIGHT_MM - 0.4)
LIGHT = np.array([-0.50, -0.60, 0.62])  # from the upper left, in front of the page
BOWL_X, RIM_Y, RIM_RX, RIM_RY = 176.0, 150.0, 92.0, 21.0
FOOT_Y, FOOT_RX, FOOT_RY = 229.0, 38.0, 7.0
LIP_MM = 6.0


def ellipse(x: float, y: float, rx: float, ry: float, turn_deg: float = 0.0) -> Polygon:
    """Return an ellipse of 128 corners."""
    return translate(rotate(scale(Point(0, 0).buffer(1, 32), rx, ry), turn_deg, origin=(0, 0)), x, y)


@dataclass(frozen=True)
class Lemon:
    """A lemon: an egg of half axes a and b with a tip at the end that turn_deg points to. [mm, deg]"""

    x: float
    y: float
    a: float
    b: float
    turn_deg: float

    @property
    def outline(self) -> Polygon:
        """The contour, with the tip and a slight shoulder at the stem."""
        angle = np.linspace(0, 2 * math.pi, 120, endpoint=False)
        tip = 0.24 * np.exp(-((np.angle(np.exp(1j * angle)) / 0.22) ** 2))
        stem = 0.07 * np.exp(-((np.angle(np.exp(1j * (angle - math.pi))) / 0.25) ** 2))
        reach = 1 + tip + stem
        points = np.column_stack([self.a * reach * np.cos(angle), self.b * reach * np.sin(angle)])
        return translate(rotate(Polygon(points), self.turn_deg, origin=(0, 0)), self.x, self.y)

    def dark(self, x: float, y: float) -> float:
        """Return how far a spot is from full light, 0 to 1, on an ellipsoid with a lit edge below."""
        turn = math.radians(self.turn_deg)
        along = ((x - self.x) * math.cos(turn) + (y - self.y) * math.sin(turn)) / self.a
        across = (-(x - self.x) * math.sin(turn) + (y - self.y) * math.cos(turn)) / self.b
        far = min(0.97, math.hypot(along, across))
        p, q = along / self.a, across / self.b
        normal = np.array(
            [
                p * math.cos(turn) - q * math.sin(turn),
                p * math.sin(turn) + q * math.cos(turn),
                math.sqrt(1 - far**2) / self.b,
            ]
        )
        lit = float(normal @ LIGHT / np.linalg.norm(normal))
        bounce = 0.10 if normal[1] > 0 and far > 0.86 and lit < 0.2 else 0.0
        return 0.88 - 0.90 * max(-0.1, lit) - bounce


HEAP = (  # front to back
    Lemon(165, 144, 35, 25.5, 172),
    Lemon(223, 141, 34, 25, 20),
    Lemon(113, 141, 31, 24.5, 196),
    Lemon(140, 107, 32, 24.5, 203),
    Lemon(201, 107, 33, 24.5, -24),
    Lemon(172, 75, 32, 23, -10),
    Lemon(171, 117, 27, 24, 90),
)
ON_CLOTH = Lemon(66, 222, 33, 25, 166)


@dataclass(frozen=True)
class Leaf:
    """A leaf from its stalk to its point, bent sideways by bend_mm. [mm, deg]"""

    x: float
    y: float
    length_mm: float
    width_mm: float
    turn_deg: float
    bend_mm: float

    @property
    def halves(self) -> tuple[Polygon, Polygon]:
        """The two sides of the midrib."""
        s = np.linspace(0, 1, 40)
        rib = np.column_stack([s * self.length_mm, self.bend_mm * np.sin(math.pi * s)])
        half = np.column_stack([np.zeros_like(s), self.width_mm / 2 * np.sin(math.pi * s**0.85) ** 0.9])
        sides = (Polygon(np.vstack([rib, (rib + sign * half)[::-1]])).buffer(0) for sign in (-1, 1))
        first, second = (
            translate(rotate(side, self.turn_deg, origin=(0, 0)), self.x, self.y) for side in sides
        )
        return first, second

    @property
    def outline(self) -> BaseGeometry:
        first, second = self.halves
        return first.union(second.buffer(0.01))


LEAVES = (
    Leaf(194, 62, 52, 23, -30, -6),
    Leaf(150, 64, 50, 22, 205, 6),
    Leaf(243, 146, 50, 22, 44, -7),
    Leaf(98, 232, 46, 20, 12, 4),
)

MOUTH = ellipse(BOWL_X, RIM_Y - 0.5, RIM_RX - LIP_MM, RIM_RY - LIP_MM + 1.2)
RIM = ellipse(BOWL_X, RIM_Y, RIM_RX, RIM_RY)
LOWER = box(0, RIM_Y, WIDTH_MM, HEIGHT_MM)


def bowl_half_width(down: float) -> float:
    """Return the bowl's half width at a height. down: 0 the rim, 1 the foot."""
    return FOOT_RX + (RIM_RX - FOOT_RX) * max(0.0, 1 - down**1.9) ** 0.72


def bowl_body() -> Polygon:
    """Return the outside of the bowl below the rim row, the foot included."""
    down = np.linspace(0, 1, 50)
    half = np.array([bowl_half_width(float(t)) for t in down])
    y = RIM_Y + down * (FOOT_Y - 5 - RIM_Y)
    right = np.column_stack([BOWL_X + half, y])
    left = np.column_stack([BOWL_X - half, y])[::-1]
    foot = ellipse(BOWL_X, FOOT_Y - 1, FOOT_RX, FOOT_RY)
    neck = box(BOWL_X - FOOT_RX, FOOT_Y - 9, BOWL_X + FOOT_RX, FOOT_Y - 1)
    return Polygon(np.vstack([right, left])).union(foot).union(neck).difference(RIM)


def rim_front() -> BaseGeometry:
    """Return the near half of the lip."""
    return RIM.difference(MOUTH).intersection(LOWER)


FACE = ellipse(283, 226, 26.5, 24.5, -20)
HALF_BODY = Lemon(299, 219, 27, 23.5, -24)

GLASS_X, GLASS_TOP_Y, GLASS_FOOT_Y = 320.0, 84.0, 183.0
GLASS_TOP_RX, GLASS_FOOT_RX, GLASS_RY = 25.0, 19.0, 7.0
WATER_Y = 114.0
GLASS_MOUTH = ellipse(GLASS_X, GLASS_TOP_Y, GLASS_TOP_RX, GLASS_RY)


def tumbler() -> BaseGeometry:
    """Return the outline of a glass of water."""
    sides = Polygon(
        [
            (GLASS_X - GLASS_TOP_RX, GLASS_TOP_Y),
            (GLASS_X + GLASS_TOP_RX, GLASS_TOP_Y),
            (GLASS_X + GLASS_FOOT_RX, GLASS_FOOT_Y),
            (GLASS_X - GLASS_FOOT_RX, GLASS_FOOT_Y),
        ]
    )
    return sides.union(GLASS_MOUTH).union(ellipse(GLASS_X, GLASS_FOOT_Y, GLASS_FOOT_RX, 3.4))


WINDOW_LIGHT = Polygon([(44, 0), (97, 0), (14, 146), (0, 146), (0, 77)])
CLOTH_Y = 145.0


def wall_line(level: float) -> np.ndarray:
    """Return a line of the wall's rows: straight at the top, arched over the heap, last the cloth's edge."""
    x = np.linspace(-20, WIDTH_MM + 20, 120)
    lift = 46 * np.exp(-(((x - 174) / 90) ** 2)) + 9 * np.exp(-(((x - 322) / 45) ** 2))
    down = max(0.0, level) / CLOTH_Y
    edge = np.interp(x, cloth_line(0.0)[:, 0], cloth_line(0.0)[:, 1]) - CLOTH_Y
    return np.column_stack([x, level - lift * down**1.3 * (1 - down**4) + edge * down**3])


def cloth_line(level: float) -> np.ndarray:
    """Return a line of the cloth's rows: its far edge at 0, swinging wider towards the front."""
    x = np.linspace(-20, WIDTH_MM + 20, 200)
    near = max(0.0, level) / 120
    wave = np.sin(2 * math.pi * (x - 34) / 262 + 1.1 * near)
    ripple = 0.30 * np.sin(2 * math.pi * x / 121 + 1.1 - 1.5 * near)
    return np.column_stack([x, CLOTH_Y + level + (2.4 + 16 * near) * (wave + ripple)])


def cloth_level(x: float, y: float) -> float:
    """Return the level of the cloth line through a point, by bisection."""
    low, high = -40.0, 190.0
    for _ in range(28):
        middle = (low + high) / 2
        line = cloth_line(middle)
        low, high = (middle, high) if float(np.interp(x, line[:, 0], line[:, 1])) < y else (low, middle)
    return (low + high) / 2
