"""Real polygons that nobody here drew, from installed packages, with neighbours counted elsewhere.

`momepy`'s bubenec: 144 cells of a morphological tessellation. `libpysal`'s Columbus: 49 neighbourhoods of
Columbus, Ohio (Anselin 1988), 118 pairs by queen and 100 by rook contiguity as libpysal counts them.
"""

import warnings

import geopandas
import libpysal
import momepy
import numpy as np
import pytest
import shapely

from bench.drawing.svg import read_drawing
from tests.fakes.shapes import polygons_of, svg_of


def laid_out(frame, width_mm: float):
    """Return the polygons on a page of this width, y pointing down, and the page's height."""
    left, low, right, high = frame.total_bounds
    scale = width_mm / (right - left)
    onto = [scale, 0, 0, -scale, -left * scale, high * scale]
    return [shapely.affinity.affine_transform(p, onto) for p in frame.geometry], (high - low) * scale


def contiguous(cells, *, rook: bool) -> set[tuple[int, int]]:
    """Return the neighbours that libpysal finds."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        graph = libpysal.graph.Graph.build_contiguity(geopandas.GeoSeries(cells), rook=rook)
    return {(a, b) for a, b in graph.adjacency.index if a < b}


def jointed(panel) -> dict[tuple[int, int], float]:
    return dict(zip(map(tuple, panel.joints.pair.tolist()), panel.joints.length_mm, strict=True))


@pytest.fixture(scope="module")
def columbus():
    return laid_out(geopandas.read_file(libpysal.examples.get_path("columbus.shp")), 600.0)


@pytest.fixture(scope="module")
def bubenec():
    frame = geopandas.read_file(momepy.datasets.get_path("bubenec"), layer="tessellation")
    return laid_out(frame, 700.0)


def test_columbus_has_the_49_pieces_and_the_100_rook_pairs_that_libpysal_counts(columbus):
    """On 600 mm every shared border is longer than 1 mm. The 18 pairs that touch at a corner alone are none.

    Two pairs more face each other across a bay outside of the city, nearer than 0.3 × √ of the smaller.
    """
    cells, height = columbus
    panel = read_drawing(svg_of(cells, 600.0, height, digits=9), "columbus")
    rook, queen, found = contiguous(cells, rook=True), contiguous(cells, rook=False), set(jointed(panel))
    assert (panel.tessera_count, len(rook), len(queen)) == (49, 100, 118)
    assert rook <= found
    assert not (queen - rook) & found
    across = {pair: cells[pair[0]].distance(cells[pair[1]]) for pair in found - rook}
    assert len(across) == 2
    assert all(0 < far < 0.3 * np.sqrt(min(cells[a].area, cells[b].area)) for (a, b), far in across.items())


def test_bubenec_has_144_pieces_whose_joints_are_the_borders_of_1_mm_and_more(bubenec):
    cells, height = bubenec
    panel = read_drawing(svg_of(cells, 700.0, height, digits=9), "bubenec")
    rook, found = contiguous(cells, rook=True), jointed(panel)
    border = {(a, b): cells[a].intersection(cells[b]).length for a, b in rook}
    assert panel.tessera_count == 144
    assert {pair for pair, length in border.items() if length >= 1} <= set(found)
    assert not {pair for pair, length in border.items() if length < 1 - 1e-6} & set(found)
    across = set(found) - rook  # over a courtyard or around a street corner
    assert len(across) <= 4
    assert all(cells[a].distance(cells[b]) > 1 for a, b in across)
    assert panel.warnings == ()


@pytest.mark.parametrize(("which", "width_mm"), [("columbus", 600.0), ("bubenec", 700.0)])
def test_areas_and_centroids_are_shapelys_and_every_outline_is_valid(request, which, width_mm):
    cells, height = request.getfixturevalue(which)
    panel = read_drawing(svg_of(cells, width_mm, height, digits=9), which)
    assert all(piece.is_valid for piece in polygons_of(panel))
    assert panel.area_mm2 == pytest.approx(np.array([cell.area for cell in cells]), rel=1e-6)
    assert panel.centroid_mm == pytest.approx(shapely.get_coordinates(shapely.centroid(cells)), abs=1e-5)
    assert panel.joint_area_mm2 == pytest.approx(
        width_mm * height - sum(cell.area for cell in cells), rel=1e-6
    )


def test_a_border_is_as_long_as_shapely_finds_it_where_nothing_bulges_over_it(bubenec):
    """Half of all borders to a hundredth of a millimetre; of those that wind, either side sees more."""
    cells, height = bubenec
    found = jointed(read_drawing(svg_of(cells, 700.0, height, digits=9), "bubenec"))
    off = [abs(length - cells[a].intersection(cells[b]).length) for (a, b), length in found.items()]
    assert np.median(off) < 0.01
    assert np.mean(off) < 0.5
