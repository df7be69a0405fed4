"""Write the demo drawing, a bowl of lemons on a blue cloth: python -m tests.tools.lemons

Front forms are laid first and taken off what lies behind; every form has rows of its own. The same seed
gives the same bytes.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from shapely.geometry import Polygon

from tests.tools import lay, nip
from tests.tools.scene import Motif, scene

SEED = 1707
TARGET = Path(__file__).parents[2] / "assets" / "demo" / "lemons.svg"
GLASS = {
    "opaque": "",
    "iridised": ' data-glass="iridised"',
    "clear": ' data-glass="clear" data-adhesive="white-paste"',  # the bed shows through it
}


@dataclass(frozen=True)
class Tessera:
    outline: Polygon
    colour: str
    glass: str


def lay_motif(motif: Motif, rng: np.random.Generator) -> list[Tessera]:
    """Lay one motif: rows in their order, each on what the rows before it left open."""
    cells, left = [], motif.seen
    for number, row in enumerate(motif.rows):
        cells += [lay.Cell(part, number) for part in lay.cut_row(row, left, rng)]
        left = left.difference(row.strip)
    cells += [lay.Cell(part, len(motif.rows)) for part in lay.polygons(left)]
    tesserae = []
    for cell in nip.join_scraps(cells, motif.most_mm2):
        piece = nip.shape(cell.outline, float(rng.uniform(0.72, 0.86)))
        if piece is None:
            continue
        colour, glass = motif.paint(piece.centroid.x, piece.centroid.y, cell.row, rng)
        tesserae.append(Tessera(piece, colour, glass))
    return tesserae


def svg_of(groups: dict[str, list[Tessera]]) -> str:
    """Write the groups as SVG, back to front."""
    lines = ['<svg xmlns="http://www.w3.org/2000/svg" width="360mm" height="270mm" viewBox="0 0 360 270">',
             "<title>Lemons in a bowl on a blue cloth</title>",
             '<g id="still-life" data-adhesive="clear-slow">']  # fmt: skip
    for name, tesserae in reversed(groups.items()):
        lines.append(f'<g id="{name}">')
        lines += [path_of(f"{name}-{number:03d}", tessera) for number, tessera in enumerate(tesserae, 1)]
        lines.append("</g>")
    return "\n".join([*lines, "</g>", "</svg>", ""])


def path_of(name: str, tessera: Tessera) -> str:
    corners = list(tessera.outline.exterior.coords)[:-1]
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in corners)
    return f'<polygon id="{name}" points="{points}" fill="{tessera.colour}"{GLASS[tessera.glass]}/>'


def drawing(seed: int = SEED) -> str:
    """Return the demo drawing as SVG text; each motif has a generator of its own, so changes stay local."""
    groups: dict[str, list[Tessera]] = {}
    for number, motif in enumerate(scene()):
        groups.setdefault(motif.name, []).extend(lay_motif(motif, np.random.default_rng((seed, number))))
    laid = [one.outline for group in groups.values() for one in group]
    kept = iter(nip.keep_joints(laid, joint_mm=0.7, near_mm=0.6))
    for group in groups.values():
        group[:] = [replace(one, outline=next(kept)) for one in group]
    return svg_of(groups)


def write(target: Path = TARGET) -> None:
    """Write the demo drawing."""
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(drawing().encode())


if __name__ == "__main__":
    write()
