"""Photos of a sample tile: glass, a strip of joint for each grout, a white card; nobody took them."""

import io

import numpy as np
from PIL import Image

from bench.drawing.colour import linear_to_srgb, srgb_to_lab, srgb_to_linear
from bench.drawing.photo import homography

SIZE_MM = (100.0, 80.0)
CORNERS = ((90.0, 60.0), (830.0, 110.0), (800.0, 660.0), (70.0, 640.0))
CARD_MM = (50.0, 72.0)
LAMP = (1.0, 0.86, 0.62)  # a warm lamp's light, by channel
GLASS = (40, 90, 150)
STRIP_MM = 2.0


def joint_mm(k: int) -> tuple[float, float]:
    """Return a place in the joint of grout k."""
    return 15.0 + 20.0 * k, 30.0


def photo_of_tile(grouts, *, light=(1.0, 1.0, 1.0), grain: float = 2.0, seed: int = 3) -> bytes:
    """Return a photo, as PNG, of a tile with these grouts (sRGB) in one light; its card is of L* 95."""
    px = 10
    tile = np.full((int(SIZE_MM[1] * px), int(SIZE_MM[0] * px), 3), GLASS, np.uint8)
    for k, rgb in enumerate(grouts):
        x = joint_mm(k)[0]
        tile[: 60 * px, int((x - STRIP_MM / 2) * px) : int((x + STRIP_MM / 2) * px)] = rgb
    tile[66 * px : 78 * px, 40 * px : 60 * px] = card_rgb()
    rng = np.random.default_rng(seed)
    lit = linear_to_srgb(srgb_to_linear(tile) * np.array(light)).astype(float)
    seen = np.clip(lit + rng.normal(0, grain, lit.shape), 0, 255).astype(np.uint8)
    high, wide = tile.shape[:2]
    back = homography(np.array(CORNERS), np.array([(0, 0), (wide, 0), (wide, high), (0, high)], float))
    photo = Image.fromarray(seen).transform(
        (900, 720), Image.Transform.PERSPECTIVE, back.ravel()[:8].tolist(), Image.Resampling.BICUBIC
    )
    out = io.BytesIO()
    photo.save(out, "PNG")
    return out.getvalue()


def card_rgb() -> tuple[int, int, int]:
    """Return the neutral grey whose lightness is 95, by looking through all of them."""
    greys = np.repeat(np.arange(256)[:, None], 3, axis=1)
    v = int(np.argmin(np.abs(srgb_to_lab(greys)[:, 0] - 95.0)))
    return v, v, v
