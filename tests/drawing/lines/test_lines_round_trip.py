"""A panel drawn with black lines and read back is the same panel, however it was scanned or photographed."""

import io

import numpy as np
import pytest
from PIL import Image, ImageFilter
from shapely.affinity import translate
from skimage.measure import label, regionprops

from bench.drawing.lines import LineHow, panel_of_lines
from bench.drawing.load import load_drawing
from bench.drawing.photo import Picture, read_picture
from bench.drawing.svg import read_drawing
from bench.resources import resource
from tests.fakes.line_scans import drawn_svg, matched, photographed, scan, scan_of
from tests.fakes.shapes import path_data, polygons_of, svg_of, voronoi


@pytest.fixture(scope="module")
def lemons():
    return load_drawing(resource("assets", "demo", "lemons.svg"))[1]


@pytest.fixture(scope="module")
def cells():
    """A hundred cells on a page with paper around them."""
    pieces = voronoi(100, width_mm=110, height_mm=80, gap_mm=0.9, seed=4)
    pieces = [piece for piece in pieces if piece.area > 12 and piece.buffer(-1.2).area > 0]
    moved = [translate(piece, 10, 10) for piece in pieces]
    return read_drawing(svg_of(moved, 130, 100), "cells.png")


@pytest.fixture(scope="module")
def lemons_again(lemons):
    return panel_of_lines(scan_of(lemons, dpi=200))


def same(expected, found, *, iou=0.9, area=0.03):
    assert found.tessera_count == expected.tessera_count
    of, rate, ratio = matched(expected, found)
    assert sorted(of.tolist()) == list(range(expected.tessera_count))
    assert np.median(rate) > iou
    assert abs(np.median(ratio) - 1) < area
    assert all(piece.is_valid for piece in polygons_of(found))


def test_the_demo_drawn_in_lines_and_scanned_is_the_demo_again(lemons, lemons_again):
    found, report = lemons_again
    same(lemons, found, iou=0.97, area=0.01)
    _, rate, ratio = matched(lemons, found)
    assert rate.min() > 0.85
    assert np.percentile(np.abs(ratio - 1), 98) < 0.025
    assert (found.width_mm, found.height_mm) == pytest.approx((lemons.width_mm, lemons.height_mm), rel=1e-3)
    assert report.count == lemons.tessera_count
    assert report.leaks == ()
    assert report.line_mm == pytest.approx(0.9, abs=0.1)
    assert report.median_mm2 == pytest.approx(np.median(lemons.area_mm2), rel=0.02)


def test_neighbours_are_those_that_the_drawing_has(lemons, lemons_again):
    found, _ = lemons_again
    of, _, _ = matched(lemons, found)
    again = {tuple(sorted(pair)) for pair in of[found.joints.pair].tolist()}
    drawn = {tuple(pair) for pair in lemons.joints.pair.tolist()}
    assert len(again & drawn) / len(again | drawn) > 0.97


@pytest.mark.parametrize("dpi", [100, 150, 300])
def test_it_matters_little_how_finely_the_page_was_scanned(cells, dpi):
    found, _ = panel_of_lines(scan_of(cells, dpi=dpi))
    same(cells, found, iou=0.93, area=0.02)


@pytest.mark.parametrize(
    ("ink", "paper"),
    [("#000000", "#ffffff"), ("#a0a0a0", "#f4efe0"), ("#202040", "#86a8d8"), ("#903020", "#d8c8a0")],
)
@pytest.mark.parametrize("dark", [1.0, 0.35])
def test_ink_and_pencil_on_any_paper_in_uneven_light_with_grain(cells, ink, paper, dark):
    picture = scan_of(cells, dpi=150, ink=ink, paper=paper)
    found, report = panel_of_lines(photographed(picture, dark=dark, noise=4.0, seed=3))
    same(cells, found, iou=0.93, area=0.03)
    assert not report.coloured


def test_a_strong_jpeg_and_a_little_blur_do_no_harm(cells):
    picture = photographed(scan_of(cells, dpi=200))
    out = io.BytesIO()
    soft = Image.fromarray(picture.pixels).filter(ImageFilter.GaussianBlur(1.2))
    soft.save(out, "JPEG", quality=50)
    found, _ = panel_of_lines(read_picture(out.getvalue(), "cells.jpg"), width_mm=130)
    same(cells, found, iou=0.93, area=0.03)


@pytest.mark.parametrize("degrees", [2.0, 31.0])
def test_a_page_laid_askew_keeps_count_and_areas(cells, degrees):
    picture = scan_of(cells, dpi=200)
    askew = Image.fromarray(picture.pixels).rotate(
        degrees, Image.Resampling.BICUBIC, expand=True, fillcolor=(255, 255, 255)
    )
    found, _ = panel_of_lines(Picture(np.asarray(askew), picture.mm_per_px, "askew"))
    assert found.tessera_count == cells.tessera_count
    assert np.sort(found.area_mm2) == pytest.approx(np.sort(cells.area_mm2), rel=0.05)
    assert found.glass_area_mm2 == pytest.approx(cells.glass_area_mm2, rel=0.01)


def test_thin_double_lines_around_every_piece_are_read_too(cells):
    pieces = polygons_of(cells)
    drawn = "".join(
        f'<path d="{path_data(one)}" fill="none" stroke="black" stroke-width="0.35"/>' for one in pieces
    )
    svg = drawn_svg(pieces, (130, 100), ink="white", over=drawn)
    found, report = panel_of_lines(scan(svg, 130, 200), how=LineHow(least_mm2=8))
    of, rate, _ = matched(cells, found)
    assert report.line_mm == pytest.approx(0.35, abs=0.1)
    assert set(range(cells.tessera_count)) <= set(of[rate > 0.75].tolist())


def test_skimage_finds_the_same_regions_on_the_same_scan(cells):
    """scikit-image's label and regionprops, 4-connected, at a fixed threshold half-way between the tones."""
    picture = scan_of(cells, dpi=200)
    light = label(picture.pixels[..., 0] > 127, connectivity=1)
    paper = light[0, 0]
    least_px = 1.0 / picture.mm_per_px**2
    theirs = [one for one in regionprops(light) if one.label != paper and one.area >= least_px]
    found, report = panel_of_lines(picture)
    assert report.count == len(theirs)
    middles = np.array([one.centroid[::-1] for one in theirs]) * picture.mm_per_px
    areas = np.array([one.area for one in theirs]) * picture.mm_per_px**2
    off = np.hypot(*(found.centroid_mm[:, None] - middles[None]).transpose(2, 0, 1))
    mine = np.argmin(off, axis=1)
    assert sorted(mine.tolist()) == list(range(len(theirs)))
    assert off[np.arange(len(mine)), mine].max() < 2 * picture.mm_per_px
    assert found.area_mm2 == pytest.approx(areas[mine], rel=0.02)
