"""Draw the motifs and rows that the divider sees: `python -m tests.tools.motifs OUT.png [DRAWING.svg]`.

Each motif has a tint of its own over its glass; a line joins the tesserae of each row.
"""

from __future__ import annotations

import colorsys
import sys
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw

from bench.drawing.load import load_drawing
from bench.drawing.panel import Panel
from bench.resources import resource
from bench.sections.ground import ground_of
from bench.sections.motifs import motifs
from bench.sections.rows import row_joints

PX_PER_MM = 4.0
TINT = 0.55  # how much of a motif's tint covers its glass
USUAL_SECTION = 100  # tesserae; only what would fit one section hangs on it


def drawn(panel: Panel) -> Image.Image:
    """Return the picture of a panel's motifs and rows."""
    n = panel.tessera_count
    ground = ground_of(
        panel,
        expected_s=np.full(n, 12.0),
        adhesive=np.zeros(n, np.int32),
        capacity_s=np.array([12.0 * USUAL_SECTION]),
    )
    motif = motifs(panel, ground)
    within = motif[ground.pair[:, 0]] == motif[ground.pair[:, 1]]
    along = row_joints(panel, ground, within)
    picture = Image.new("RGB", (int(panel.width_mm * PX_PER_MM), int(panel.height_mm * PX_PER_MM)), "white")
    draw = ImageDraw.Draw(picture)
    for k in range(n):
        hue = (int(motif[k]) * 0.61803) % 1.0  # golden steps keep neighbours apart
        tint = np.array(colorsys.hsv_to_rgb(hue, 0.9, 1.0)) * 255
        colour = tuple(np.round((1 - TINT) * panel.colour[k] + TINT * tint).astype(int).tolist())
        draw.polygon((panel.rings_mm(k)[0] * PX_PER_MM).ravel().tolist(), fill=colour)
    for a, b in ground.pair[along].tolist():
        ends = np.stack([panel.centroid_mm[a], panel.centroid_mm[b]]) * PX_PER_MM
        draw.line(ends.ravel().tolist(), fill="black", width=2)
    return picture


def main() -> None:
    out = Path(sys.argv[1])
    source = Path(sys.argv[2]) if len(sys.argv) > 2 else resource("assets", "demo", "lemons.svg")
    drawn(load_drawing(Path(str(source)))[1]).save(out)


if __name__ == "__main__":
    main()
