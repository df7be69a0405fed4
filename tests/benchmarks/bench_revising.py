"""Measure a revised drawing against shapely. Run: python -m tests.benchmarks.bench_revising

Prints, for Voronoi panels of 2,000 and 5,000 tesserae of which a fifth is kept, what laying a drawing over it
takes (matching and merging, joints included), and the peer: shapely alone finding by an STRtree which of the
same polygons lie on one another, and measuring what each pair shares. Once with the panel's own drawing, once
with another one.
"""

from __future__ import annotations

import math
from functools import partial

import shapely

from bench.drawing.panel import Panel
from bench.drawing.revised import revised
from bench.drawing.svg import read_drawing
from tests.benchmarks.bench_drawing import CELL_MM2, seconds
from tests.fakes.shapes import polygons_of, svg_of, voronoi


def panel_of(count: int, seed: int) -> Panel:
    """Return a panel of Voronoi cells, as many to the area as on a foot square of 2,000."""
    side_mm = math.sqrt(count * CELL_MM2)
    cells = voronoi(count, width_mm=side_mm, height_mm=side_mm, seed=seed)
    return read_drawing(svg_of(cells, side_mm, side_mm), f"seed {seed}")


def peer(old: list[shapely.Polygon], new: list[shapely.Polygon]) -> float:
    """Return what all pairs share, as plain shapely measures it. [mm²]"""
    one, other = shapely.STRtree(old).query(new, predicate="intersects")
    first, second = ([shapes[k] for k in which.tolist()] for shapes, which in ((new, one), (old, other)))
    return float(shapely.area(shapely.intersection(first, second)).sum())


def main() -> None:
    """Print a line for each size and kind of drawing."""
    print(f"{'tesserae':>10}{'drawing':>10}{'revised':>10}{'peer':>10}{'ratio':>8}")
    for count in (2_000, 5_000):
        old, another = panel_of(count, 0), panel_of(count, 1)
        kept = old.centroid_mm[:, 0] < old.width_mm / 5
        for name, new in (("its own", old), ("another", another)):
            shapes = polygons_of(old), polygons_of(new)
            ours = seconds(partial(revised, old, kept, new), 3)
            theirs = seconds(partial(peer, *shapes), 3)
            print(f"{count:>10}{name:>10}{ours:>9.2f}s{theirs:>9.2f}s{ours / theirs:>8.2f}")


if __name__ == "__main__":
    main()
