"""Measure reading and jointing against shapely. Run: python -m tests.benchmarks.bench_drawing

Prints, for Voronoi panels of 2,000, 20,000 and 100,000 tesserae, what reading takes (with its checks, without
joints), what joints take, and the peer: shapely alone finding neighbours on polygons that it already has, by
an STRtree over the pieces grown by half the reach and the length of each piece's border inside its
neighbours. Then how the times grow: time ~ n^e. `--most N` leaves out larger panels.

Last a scan of 12 megapixels with 2,000 cells in lines of 0.8 mm, all the way to a panel with its joints, and
its peer, which does less: scikit-image's label and find_contours on the scan, the threshold being given.
"""

from __future__ import annotations

import argparse
import math
import multiprocessing
import resource
import time
from collections.abc import Callable
from itertools import pairwise

import numpy as np
import shapely
from skimage.measure import find_contours, label

from bench.drawing.joints import joints_of
from bench.drawing.lines import panel_of_lines
from bench.drawing.photo import Picture
from bench.drawing.svg import read_drawing
from bench.drawing.trace import traced
from tests.fakes.line_scans import drawn_svg, photographed, scan
from tests.fakes.shapes import polygons_of, svg_of, voronoi

CELL_MM2 = 46.5  # of a foot square with 2,000 tesserae


def seconds(work: Callable[[], object], repeat: int) -> float:
    """Return the least processor time of several runs."""
    times = []
    for _ in range(repeat):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


def peer(pieces: list[shapely.Polygon]) -> int:
    """Return how many pairs have a border of 1 mm and more within reach, as plain shapely would find them."""
    grown = shapely.buffer(pieces, 1.0, quad_segs=4)
    one, other = shapely.STRtree(grown).query(grown, predicate="intersects")
    keep = one < other
    one, other = one[keep], other[keep]
    border = shapely.boundary(np.array(pieces))
    length = shapely.length(shapely.intersection(border[one], shapely.buffer(np.array(pieces)[other], 2.0)))
    return int((length >= 1).sum())


def curved(count: int) -> bytes:
    """Return a grid of tesserae whose sides are cubic curves that they share."""
    columns = math.isqrt(count)
    pitch = math.sqrt(CELL_MM2)
    side = columns * pitch
    body = []
    for k in range(columns * columns):
        x, y = (k % columns) * pitch, (k // columns) * pitch
        corners = [(x, y), (x + pitch, y), (x + pitch, y + pitch), (x, y + pitch)]
        sides = "".join(_bent(corners[n], corners[(n + 1) % 4]) for n in range(4))
        body.append(f'<path d="M{x:.3f},{y:.3f}{sides}z"/>')
    size = f'width="{side}mm" height="{side}mm" viewBox="0 0 {side} {side}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{"".join(body)}</svg>'.encode()


def _bent(a: tuple[float, float], b: tuple[float, float]) -> str:
    (ax, ay), (bx, by) = a, b
    sign = 0.08 if a < b else -0.08
    nx, ny = -sign * (by - ay), sign * (bx - ax)
    one = f"{ax + (bx - ax) / 3 + nx:.3f},{ay + (by - ay) / 3 + ny:.3f}"
    two = f"{ax + (bx - ax) * 2 / 3 + nx:.3f},{ay + (by - ay) * 2 / 3 + ny:.3f}"
    return f"C{one} {two} {bx:.3f},{by:.3f}"


def measure(data: bytes, repeat: int) -> tuple[float, float, float]:
    """Return the seconds of reading, of joints and of the peer, on one drawing."""
    panel = read_drawing(data, "bench")
    both = seconds(lambda: read_drawing(data, "bench"), repeat)
    joint = seconds(
        lambda: joints_of(panel.points_mm, panel.ring_start, panel.tessera_ring, panel.area_mm2), repeat
    )
    pieces = polygons_of(panel)
    return both - joint, joint, seconds(lambda: peer(pieces), repeat)


def cells_in_lines() -> tuple[Picture, Picture]:
    """Return a scan of 2,000 cells on 12 megapixels, and the same with grain and a shadow over it."""
    width, height = math.sqrt(2_000 * CELL_MM2 * 4 / 3), math.sqrt(2_000 * CELL_MM2 * 3 / 4)
    pieces = voronoi(2_000, width_mm=width, height_mm=height, seed=1)
    plain = scan(drawn_svg(pieces, (width, height)), width, 4_000 * 25.4 / width)
    return plain, photographed(plain, dark=0.8, noise=2.0)


def measure_lines(repeat: int) -> None:
    """Print what a scanned line drawing takes, whole and for its outlines alone, and the memory it needs."""
    with multiprocessing.get_context("spawn").Pool(1) as other_process:  # its memory is not ours
        plain, picture = other_process.apply(cells_in_lines)
    light = plain.pixels[..., 0] > 127
    held = peak_mb()
    panel, report = panel_of_lines(picture)
    peak = peak_mb()
    whole = seconds(lambda: panel_of_lines(picture), repeat)
    other = seconds(lambda: (label(light, connectivity=1), find_contours(light, 0.5)), repeat)
    labels = label(light, connectivity=1).astype(np.int32)
    outlines = seconds(lambda: traced(labels, mm_per_px=0.1, tolerance_mm=0.1), repeat)
    joints = len(panel.joints.pair)
    print(f"\nscan of {light.size / 1e6:.1f} megapixels: {report.told()}")
    print(f"whole {whole:.2f} s, peer {other:.2f} s, ratio {whole / other:.2f}; {joints:,} joints")
    print(f"outlines of the labels alone {outlines:.2f} s, ratio {outlines / other:.2f}")
    print(f"memory: {peak:.0f} MB at the peak, {held:.0f} MB before with the scan held")


def peak_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--most", type=int, default=100_000)
    most = parser.parse_args().most
    print(f"{'panel':>22} {'read s':>8} {'joints s':>9} {'peer s':>8} {'read/peer':>10} {'joints/peer':>12}")
    rows = []
    for count in [n for n in (2_000, 20_000, 100_000) if n <= most]:
        side = math.sqrt(count * CELL_MM2)
        data = svg_of(voronoi(count, width_mm=side, height_mm=side, seed=1), side, side, digits=4)
        rows.append((count, measure(data, 3 if count < 10_000 else 1)))
        show(f"voronoi {count:,}", rows[-1][1])
    show("curved 2,025", measure(curved(2_025), 3))
    for (n, one), (m, two) in pairwise(rows):
        grows = [math.log(b / a) / math.log(m / n) for a, b in zip(one, two, strict=True)]
        told = ", ".join(
            f"{what} n^{e:.2f}" for what, e in zip(("read", "joints", "peer"), grows, strict=True)
        )
        print(f"{n:,} → {m:,}: {told}")
    measure_lines(3)


def show(what: str, times: tuple[float, float, float]) -> None:
    read, joint, other = times
    print(f"{what:>22} {read:8.3f} {joint:9.3f} {other:8.3f} {read / other:10.2f} {joint / other:12.2f}")


if __name__ == "__main__":
    main()
