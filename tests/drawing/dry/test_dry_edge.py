"""The edge of what is set, found in photos made from known panels, against Shapely's outline of it."""

import numpy as np
import pytest
import shapely

from bench.drawing.dry import Frame, NoEdgeFound, edge_lines
from bench.drawing.svg import read_drawing
from tests.fakes.drawings import BLUE, YELLOW, grid_svg
from tests.fakes.dry_photos import PLAIN, WORKSHOP
from tests.fakes.edges import flat_of, off_mm, photo_of_set, true_edge, whole


@pytest.fixture(scope="module")
def panel():
    return read_drawing(
        grid_svg(24, 16, joint_mm=1.0, colour=lambda c, r: YELLOW if (c + r) % 3 else BLUE), "grid.svg"
    )


@pytest.fixture(scope="module")
def done(panel):
    """A slanting stretch of pieces on the left."""
    x, y = panel.centroid_mm.T
    return np.flatnonzero(x + 0.5 * y < 100)


@pytest.mark.parametrize("light", [PLAIN, WORKSHOP], ids=["plain", "workshop"])
def test_the_edge_is_where_the_glass_ends_and_not_where_it_was_drawn(panel, done, light):
    photo, frame = photo_of_set(panel, done, light=light, shift_mm=0.4), whole(panel)
    lines = edge_lines(flat_of(photo), frame, panel, done)
    off = off_mm(lines, photo, frame)
    assert np.mean(off) < 0.5
    assert np.quantile(off, 0.95) < 1.5
    seen = shapely.MultiLineString(list(lines))
    inner = shapely.box(4, 4, panel.width_mm - 4, panel.height_mm - 4)
    along = shapely.get_coordinates(true_edge(photo).intersection(inner).segmentize(1.0))
    assert np.mean(shapely.distance(shapely.points(along), seen) < 2.0) > 0.9


def test_a_part_of_the_panel_will_do(panel, done):
    frame = Frame(x_mm=30, y_mm=20, width_mm=100, height_mm=80)
    photo = photo_of_set(panel, done, frame=frame)
    lines = edge_lines(flat_of(photo), frame, panel, done)
    assert np.mean(off_mm(lines, photo, frame)) < 0.6
    points = np.concatenate(lines)
    assert (points >= (30, 20)).all()
    assert (points <= (130, 100)).all()


def test_the_borders_of_panel_and_photo_are_no_edge(panel, done):
    lines = edge_lines(flat_of(photo_of_set(panel, done)), whole(panel), panel, done)
    points = np.concatenate(lines)
    assert points.min() > 1.4
    assert points[:, 0].max() < panel.width_mm - 1.4
    assert points[:, 1].max() < panel.height_mm - 1.4


def test_where_nothing_is_set_or_nothing_is_bare_there_is_none(panel, done):
    flat = flat_of(photo_of_set(panel, done))
    for some in (np.zeros(0, np.int32), np.arange(panel.tessera_count)):
        with pytest.raises(NoEdgeFound, match="draw the edge by finger"):
            edge_lines(flat, whole(panel), panel, some)
