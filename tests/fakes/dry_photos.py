"""Photos of pieces laid dry on film over a cartoon, made from known panels: nobody took them."""

import io
from dataclasses import dataclass, field

import numpy as np
import resvg_py
import shapely
from PIL import Image

from bench.drawing.panel import Panel
from bench.drawing.photo import homography

PAPER, TABLE = (240, 236, 226), (118, 92, 70)
WHITE_GLASS = (226, 232, 238)
STROKE_MM = 0.25  # around each piece: its edge, darker than its face


@dataclass(frozen=True, eq=False)
class Laid:
    """A photo, where the corners of its rectangle lie in it, and what truly lies there."""

    data: bytes
    corner_px: tuple
    size_mm: tuple
    points_mm: list = field(repr=False)  # of each piece, from the rectangle's top left

    @property
    def count(self) -> int:
        return len(self.points_mm)

    @property
    def centroid_mm(self) -> np.ndarray:
        return shapely.get_coordinates(shapely.centroid([shapely.Polygon(p) for p in self.points_mm]))


@dataclass(frozen=True)
class Light:
    """How the photo was lit and taken. fall: of the light from corner to corner; shade: of a soft shadow
    across it; cast: of the pieces' own shadow; grain: of the sensor, in steps of 255."""

    fall: float = 0.0
    shade: float = 0.0
    cast: float = 0.0
    grain: float = 0.0


PLAIN, WORKSHOP = Light(grain=1.5), Light(fall=0.3, shade=0.25, cast=0.35, grain=4.0)


def laid(
    panel: Panel,
    tesserae,
    frame_mm,
    *,
    light: Light = PLAIN,
    colour=None,
    clear=(),
    missing=(),
    touching=(),
    jitter_mm=0.06,
    turn_deg=1.0,
    px_per_mm=9.0,
    seed=0,
    slant=0.06,
    form="JPEG",
) -> Laid:
    """Return a photo of a section's pieces as laid.

    frame_mm: x, y, width and height of the rectangle on the panel. colour: of a tessera, else as drawn.
    clear: tesserae of clear glass. missing: not laid. touching: pairs of which the second is pushed
    against the first. Every tessera of the panel has a pencil line around it.
    """
    rng = np.random.default_rng(seed)
    x, y, width, height = frame_mm
    corner = np.array([x, y])
    lines = [panel.rings_mm(k)[0] - corner for k in range(panel.tessera_count)]
    pieces, fills, see_through = [], [], []
    for k in tesserae:
        turn = np.radians(rng.normal(0, turn_deg))
        shift = rng.normal(0, jitter_mm, 2)
        if k in missing:
            continue
        middle = lines[k].mean(axis=0)
        spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
        pieces.append((lines[k] - middle) @ spin.T + middle + shift)
        base = np.array(panel.colour[k] if colour is None else colour(k), float)
        fills.append(np.clip(base + rng.normal(0, 5), 0, 255))
        see_through.append(k in clear)
    kept = [k for k in tesserae if k not in missing]
    for one, other in touching:
        a, b = kept.index(one), kept.index(other)
        way = pieces[a].mean(axis=0) - pieces[b].mean(axis=0)
        pieces[b] = pieces[b] + way * (1 - 0.97 * _extent(pieces[a], way) / np.hypot(*way))
    flat = _drawn(lines, pieces, fills, see_through, (width, height), px_per_mm)
    flat = _lit(flat, pieces, px_per_mm, light, rng)
    photo, corners = _photographed(flat, slant, rng)
    photo = np.clip(photo + rng.normal(0, light.grain, photo.shape), 0, 255).astype(np.uint8)
    file = io.BytesIO()
    Image.fromarray(photo).save(file, form, quality=88)
    return Laid(file.getvalue(), corners, (width, height), pieces)


def _extent(ring, way):
    """Return how wide a piece is along a direction."""
    along = (ring - ring.mean(axis=0)) @ (way / np.hypot(*way))
    return along.max() - along.min()


def _drawn(lines, pieces, fills, see_through, size_mm, px_per_mm):
    """Return paper, pencil lines and pieces as resvg paints them, (rows, columns, 3)."""

    def path(ring):
        return " ".join(f"{px:.3f},{py:.3f}" for px, py in ring)

    pencil = "".join(
        f'<polygon points="{path(r)}" fill="none" stroke="#6f6a66" stroke-width="0.35"/>' for r in lines
    )
    glass = ""
    for ring, rgb, clear in zip(pieces, fills, see_through, strict=True):
        r, g, b = (int(v) for v in rgb)
        if clear:
            look = 'fill="#8fa8a0" fill-opacity="0.2" stroke="#4b5a58" stroke-opacity="0.6"'
        else:
            look = f'fill="rgb({r},{g},{b})" stroke="rgb({r * 3 // 4},{g * 3 // 4},{b * 3 // 4})"'
        glass += f'<polygon points="{path(ring)}" {look} stroke-width="{STROKE_MM}"/>'
    width, height = size_mm
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}"><rect width="{width}" height="{height}" '
        f'fill="rgb{PAPER}"/>{pencil}{glass}</svg>'
    )
    png = resvg_py.svg_to_bytes(svg_string=svg, dpi=25.4 * px_per_mm)
    return np.array(Image.open(io.BytesIO(bytes(png))).convert("RGB"), float)


def _lit(flat, pieces, px_per_mm, light, rng):
    """Return the scene under a lamp at one corner, a soft shadow across it, and the pieces' own shadows."""
    from scipy.ndimage import gaussian_filter

    rows, columns = flat.shape[:2]
    v, u = np.mgrid[:rows, :columns] / max(rows, columns)
    shine = 1 - light.fall * (u + v) / 2
    if light.shade:
        across = (u * 0.8 + v * 0.6 - rng.uniform(0.35, 0.6)) / 0.06
        shine = shine * (1 - light.shade / (1 + np.exp(-across)))
    if light.cast:
        from PIL import ImageDraw

        mask = Image.new("L", (columns, rows))
        for ring in pieces:
            ImageDraw.Draw(mask).polygon((ring * px_per_mm).ravel().tolist(), fill=255)
        on = np.asarray(mask, float) / 255
        thrown = np.roll(gaussian_filter(on, 0.35 * px_per_mm), (3, 3), (0, 1))
        shine = shine * (1 - light.cast * thrown * (1 - on))
    return flat * shine[..., None]


def _photographed(flat, slant, rng):
    """Return the scene from aslant on a table, and where its corners went."""
    rows, columns = flat.shape[:2]
    rim = round(0.08 * max(rows, columns))
    size = (columns + 2 * rim, rows + 2 * rim)
    square = np.array([(0, 0), (columns, 0), (columns, rows), (0, rows)], float)
    seen = square + rim + rng.uniform(-slant, slant, (4, 2)) * rim * 8
    seen = np.clip(seen, 2, np.array(size) - 2)
    back = homography(seen, square).ravel()[:8].tolist()
    scene = Image.fromarray(np.clip(flat, 0, 255).astype(np.uint8)).convert("RGBA")
    warped = scene.transform(size, Image.Transform.PERSPECTIVE, back, Image.Resampling.BICUBIC)
    table = Image.new("RGBA", size, (*TABLE, 255))
    table.alpha_composite(warped)
    corners = tuple((float(px), float(py)) for px, py in seen)
    return np.array(table.convert("RGB"), float), corners
