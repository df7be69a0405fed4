"""Measure the glass list against scikit-image. Run: python -m tests.benchmarks.bench_finish

Prints, for panels of as many colours as pieces, spread over all of sRGB (the worst there can be), what the
glass list takes at several allowed differences, pairs of neighbours, and the joints of each glass as a zone.
The peer is scikit-image's rgb2lab and deltaE_ciede2000 on a hundred pairs a piece. `--most N` leaves out
larger panels.
"""

from __future__ import annotations

import argparse
import math

import numpy as np
from skimage.color import deltaE_ciede2000, rgb2lab

from bench.drawing.svg import read_drawing
from bench.finish.beside import beside
from bench.finish.glass import glass_list
from bench.finish.zones import joint_grid, zone_joints_mm2
from tests.benchmarks.bench_drawing import seconds
from tests.fakes.drawings import grid_svg


def peer(rgb: np.ndarray) -> None:
    """Compare each colour with a hundred others, as scikit-image does."""
    lab = rgb2lab(rgb[None])[0]
    for k in range(1, 101):
        deltaE_ciede2000(lab, np.roll(lab, k, axis=0))


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--most", type=int, default=100_000)
    most = parser.parse_args().most
    for count in (n for n in (2_000, 20_000, 100_000) if n <= most):
        side = math.isqrt(count)
        code = np.random.default_rng(1).integers(0, 2**24, (side, side)).tolist()
        svg = grid_svg(side, side, colour=lambda c, r, code=code: f"#{code[r][c]:06x}")
        panel = read_drawing(svg, "colours.svg")
        unit = seconds(lambda panel=panel: peer(panel.colour), 1)
        print(f"{panel.tessera_count} pieces; scikit-image on a hundred pairs a piece: 1")
        for like in (0.0, 1.0, 2.0, 5.0, 10.0):
            took = seconds(lambda panel=panel, like=like: glass_list(panel, like_de=like), 2)
            listed = glass_list(panel, like_de=like)
            print(f"  like {like:g}: {len(listed.glasses)} glasses, {took / unit:.2f}")
        listed = glass_list(panel)
        print(f"  pairs: {seconds(lambda p=panel, g=listed: beside(p, g), 2) / unit:.2f}")
        zones = len(listed.glasses)
        took = seconds(lambda p=panel, g=listed, z=zones: zone_joints_mm2(p, joint_grid(p), g.of, z), 1)
        print(f"  joints of each glass: {took / unit:.2f}")


if __name__ == "__main__":
    main()
