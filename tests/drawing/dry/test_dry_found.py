"""Pieces laid dry, counted in photos made from known panels; the truth is what was painted."""

import numpy as np
import pytest
import shapely
from scipy.ndimage import distance_transform_edt
from scipy.spatial.distance import cdist
from skimage.draw import polygon2mask
from skimage.feature import peak_local_max
from skimage.measure import label, regionprops
from skimage.segmentation import watershed

from bench.drawing.dry import PhotoTooCoarse, found_pieces, frame_around
from bench.drawing.dry.split import parted
from bench.drawing.photo import Corners, Picture, read_picture, square_up
from bench.drawing.rings import moments
from bench.drawing.svg import read_drawing
from bench.resources import resource
from tests.fakes.dry_photos import PLAIN, STROKE_MM, WHITE_GLASS, WORKSHOP, Light, laid
from tests.fakes.panels import BLUE, courses

PANEL = courses(14, 12, joint_mm=1.0)
SECTION = [k for k in range(PANEL.tessera_count) if 2 <= k % 14 < 12 and 2 <= k // 14 < 10]
FRAME = (4.0, 4.0, 90.0, 77.0)


def squared(photo):
    width_mm, height_mm = photo.size_mm
    corners = Corners(corner_px=photo.corner_px, width_mm=width_mm, height_mm=height_mm)
    return square_up(read_picture(photo.data, "lay.jpg"), corners)


def matched(found, photo):
    """Return how far each piece found lies from the nearest true one, and which that is."""
    far = cdist(found.centroid_mm(), photo.centroid_mm)
    return far.min(axis=1), far.argmin(axis=1)


@pytest.mark.parametrize("seed", range(3))
def test_on_plain_paper_the_count_is_exact_and_a_gap_between_pencil_lines_is_no_piece(seed):
    photo = laid(PANEL, SECTION, FRAME, missing=SECTION[20:23], light=PLAIN, seed=seed)
    found = found_pieces(squared(photo))
    far, which = matched(found, photo)
    assert found.count == photo.count == 77
    assert far.max() < 0.3
    assert len(set(which.tolist())) == 77
    assert not found.by_edges.any()


@pytest.mark.parametrize("seed", range(4))
def test_uneven_light_shadows_and_grain_cost_at_most_one_piece_in_fifty(seed):
    """The bound is ours, chosen so that a maker has one tap to make; no source."""
    photo = laid(PANEL, SECTION, FRAME, missing=SECTION[20:23], light=WORKSHOP, seed=seed)
    found = found_pieces(squared(photo))
    far, which = matched(found, photo)
    assert abs(found.count - photo.count) <= 77 / 50
    assert np.quantile(far, 0.9) < 0.4
    assert len(set(which.tolist())) >= 76


@pytest.mark.parametrize("middle", [(0.3, 0.3), (0.5, 0.5), (0.7, 0.7)])
def test_sections_of_the_demo_are_counted_in_workshop_light(middle):
    """Long, bent, three-sided and pale pieces, dark ones beside light ones: at most one in fifty is wrong."""
    panel = read_drawing(resource("assets", "demo", "lemons.svg").read_bytes(), "lemons.svg")
    far = np.hypot(*(panel.centroid_mm - np.array(middle) * (panel.width_mm, panel.height_mm)).T)
    section = np.argsort(far)[:75].tolist()
    frame = frame_around(panel, section, 10.0)
    box = (frame.x_mm, frame.y_mm, frame.width_mm, frame.height_mm)
    photo = laid(panel, section, box, missing=section[10:12], light=WORKSHOP, px_per_mm=12, seed=5)
    found = found_pieces(squared(photo))
    assert abs(found.count - 73) <= 1
    assert np.quantile(matched(found, photo)[0], 0.9) < 0.5


def test_white_glass_on_white_paper_is_found_by_its_shade_or_its_edges():
    photo = laid(PANEL, SECTION, FRAME, missing=SECTION[20:22], light=WORKSHOP, colour=lambda k: WHITE_GLASS)
    found = found_pieces(squared(photo))
    far, which = matched(found, photo)
    assert abs(found.count - 78) <= 3
    assert len(set(which[far < 1.0].tolist())) >= 76


def test_white_among_blue_is_found_too():
    photo = laid(
        PANEL, SECTION, FRAME, light=WORKSHOP, colour=lambda k: WHITE_GLASS if k % 3 else BLUE, seed=1
    )
    assert abs(found_pieces(squared(photo)).count - 80) <= 2


def test_a_few_clear_pieces_are_counted_and_those_told_by_their_edges_alone_are_marked():
    clear = SECTION[12::11]
    photo = laid(PANEL, SECTION, FRAME, clear=clear, light=PLAIN)
    found = found_pieces(squared(photo))
    _, which = matched(found, photo)
    by_edges = {SECTION[k] for k in which[found.by_edges].tolist()}
    assert found.count == 80
    assert len(set(which.tolist())) == 80
    assert by_edges <= set(clear)


@pytest.mark.parametrize(("darker", "count"), [(0, 0), (10, 1)])
def test_a_shade_too_faint_for_a_pixel_is_glass_between_edges_and_edges_alone_are_none(darker, count):
    """10 of 255 in every channel is 3.6 in L*, by the formula of CIE 15."""
    pixels = np.full((500, 500, 3), 235, np.float64)
    pixels[196:274, 196:274] = 150
    pixels[200:270, 200:270] = 235 - darker
    pixels += np.random.default_rng(2).normal(0, 1, pixels.shape)
    found = found_pieces(Picture(np.clip(pixels, 0, 255).astype(np.uint8), 0.1, "clear"))
    assert found.by_edges.tolist() == [True] * count
    if count:
        assert found.area_mm2()[0] == pytest.approx(49, rel=0.12)


def test_areas_and_outlines_are_those_of_the_pieces():
    """Against the outlines as painted, stroke and all, by shapely; and scikit-image's regionprops."""
    photo = laid(PANEL, SECTION, FRAME, light=Light(grain=1.0), form="PNG")
    found = found_pieces(squared(photo))
    _, which = matched(found, photo)
    painted = [shapely.Polygon(photo.points_mm[k]).buffer(STROKE_MM / 2, join_style="mitre") for k in which]
    off = np.abs(found.area_mm2() / shapely.area(painted) - 1)
    assert np.median(off) < 0.03
    assert off.max() < 0.15
    props = regionprops(found.labels)
    assert [p.area * found.mm_per_px**2 for p in props] == pytest.approx(found.area_mm2().tolist())
    middle = np.array([p.centroid[::-1] for p in props]) * found.mm_per_px + found.mm_per_px / 2
    assert np.abs(middle - found.centroid_mm()).max() < 1e-6
    rings, owner = found.outlines()
    signed, _ = moments(rings)
    assert np.bincount(owner, signed, found.count) == pytest.approx(found.area_mm2(), rel=0.03)


@pytest.mark.parametrize("seed", range(5))
def test_discs_that_touch_come_apart_as_scikit_images_watershed_parts_them(seed):
    rng = np.random.default_rng(seed)
    glass = np.zeros((200, 300), bool)
    y, x = np.mgrid[:200, :300]
    at = np.array([(28 + 37 * k, 30 + 36 * j) for j in range(5) for k in range(7)], float)
    at += rng.uniform(-2, 2, at.shape)
    for cx, cy in at:
        glass |= (x - cx) ** 2 + (y - cy) ** 2 < 19**2
    assert label(glass).max() < len(at) / 2
    found = parted(glass, 5.0)
    far = distance_transform_edt(glass)
    peaks = np.zeros(glass.shape, int)
    for k, place in enumerate(peak_local_max(far, min_distance=12, labels=glass), start=1):
        peaks[tuple(place)] = k
    theirs = watershed(-far, peaks, mask=glass)
    assert found.max() == theirs.max() == len(at)
    same = sum(np.bincount(theirs[found == k]).max() for k in range(1, found.max() + 1))
    assert same >= 0.97 * glass.sum()


def test_one_long_bent_piece_stays_one():
    y, x = np.mgrid[:160, :160]
    far = np.hypot(x - 20, y - 20)
    arc = (far > 90) & (far < 112) & (x > 20) & (y > 20)
    assert parted(arc, 5.0).max() == 1
    l_shape = polygon2mask((160, 160), [(10, 10), (150, 10), (150, 50), (50, 50), (50, 150), (10, 150)])
    assert parted(l_shape, 5.0).max() == 1


def test_bare_paper_has_no_pieces_and_neither_has_a_table_without_paper():
    rng = np.random.default_rng(3)
    for shade in (235, 120, 20):
        pixels = np.clip(shade + rng.normal(0, 3, (400, 500, 3)), 0, 255).astype(np.uint8)
        assert found_pieces(Picture(pixels, 0.15, "bare")).count == 0


@pytest.mark.parametrize("mm_per_px", [None, 0.31, 5.0])
def test_a_photo_from_too_far_away_is_refused(mm_per_px):
    picture = Picture(np.full((300, 300, 3), 230, np.uint8), mm_per_px, "far.jpg")
    with pytest.raises(PhotoTooCoarse, match=r"far\.jpg.*from nearer"):
        found_pieces(picture)


@pytest.mark.parametrize("shape", [(16, 16), (16, 900), (1, 40)])
def test_any_small_picture_is_looked_at_without_a_fall(shape):
    pixels = np.random.default_rng(1).integers(0, 256, (*shape, 3), np.uint8)
    assert found_pieces(Picture(pixels, 0.2, "tiny")).count >= 0
