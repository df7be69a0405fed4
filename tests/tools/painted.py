"""Paint the demo's colour study: `python -m tests.tools.painted`.

The demo's own glass, rendered, its joints painted over by a broad brush, with the unevenness of gouache.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
from PIL import Image
from scipy.ndimage import gaussian_filter, median_filter

from bench.drawing.load import load_drawing
from bench.drawing.picture import picture_png
from bench.resources import resource

LONG_SIDE_PX = 1200
BRUSH_PX = 13


def painted() -> Image.Image:
    """Return the study as a picture."""
    drawing = Path(str(resource("assets", "demo", "lemons.svg")))
    glass = np.asarray(picture_png(load_drawing(drawing)[1], long_side_px=LONG_SIDE_PX).convert("RGB"), float)
    flat = np.stack([median_filter(glass[..., k], BRUSH_PX) for k in range(3)], axis=-1)
    rng = np.random.default_rng(3)
    strokes = gaussian_filter(rng.normal(0.0, 60.0, flat.shape[:2]), (2, 9))[..., None]
    return Image.fromarray(np.clip(np.rint(flat + strokes), 0, 255).astype(np.uint8))


if __name__ == "__main__":
    painted().save(Path(str(resource("assets", "demo"))) / "lemons-study.jpg", quality=82)
