"""The demo's motifs: what of each form is seen, the rows it is laid in and the glass it is cut from."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from tests.tools import lay, sheets
from tests.tools import still_life as life

Dark = Callable[[float, float], float]  # x, y [mm] → 0 lit to 1 dark
Paint = Callable[[float, float, int, np.random.Generator], tuple[str, str]]  # x, y, row → colour, glass
Seen = Callable[[BaseGeometry], BaseGeometry]


@dataclass(frozen=True)
class Motif:
    """A form to lay. Motifs of one name make one group of the drawing."""

    name: str
    seen: BaseGeometry
    rows: Sequence[lay.Row]
    paint: Paint
    most_mm2: float = 75.0  # of a piece that had to take in a scrap


def opaque(ramp: tuple[str, ...], dark: Dark, spread: float = 0.5) -> Paint:
    """Return a paint of one ramp."""
    return lambda x, y, row, rng: (sheets.cut_from(ramp, dark(x, y), rng, spread=spread), "opaque")


def clear(ramp: tuple[str, ...], dark: Dark) -> Paint:
    return lambda x, y, row, rng: (sheets.cut_from(ramp, dark(x, y), rng, spread=0.6), "clear")


def soft(d: float, reach_mm: float) -> float:
    """Return 1 at no distance, falling off over reach_mm."""
    return math.exp(-((d / reach_mm) ** 2))


def scene() -> Iterator[Motif]:
    """Yield the motifs front to back, each seen behind those before it."""
    front: list[BaseGeometry] = []

    def seen(form: BaseGeometry) -> BaseGeometry:
        visible = form.difference(unary_union(front)) if front else form
        front.append(form)
        return visible.intersection(life.PAGE)

    yield from half_lemon(seen)
    yield lemon("lemon-8", life.ON_CLOTH, seen, [])
    for number in (3, 4):
        yield from leaf(number, seen)
    yield from bowl(seen)
    heap: list[BaseGeometry] = []
    for number, one in enumerate(life.HEAP, 1):
        yield lemon(f"lemon-{number}", one, seen, [*heap, life.bowl_body().union(life.rim_front())])
        heap.append(one.outline)
    for number in (1, 2):
        yield from leaf(number, seen)
    yield from bowl_back(seen)
    yield tumbler(seen)
    yield from ground(seen, unary_union(front))


def lemon(name: str, one: life.Lemon, seen: Seen, before: list[BaseGeometry]) -> Motif:
    nearer = unary_union(before)

    def dark(x: float, y: float) -> float:
        shade = one.dark(x, y) + (0.5 if one is life.HEAP[-1] else 0.0)
        return shade + (0.26 * soft(nearer.distance(Point(x, y)), 7) if before else 0.0)

    outline = one.outline
    return Motif(name, seen(outline), list(lay.rings(outline, 5.6, 6.3)), opaque(sheets.LEMON, dark, 0.45))


def leaf(number: int, seen: Seen) -> Iterator[Motif]:
    one = life.LEAVES[number - 1]
    for half, base in zip(one.halves, (0.18, 0.62), strict=True):
        row = lay.Row(half, lay.long_axis(half), 5.4)

        def dark(x: float, y: float, base: float = base) -> float:
            return base + 0.30 * (math.hypot(x - one.x, y - one.y) / one.length_mm - 0.5)

        yield Motif(f"leaf-{number}", seen(half), [row], opaque(sheets.LEAF, dark, 0.7))


def half_lemon(seen: Seen) -> Iterator[Motif]:
    x0, y0 = life.FACE.centroid.coords[0]
    rind, pith = life.FACE.buffer(-4.6), life.FACE.buffer(-8.6)
    heart = Point(x0, y0).buffer(3.1, 4)
    yield Motif("half-face", seen(heart), [lay.Row(heart, lay.long_axis(heart), 9)],
                opaque(sheets.PITH, lambda x, y: 0.3))  # fmt: skip
    wedges = [lay.Row(pith.buffer(-5.6), pith.buffer(-8.6).boundary, 0.0),
              lay.Row(pith, pith.buffer(-2.8).boundary, 0.0)]  # fmt: skip
    for number in range(9):
        a, b = (2 * math.pi * (number + k) / 9 + 0.2 for k in (0, 1))
        rim = [(x0 + 60 * math.cos(t), y0 + 60 * math.sin(t)) for t in (a, (a + b) / 2, b)]
        wedge = Polygon([(x0, y0), *rim])
        rows = [lay.Row(row.strip.intersection(wedge), row.line, 30) for row in wedges]

        def dark(x: float, y: float, base: float = (0.1, 0.5, 0.3)[number % 3]) -> float:
            return base + 0.012 * (x - x0 + y - y0)

        yield Motif("half-face", seen(pith.intersection(wedge)), rows, opaque(sheets.FLESH, dark, 0.7))
    pith_row = lay.Row(rind.difference(pith), life.FACE.buffer(-6.6).boundary, 6.5)
    yield Motif("half-face", seen(rind), [pith_row], opaque(sheets.PITH, lambda x, y: 0.4 + 0.02 * (y - y0)))
    yield Motif("half-face", seen(life.FACE), [lay.Row(life.FACE, life.FACE.buffer(-2.3).boundary, 6.6)],
                opaque(sheets.LEMON, lambda x, y: 0.30 + 0.008 * (x - x0) + 0.012 * (y - y0)))  # fmt: skip
    body = life.HALF_BODY
    yield Motif("half-skin", seen(body.outline), list(lay.rings(body.outline, 5.6, 6.3)),
                opaque(sheets.LEMON, lambda x, y: body.dark(x, y) + 0.1))  # fmt: skip


def bowl(seen: Seen) -> Iterator[Motif]:
    body, lip = life.bowl_body(), life.rim_front()

    def round_dark(x: float, y: float) -> float:
        across = (x - life.BOWL_X) / life.bowl_half_width(min(1.0, max(0.0, (y - life.RIM_Y) / 78)))
        side = 0.20 + 0.62 * max(0.0, across) ** 1.5 + 0.30 * max(0.0, -across - 0.55)
        return side + 0.30 * max(0.0, (y - 185) / 45) - 0.34 * soft(across + 0.42, 0.22)

    def paint(x: float, y: float, row: int, rng: np.random.Generator) -> tuple[str, str]:
        dark = round_dark(x, y)
        ramp = sheets.BAND if row in (1, 3) else sheets.BOWL
        glossy = dark < 0.10 and ramp is sheets.BOWL and rng.random() < 0.6
        return sheets.cut_from(ramp, dark, rng, spread=0.4), "iridised" if glossy else "opaque"

    def line(level: float) -> np.ndarray:
        x = np.linspace(-96, 96, 80)
        bend = life.RIM_RY + (life.FOOT_RY + 3 - life.RIM_RY) * max(0.0, level) / 80
        round_rx = 97 - 20 * max(0.0, level) / 80
        sag = bend * np.sqrt(np.maximum(0.02, 1 - (x / round_rx) ** 2)) - 0.2
        return np.column_stack([x + life.BOWL_X, life.RIM_Y + level + sag])

    lip_line = life.RIM.buffer(-life.LIP_MM / 2 + 0.4).boundary
    yield Motif("bowl-rim", seen(lip), [lay.Row(lip, lip_line, 6.8)],
                opaque(sheets.BOWL, lambda x, y: round_dark(x, 155) * 0.7 - 0.05, 0.3))  # fmt: skip
    levels = [-2.0, 5.6, 10.6, 17.6, 22.4, *np.arange(29.0, 90, 6.4)]
    yield Motif("bowl", seen(body), list(lay.bands(line, levels, 7.0)), paint)


def bowl_back(seen: Seen) -> Iterator[Motif]:
    far_lip = life.RIM.difference(life.MOUTH)
    lip_line = life.RIM.buffer(-life.LIP_MM / 2 + 0.4).boundary
    yield Motif("bowl-inside", seen(far_lip), [lay.Row(far_lip, lip_line, 6.8)],
                opaque(sheets.BOWL, lambda x, y: 0.3 + 0.002 * (x - life.BOWL_X), 0.3))  # fmt: skip
    yield Motif("bowl-inside", seen(life.MOUTH), list(lay.rings(life.MOUTH, 6, 7)),
                opaque(sheets.INSIDE, lambda x, y: 0.5 + 0.004 * (life.BOWL_X - x)))  # fmt: skip


def tumbler(seen: Seen) -> Motif:
    form = life.tumbler()

    def line(level: float) -> np.ndarray:
        x = np.linspace(-27, 27, 40)
        return np.column_stack(
            [x + life.GLASS_X, level + life.GLASS_RY * (np.sqrt(np.maximum(0.0, 1 - (x / 27.5) ** 2)) - 0.35)]
        )

    def dark(x: float, y: float) -> float:
        across = (x - life.GLASS_X) / (25 - 6 * (y - 84) / 99)
        if life.GLASS_MOUTH.contains(Point(x, y)):
            return 0.12 + 0.25 * max(0.0, y - life.GLASS_TOP_Y) / 7
        water = 0.22 if y > life.WATER_Y else 0.0
        foot = 0.25 * soft(y - 160, 10) - 0.25 * soft(y - 184, 5)
        sheen = 0.15 * soft(across - 0.5, 0.3) - 0.5 * soft(across + 0.5, 0.2)
        return 0.24 + water + foot + 0.42 * across**4 + sheen

    levels = [70.0, 79.5, 86, *np.linspace(92.5, 183, 15), 192]
    return Motif("tumbler", seen(form), list(lay.bands(line, levels, 6.4)), clear(sheets.TUMBLER, dark))


def ground(seen: Seen, objects: BaseGeometry) -> Iterator[Motif]:
    """Yield cloth and wall, each with an outline row round the objects and then rows of its own."""
    edge = life.cloth_line(0.0)
    cloth = Polygon([*edge, (life.WIDTH_MM + 20, 300), (-20, 300)])
    levels = np.cumsum([0.0, *np.tile([6.4, 7.2, 6.8, 7.6], 10)])
    cloth_rows = [lay.outline_row(objects, 6.0, 6.8), *lay.bands(life.cloth_line, levels, 7.4)]
    yield Motif("cloth", seen(cloth), cloth_rows, paint_cloth(objects))
    heights = np.cumsum([0.0, 10.0, 10.2, 10.0, 9.8, 9.6, 9.4, 9.2, 8.8, *[8.525] * 8, 9])
    light_rows = list(lay.bands(life.wall_line, heights, 9.0))
    ring = lay.outline_row(objects, 6.4, 7.4)
    # Two rows of wall above the light, so that no corner of the wall is cut off from the rest.
    above = unary_union([row.strip for row in light_rows[:2]])
    light = life.WINDOW_LIGHT.difference(ring.strip).difference(above)
    yield Motif("window-light", seen(light), light_rows,
                clear(sheets.LIGHT, lambda x, y: 0.25 + 0.5 * y / 112))  # fmt: skip
    wall_rows = [ring, *lay.bands(life.wall_line, heights, 10.6)]

    def dark(x: float, y: float) -> float:
        beside = 0.16 * soft(objects.distance(Point(x, y)), 5)
        return 0.26 + 0.36 * x / 360 + 0.10 * math.sin(x / 47 + y / 31) + beside

    yield Motif("wall", seen(life.PAGE), wall_rows, opaque(sheets.WALL, dark, 0.35), 140.0)


def paint_cloth(objects: BaseGeometry) -> Paint:
    """Return the cloth's paint: folds along its rows that open and close, and what stands on it in shadow."""
    shadows = (
        life.ellipse(222, 233, 84, 13, -4),
        life.ellipse(76, 243, 36, 10),
        life.ellipse(302, 246, 36, 9),
        life.ellipse(336, 190, 32, 7),
    )

    def paint(x: float, y: float, row: int, rng: np.random.Generator) -> tuple[str, str]:
        level = life.cloth_level(x, y)
        phase = level / 37 + 0.55 * math.sin(x / 58 + 0.4) + 0.12 * math.sin(x / 23)
        fold = math.cos(2 * math.pi * phase) + 0.38 * math.cos(4 * math.pi * phase + 0.9)
        strength = 0.29 + 0.13 * math.sin(x / 61 + level / 25)
        dark = 0.47 - strength * fold + 0.10 * (x - 180) / 180
        dark += sum(0.34 * soft(shadow.distance(Point(x, y)), 6) for shadow in shadows)
        dark += 0.10 if row == 0 else 0.0
        glint = dark < 0.16 and rng.random() < 0.3
        return sheets.cut_from(sheets.CLOTH, dark, rng, spread=0.33), "iridised" if glint else "opaque"

    return paint
