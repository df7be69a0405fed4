"""Line drawings as a scanner sees them, made from known panels."""

import io

import numpy as np
import resvg_py
from PIL import Image

from tests.fakes.drawings import grid_svg

PX_PER_MM = 8
COLUMNS, ROWS, PITCH_MM = 8, 6, 12.0
PIECES = COLUMNS * ROWS
SIZE_MM = (COLUMNS * PITCH_MM, ROWS * PITCH_MM)


def drawn_grid(*, open_mm: float = 0.0) -> Image.Image:
    """Return a grid of 8 × 6 white pieces between black lines 1 mm wide, 8 pixels to the millimetre.

    open_mm: of the line between the first two pieces so much is missing, in its middle.
    """
    svg = grid_svg(COLUMNS, ROWS, pitch_mm=PITCH_MM, joint_mm=1.0, colour=lambda column, row: "#ffffff")
    png = resvg_py.svg_to_bytes(svg_string=svg.decode(), dpi=25.4 * PX_PER_MM, background="black")
    image = Image.open(io.BytesIO(bytes(png))).convert("RGB")
    if open_mm:
        x, y = PITCH_MM * PX_PER_MM, PITCH_MM / 2 * PX_PER_MM
        half = open_mm / 2 * PX_PER_MM
        image.paste("white", tuple(round(v) for v in (x - PX_PER_MM, y - half, x + PX_PER_MM, y + half)))
    return image


def painted_halves(size: tuple[int, int]) -> Image.Image:
    """Return a picture whose left half is yellow and whose right half is blue."""
    pixels = np.zeros((size[1], size[0], 3), np.uint8)
    pixels[:, : size[0] // 2], pixels[:, size[0] // 2 :] = (232, 201, 58), (42, 92, 170)
    return Image.fromarray(pixels)


def scanned(image: Image.Image) -> bytes:
    """Return a PNG that says how many pixels an inch has."""
    file = io.BytesIO()
    image.save(file, "PNG", dpi=(25.4 * PX_PER_MM,) * 2)
    return file.getvalue()
