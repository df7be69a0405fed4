"""Painted studies made up for tests: where each colour lies is known."""

import numpy as np

from bench.drawing.photo import Picture
from bench.drawing.study.model import Flow, Glass, Region, Study

CONTOUR = Flow()
YELLOW, BLUE, CREAM = (226, 190, 60), (40, 70, 140), (236, 226, 200)


def plain(name: str = "plain", piece_mm: float = 6.0, **more) -> Region:
    return Region(name=name, piece_mm=piece_mm, mix=(Glass(name="blue", colour=BLUE, share=1.0),), **more)


def lemon_labels(rows: int = 160, columns: int = 200) -> np.ndarray:
    """An oval on a cloth below a wall: 1 wall, 2 cloth, 3 oval."""
    y, x = np.mgrid[0:rows, 0:columns] + 0.5
    labels = np.where(y < rows * 0.45, 1, 2)
    oval = ((x - columns * 0.5) / (columns * 0.3)) ** 2 + ((y - rows * 0.55) / (rows * 0.25)) ** 2 < 1
    labels[oval] = 3
    return labels.astype(np.int32)


def lemon_study(
    piece_mm: float = 6.0, flow: Flow = CONTOUR, size_mm: tuple[float, float] = (200.0, 160.0)
) -> Study:
    names = ("wall", "cloth", "lemon")
    return Study(lemon_labels(), size_mm, tuple(plain(n, piece_mm, flow=flow) for n in names), name="lemon")


def painted(labels: np.ndarray, colours: tuple, noise: float = 6.0, seed: int = 0) -> Picture:
    """Paint labels 1 to n in the colours, with the brush's unevenness."""
    rng = np.random.default_rng(seed)
    pixels = np.array(colours, float)[labels - 1] + rng.normal(0.0, noise, (*labels.shape, 3))
    return Picture(np.clip(np.rint(pixels), 0, 255).astype(np.uint8), None, "study.png")


def one_square(piece_mm: float, size_mm: float, flow: Flow = CONTOUR, px: int = 100, **more) -> Study:
    return Study(
        np.ones((px, px), np.int32), (size_mm, size_mm), (plain("all", piece_mm, flow=flow, **more),)
    )
