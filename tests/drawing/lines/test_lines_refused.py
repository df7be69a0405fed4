"""A picture in which there is nothing to read ends in one line that says what to do."""

import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from pydantic import ValidationError
from skimage.filters import threshold_otsu
from skimage.measure import perimeter_crofton

from bench.drawing.built import MOST_TESSERAE
from bench.drawing.faults import DrawingFault, SizeOutOfRange
from bench.drawing.from_picture import SizeNeeded, is_picture
from bench.drawing.lines import BlankPage, LineHow, NoClosedRegion, ReadingStopped, Stroke, panel_of_lines
from bench.drawing.lines import TooManyRegions as TooMany
from bench.drawing.lines.ink import edges_px, ink_of, otsu
from bench.drawing.photo import Picture, read_picture
from bench.drawing.svg import read_drawing
from tests.fakes.drawings import grid_svg
from tests.fakes.line_scans import scan_of


def picture(grey, mm_per_px=0.1):
    pixels = np.repeat(np.clip(grey, 0, 255).astype(np.uint8)[..., None], 3, axis=2)
    return Picture(pixels, mm_per_px, "page.png")


def square(*, broken_px=0):
    page = np.full((400, 400), 255.0)
    for a, b in ((50, 54), (346, 350)):
        page[a:b, 50:350] = page[50:350, a:b] = 0
    page[50:54, 180 : 180 + broken_px] = 255
    return page


RNG = np.random.default_rng(5)
BLANK = [
    np.full((400, 600), 255.0),
    np.zeros((400, 600)),
    RNG.normal(200, 6, (400, 600)),
    np.linspace(120, 250, 600)[None].repeat(400, axis=0),
    RNG.integers(0, 256, (400, 600)).astype(float),
    np.full((1, 1), 0.0),
]


@pytest.mark.parametrize("grey", BLANK)
def test_a_page_without_a_line_is_blank(grey):
    with pytest.raises(BlankPage, match=r"page\.png: no line stands out"):
        panel_of_lines(picture(grey, 10.0 if grey.size == 1 else 0.1))


def test_lines_that_do_not_close_say_so_and_what_to_try():
    with pytest.raises(NoClosedRegion, match=r"do not close.*--gap-mm larger than 1\.5") as caught:
        panel_of_lines(picture(square(broken_px=40)))
    assert caught.value.gap_mm == 1.5
    assert panel_of_lines(picture(square(broken_px=40)), how=LineHow(gap_mm=4.5))[1].count == 1


def test_a_region_below_the_least_size_is_counted_as_a_speck():
    with pytest.raises(NoClosedRegion, match="of 2000 mm² or more, only 1 smaller"):
        panel_of_lines(picture(square()), how=LineHow(least_mm2=2000))


def test_too_many_regions_are_refused_by_number():
    page = np.full((2420, 2420), 255.0)
    page[::6] = page[:, ::6] = 0
    with pytest.raises(TooMany, match="162,409") as caught:
        panel_of_lines(picture(page, 0.5))
    assert caught.value.limit == MOST_TESSERAE


def test_a_picture_without_a_size_asks_for_its_width():
    with pytest.raises(SizeNeeded, match="--width-mm"):
        panel_of_lines(picture(square(), None))
    found, _ = panel_of_lines(picture(square(), None), width_mm=80)
    assert (found.width_mm, found.height_mm) == (80, 80)
    assert panel_of_lines(picture(square(), None), height_mm=60)[0].width_mm == 60


@pytest.mark.parametrize("size", [0, -5, 4.9, 40_000, float("nan"), float("inf")])
def test_sizes_that_cannot_be_are_refused(size):
    with pytest.raises(SizeOutOfRange):
        panel_of_lines(picture(square()), width_mm=size)


def test_given_sizes_go_before_the_scanners_and_may_stretch():
    found, _ = panel_of_lines(picture(square()), width_mm=80, height_mm=40)
    assert (found.width_mm, found.height_mm) == (80, 40)
    assert found.area_mm2[0] == pytest.approx(292 * 292 * 0.2 * 0.1, rel=0.01)


def test_reading_can_be_watched_and_stopped():
    seen = []
    panel_of_lines(picture(square()), progress=lambda done: seen.append(done) is None)
    assert seen == sorted(seen)
    assert (seen[0], seen[-1]) == (0.0, 1.0)
    with pytest.raises(ReadingStopped):
        panel_of_lines(picture(square()), progress=lambda done: done < 0.4)


@pytest.mark.parametrize(
    ("kind", "values"),
    [
        (LineHow, {"gap_mm": -1}),
        (LineHow, {"gap_mm": 5.5}),
        (LineHow, {"gap_mm": float("nan")}),
        (LineHow, {"least_mm2": -1}),
        (LineHow, {"tolerance_mm": 0}),
        (LineHow, {"thick": 1}),
        (Stroke, {"points_mm": ()}),
        (Stroke, {"points_mm": ((0, float("inf")),)}),
        (Stroke, {"points_mm": ((0, 0),), "width_mm": 0}),
    ],
)
def test_settings_that_cannot_be_are_no_settings(kind, values):
    with pytest.raises(ValidationError):
        kind(**values)


def test_a_page_that_is_blank_but_for_the_makers_own_line_is_read():
    around = Stroke(points_mm=((10, 10), (30, 10), (30, 30), (10, 30), (10, 10)), width_mm=0.5)
    found, _ = panel_of_lines(picture(np.full((400, 600), 255.0)), strokes=[around])
    assert found.area_mm2 == pytest.approx([19.5**2], rel=0.01)


@pytest.mark.parametrize("kind", ["cmyk", "16 bit", "alpha", "palette", "grey", "webp"])
def test_every_kind_of_file_gives_the_same_pieces(kind):
    grid = read_drawing(grid_svg(4, 3), "grid")
    image = Image.fromarray(scan_of(grid, dpi=150).pixels)
    if kind == "cmyk":
        image = image.convert("CMYK")
    elif kind == "16 bit":
        image = Image.fromarray(np.asarray(image.convert("L")).astype(np.uint16) * 257)
    elif kind == "alpha":
        grey = image.convert("L")
        image = Image.new("RGBA", image.size, (0, 0, 0, 0))
        image.putalpha(Image.fromarray(255 - np.asarray(grey)))
    elif kind == "palette":
        image = image.convert("P", palette=Image.Palette.ADAPTIVE)
    elif kind == "grey":
        image = image.convert("L")
    out = io.BytesIO()
    image.save(out, {"cmyk": "JPEG", "webp": "WEBP"}.get(kind, "PNG"))
    assert is_picture(out.getvalue())
    found, _ = panel_of_lines(read_picture(out.getvalue(), "grid"), width_mm=28)
    assert found.tessera_count == 12
    assert np.median(found.area_mm2) == pytest.approx(6.2**2, rel=0.03)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(16, 90), st.integers(16, 90), st.sampled_from([2, 3, 8, 256]))
def test_whatever_the_pixels_are_a_panel_or_a_word_comes_out(seed, rows, columns, levels):
    rng = np.random.default_rng(seed)
    coarse = rng.integers(0, levels, (rows // 4 + 1, columns // 4 + 1))
    grey = np.kron(coarse, np.ones((4, 4)))[:rows, :columns] * (255 / max(1, levels - 1))
    try:
        found, report = panel_of_lines(picture(grey, 0.4))
    except DrawingFault:  # and nothing else
        return
    assert report.count == found.tessera_count > 0
    assert (found.area_mm2 > 0).all()


@settings(max_examples=100, deadline=None)
@given(st.lists(st.integers(0, 50), min_size=256, max_size=256))
def test_the_limit_between_two_classes_is_otsus(counts):
    """scikit-image's threshold_otsu on the same histogram: no other split parts the classes more."""
    counts = np.array(counts, float)
    if np.count_nonzero(counts) < 2:
        return
    theirs = int(threshold_otsu(hist=(counts, np.arange(256))))

    def between(last):
        low, high = counts[: last + 1], counts[last + 1 :]
        if not (low.sum() and high.sum()):
            return 0.0
        one = np.average(np.arange(last + 1), weights=low)
        other = np.average(np.arange(last + 1, 256), weights=high)
        return low.sum() * high.sum() * (one - other) ** 2

    assert between(otsu(counts)) == pytest.approx(between(theirs), rel=1e-9)


def test_the_width_of_lines_is_measured():
    page = np.full((600, 800), 250.0)
    for x in range(40, 760, 60):
        page[:, x : x + 7] = 30
    ink = ink_of(picture(page).pixels, 0.1)
    assert ink.line_px == pytest.approx(7, rel=0.06)


def test_edges_are_as_long_as_skimage_says():
    """scikit-image's perimeter_crofton with four directions."""
    y, x = np.mgrid[:300, :300]
    for dark in (
        np.hypot(x - 150, y - 150) < 90,
        abs(x - 150) + abs(y - 150) < 100,
        (x > 40) & (x < 50) & (y > 9),
    ):
        dark[:2] = dark[-2:] = dark[:, :2] = dark[:, -2:] = False
        assert edges_px(dark) == pytest.approx(perimeter_crofton(dark, directions=4), rel=0.01)
