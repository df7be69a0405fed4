"""Pictures of line drawings made on the spot: panels drawn with black lines, and what happens to a photo."""

import numpy as np
import shapely
from resvg_py import svg_to_bytes

from bench.drawing.panel import Panel
from bench.drawing.photo import Picture, read_picture
from tests.fakes.shapes import path_data, polygons_of


def drawn_svg(
    pieces: list[shapely.Polygon],
    size_mm: tuple[float, float],
    *,
    frame_mm: float = 0.8,
    fills: list[str] | None = None,
    over: str = "",
    ink: str = "black",
    paper: str = "white",
) -> bytes:
    """Return pieces whose joints are drawn as lines: ink in joints and `frame_mm` around, paper beyond."""
    width, height = size_mm
    filled = shapely.buffer(shapely.union_all(pieces), 2.0, join_style="mitre")
    around = shapely.buffer(filled, -2.0 + frame_mm, join_style="mitre")
    bodies = [] if frame_mm == 0 else list(shapely.get_parts(around))
    body = f'<rect width="{width}" height="{height}" fill="{paper if frame_mm else ink}"/>'
    body += "".join(f'<path d="{path_data(shapely.Polygon(one.exterior))}" fill="{ink}"/>' for one in bodies)
    for k, piece in enumerate(pieces):
        body += f'<path d="{path_data(piece)}" fill="{fills[k] if fills else paper}" fill-rule="evenodd"/>'
    size = f'width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{body}{over}</svg>'.encode()


def scan(svg: bytes, width_mm: float, dpi: float = 200.0, name: str = "scan.png") -> Picture:
    """Return an SVG as resvg paints it, as if scanned so finely."""
    picture = read_picture(bytes(svg_to_bytes(svg_string=svg.decode(), dpi=dpi)), name)
    return Picture(picture.pixels, width_mm / picture.pixels.shape[1], name)


def scan_of(panel: Panel, *, dpi: float = 200.0, coloured: bool = False, **keys) -> Picture:
    """Return the joints of a panel as lines; `coloured` fills its pieces, else they are paper."""
    fills = [f"#{bytes(one).hex()}" for one in panel.colour.tolist()] if coloured else None
    svg = drawn_svg(polygons_of(panel), (panel.width_mm, panel.height_mm), fills=fills, **keys)
    return scan(svg, panel.width_mm, dpi, panel.name)


def photographed(picture: Picture, *, dark: float = 0.5, noise: float = 4.0, seed: int = 0) -> Picture:
    """Return the picture lit from the top left, at the far corner only `dark` as bright, with grain."""
    rows, columns = picture.pixels.shape[:2]
    y, x = np.mgrid[:rows, :columns]
    light = 1 - (1 - dark) * (0.6 * x / columns + 0.4 * y / rows)
    grain = np.random.default_rng(seed).normal(0, noise, (rows, columns, 1))
    lit = picture.pixels * light[..., None] * 0.92 + grain
    return Picture(np.clip(np.rint(lit), 0, 255).astype(np.uint8), picture.mm_per_px, picture.name)


def matched(expected: Panel, found: Panel) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return of which expected tessera each found one has most, their IoU, and their areas' ratio."""
    one, other = np.array(polygons_of(expected)), np.array(polygons_of(found))
    pairs = shapely.STRtree(one).query(other, predicate="intersects")
    shared = shapely.area(shapely.intersection(other[pairs[0]], one[pairs[1]]))
    of, iou = np.full(len(other), -1), np.zeros(len(other))
    for k, j, mm2 in zip(*pairs, shared, strict=True):
        rate = mm2 / (other[k].area + one[j].area - mm2)
        if rate > iou[k]:
            of[k], iou[k] = j, rate
    return of, iou, shapely.area(other) / shapely.area(one)[of]
