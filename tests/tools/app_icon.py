"""Write assets/icons/potwatch.png, the app's own sign. Run: python -m tests.tools.app_icon

A watch whose hours are tesserae, a quarter of them gone, and the adhesive as a drop in its middle: drawn
with the same shapes as the icons on keys, in the colours of the light look.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
from PIL import Image

from bench.resources import resource
from bench.screens import hidden_window

hidden_window.prepare()

from bench.screens.contrast import rgb  # noqa: E402
from bench.screens.icons.dots import covered  # noqa: E402
from bench.screens.theme import LOOKS  # noqa: E402

SIZE_PX = 256
HOURS, GONE = 12, 3
NEAR, FAR = 6.6, 10.4  # of a tessera from the middle
HALF_DEG, FAR_DEG = 10.0, 11.5  # half of what a tessera spans, near and far
DROP = "D 12 10.8 2.9; F 14.5 12.3 12 16.6 9.5 12.3"
PLATE = "D 5 5 5; D 19 5 5; D 5 19 5; D 19 19 5; F 0 5 24 5 24 19 0 19; F 5 0 19 0 19 24 5 24"


def tessera(hour: int) -> str:
    """Return the piece that stands at an hour of the watch."""
    middle = math.radians(90 - 360 / HOURS * (hour + 0.5))
    near, far = math.radians(HALF_DEG), math.radians(FAR_DEG)
    corners = [(FAR, -far), (FAR, far), (NEAR, near), (NEAR, -near)]
    places = [(12 + r * math.cos(middle + a), 12 + r * math.sin(middle + a)) for r, a in corners]
    return "F " + " ".join(f"{x:.3f} {y:.3f}" for x, y in places)


def picture() -> Image.Image:
    """Return the sign, clear outside its plate."""
    look = LOOKS["light"]
    pieces = [tessera(hour) for hour in range(HOURS)]
    dots = np.zeros((SIZE_PX, SIZE_PX, 4))
    dots[..., :3], dots[..., 3] = rgb(look["act"]), covered(PLATE, SIZE_PX)
    shown = [("; ".join([*pieces[GONE:], DROP]), "act_ink"), ("; ".join(pieces[:GONE]), "quiet")]
    for drawing, ink in shown:
        share = covered(drawing, SIZE_PX)[..., None]
        dots[..., :3] = (1 - share) * dots[..., :3] + share * np.array(rgb(look[ink]))
    return Image.fromarray(np.round(dots[::-1] * 255).astype(np.uint8), "RGBA")


def write(folder: Path) -> Path:
    """Write the sign into a folder and return its path."""
    path = folder / "potwatch.png"
    picture().save(path, optimize=True)
    return path


if __name__ == "__main__":
    path = write(resource("assets") / "icons")
    print(path.name, path.stat().st_size)
