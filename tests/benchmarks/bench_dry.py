"""Measure the count of a dry lay against scikit-image's usual way. Run: python -m tests.benchmarks.bench_dry

Prints for sections of the demo in plain and in workshop light, at several finenesses, how many pieces were
laid and how many are found, and what finding them takes, as a ratio to the peer: scikit-image's rgb2lab, a
threshold by Otsu on the distance from the median colour of the rim, distance transform, peaks and watershed
on the same pixels. The peer's count stands beside ours.
"""

from __future__ import annotations

import time

import numpy as np
from scipy.ndimage import distance_transform_edt
from skimage.color import rgb2lab
from skimage.feature import peak_local_max
from skimage.filters import threshold_otsu
from skimage.segmentation import watershed

from bench.drawing.dry import found_pieces, frame_around
from bench.drawing.dry.found import _seen
from bench.drawing.photo import Corners, read_picture, square_up
from bench.drawing.svg import read_drawing
from bench.resources import resource
from tests.fakes.dry_photos import PLAIN, WORKSHOP, laid


def usual_way(picture) -> int:
    """Return the count of scikit-image's watershed on the pixels that we look at."""
    pixels, mm_per_px = _seen(picture, picture.mm_per_px)
    lab = rgb2lab(pixels)
    rim = np.concatenate([lab[:8].reshape(-1, 3), lab[-8:].reshape(-1, 3)])
    off = np.sqrt(((lab - np.median(rim, axis=0)) ** 2).sum(axis=-1))
    glass = off > threshold_otsu(off)
    far = distance_transform_edt(glass)
    peaks = peak_local_max(far, min_distance=round(1.5 / mm_per_px), labels=glass.astype(int))
    marks = np.zeros(glass.shape, int)
    marks[tuple(peaks.T)] = np.arange(1, len(peaks) + 1)
    return int(watershed(-far, marks, mask=glass).max())


def seconds(work, *args) -> tuple[float, object]:
    start = time.process_time()
    result = work(*args)
    return time.process_time() - start, result


def main() -> None:
    data = resource("assets", "demo", "lemons.svg").read_bytes()
    panel = read_drawing(data, "lemons.svg")
    rng = np.random.default_rng(9)
    for told, light in (("plain", PLAIN), ("workshop", WORKSHOP)):
        for px_per_mm, pieces in ((6, 70), (10, 70), (12, 300)):
            far = np.hypot(*(panel.centroid_mm - rng.uniform((60, 60), (300, 210))).T)
            section = np.argsort(far)[:pieces].tolist()
            frame = frame_around(panel, section, 10.0)
            box = (frame.x_mm, frame.y_mm, frame.width_mm, frame.height_mm)
            photo = laid(panel, section, box, light=light, missing=section[5:7], px_per_mm=px_per_mm)
            corners = Corners(
                corner_px=photo.corner_px, width_mm=frame.width_mm, height_mm=frame.height_mm
            )
            flat = square_up(read_picture(photo.data, "lay.jpg"), corners)
            found_pieces(flat)  # scipy is loaded before any clock runs
            ours, found = seconds(found_pieces, flat)
            peer, count = seconds(usual_way, flat)
            print(
                f"{told:8} {px_per_mm:3} px/mm: laid {photo.count}, found {found.count}, peer {count}; "
                f"{found.labels.size / 1e6:.2f} megapixels in {ours:.2f} s, {ours / peer:.2f} × the peer"
            )


if __name__ == "__main__":
    main()
