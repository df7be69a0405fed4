"""Photos of a panel on which some tesserae are set, and where their edge truly runs."""

import numpy as np
import shapely

from bench.drawing.dry import Frame
from bench.drawing.photo import Corners, Picture, read_picture, square_up
from tests.fakes.dry_photos import PLAIN, Laid, laid

HALF_JOINT_MM = 1.25


def whole(panel) -> Frame:
    return Frame(x_mm=0, y_mm=0, width_mm=panel.width_mm, height_mm=panel.height_mm)


def photo_of_set(panel, tesserae, *, light=PLAIN, shift_mm=0.4, frame: Frame | None = None) -> Laid:
    """Return a photo of what is set, each piece off its drawn place by chance."""
    frame = frame or whole(panel)
    box = (frame.x_mm, frame.y_mm, frame.width_mm, frame.height_mm)
    return laid(panel, list(tesserae), box, light=light, px_per_mm=6, jitter_mm=shift_mm)


def flat_of(photo: Laid) -> Picture:
    width_mm, height_mm = photo.size_mm
    corners = Corners(corner_px=photo.corner_px, width_mm=width_mm, height_mm=height_mm)
    return square_up(read_picture(photo.data, "set.jpg"), corners)


def true_edge(photo: Laid) -> shapely.Geometry:
    """Return the outline of all pieces with the joints between them closed, in mm of the photo."""
    grown = shapely.union_all([shapely.Polygon(p).buffer(HALF_JOINT_MM) for p in photo.points_mm])
    return shapely.MultiLineString([p.exterior for p in shapely.get_parts(grown.buffer(-HALF_JOINT_MM))])


def off_mm(lines, photo: Laid, frame: Frame) -> np.ndarray:
    """Return how far each point of the lines found, on the panel, lies from the true edge."""
    points = np.concatenate([frame.in_photo(line) for line in lines])
    return shapely.distance(shapely.points(points), true_edge(photo))
