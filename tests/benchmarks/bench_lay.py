"""Measure the trial lay against Lloyd passes on the same pixels. Run: python -m tests.benchmarks.bench_lay

Prints, for a painted study laid in about 2,000 and 20,000 pieces, what the whole lay takes and what the
panel that is cut from it takes, and the peer: as many Lloyd passes as the lay has, with scipy's cKDTree over
as many pieces, on all the pixels of the lay's grid. Then how the lay's time grows: time ~ n^e, and the most
memory that the process held.
"""

from __future__ import annotations

import argparse
import math
import resource
import time

import numpy as np
from scipy.spatial import cKDTree

from bench.drawing.lay.cells import PASSES
from bench.drawing.lay.cut import panel_of_lay
from bench.drawing.lay.laid import Lay, lay
from bench.drawing.study.model import Study
from tests.fakes.studies import lemon_labels, plain

PITCH_MM = 6.8


def study_of(count: int) -> Study:
    """Return a study of three areas that takes about so many pieces of 6 mm."""
    wide = math.sqrt(count * PITCH_MM**2 * 200 / 160)
    return Study(lemon_labels(), (wide, wide * 160 / 200), tuple(map(plain, ("wall", "cloth", "lemon"))))


def lloyd(laid: Lay, seed: int = 0) -> None:
    """Move as many places to the middle of their pixels, as often as the lay does."""
    y, x = np.nonzero(laid.cell)
    pixels = np.stack([x, y], axis=1) + 0.5
    place = pixels[np.random.default_rng(seed).choice(len(pixels), laid.piece_count, replace=False)]
    for _ in range(PASSES):
        of = cKDTree(place).query(pixels)[1]
        count = np.maximum(np.bincount(of, minlength=len(place)), 1)
        place = np.stack(
            [np.bincount(of, pixels[:, k], minlength=len(place)) / count for k in (0, 1)], axis=1
        )


def seconds(work, *args) -> float:
    start = time.process_time()
    work(*args)
    return time.process_time() - start


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--most", type=int, default=20_000)
    most = parser.parse_args().most
    lay(study_of(200))  # scipy is loaded before any clock runs
    found = []
    for count in (n for n in (2_000, 20_000) if n <= most):
        study = study_of(count)
        laying = min(seconds(lay, study) for _ in range(2))
        laid = lay(study)
        cutting, peer = seconds(panel_of_lay, laid), seconds(lloyd, laid)
        found.append((laid.piece_count, laying))
        print(
            f"{laid.piece_count:7,} pieces on {laid.cell.size / 1e6:.1f} megapixels: "
            f"lay {laying:.2f} s, {laying / peer:.2f} × {PASSES} Lloyd passes of cKDTree ({peer:.2f} s); "
            f"panel with joints {cutting:.2f} s"
        )
    if len(found) > 1:
        (few, short), (many, long) = found
        print(f"time ~ pieces^{math.log(long / short) / math.log(many / few):.2f}")
    print(f"most memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20:.2f} GiB")


if __name__ == "__main__":
    main()
