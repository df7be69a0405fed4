"""Any unit comes to millimetres: of the page, of its viewBox and of each length in the drawing."""

import math

import pytest

from bench.drawing.faults import PageSizeWrong, SizeOutOfRange
from bench.drawing.svg import read_drawing
from tests.fakes.shapes import page, read

RECT = '<rect x="1" y="2" width="10" height="20"/>'


@pytest.mark.parametrize(
    ("size", "width_mm", "rect_mm2"),
    [
        # CSS Values 4, 5.2: 1 in = 2.54 cm = 96 px = 72 pt = 6 pc = 40 × 2.54 Q
        ('width="100mm" height="50mm" viewBox="0 0 100 50"', 100.0, 200.0),
        ('width="10cm" height="5cm" viewBox="0 0 100 50"', 100.0, 200.0),
        ('width="4in" height="2in" viewBox="0 0 400 200"', 101.6, 200.0 * 0.254**2),
        ('width="960" height="480"', 254.0, 200.0 * (25.4 / 96) ** 2),
        ('width="960px" height="480px"', 254.0, 200.0 * (25.4 / 96) ** 2),
        ('width="720pt" height="360pt" viewBox="0 0 960 480"', 254.0, 200.0 * (25.4 / 96) ** 2),
        ('width="60pc" height="30pc" viewBox="0 0 960 480"', 254.0, 200.0 * (25.4 / 96) ** 2),
        ('width="400Q" height="200Q" viewBox="0 0 100 50"', 100.0, 200.0),
        ('viewBox="0 0 960 480"', 254.0, 200.0 * (25.4 / 96) ** 2),
        ('width="100%" height="100%" viewBox="0 0 960 480"', 254.0, 200.0 * (25.4 / 96) ** 2),
        ('width="100mm" viewBox="0 0 100 50"', 100.0, 200.0),
        ('height="50mm" viewBox="0 0 100 50"', 100.0, 200.0),
    ],
)
def test_the_page_is_read_in_any_unit(size, width_mm, rect_mm2):
    panel = read(RECT, size=size)
    assert width_mm == pytest.approx(panel.width_mm, rel=1e-9)
    assert width_mm / 2 == pytest.approx(panel.height_mm, rel=1e-9)
    assert rect_mm2 == pytest.approx(panel.glass_area_mm2, rel=1e-9)


MM = 0.5 * 96 / 25.4  # of a drawing whose px is ½ mm: 1 mm inside it is 96/25.4 px


@pytest.mark.parametrize(
    ("length", "mm"),
    [
        ("20", 10),
        ("20px", 10),
        ("20mm", 20 * MM),
        ("2cm", 20 * MM),
        ("0.5in", 12.7 * MM),
        ("36pt", 12.7 * MM),
        ("3pc", 12.7 * MM),
        ("25%", 25),
        ("1em", 8),
    ],
)
def test_a_length_inside_the_drawing_is_read_in_any_unit(length, mm):
    """The page is 100 mm and 200 px wide, so that all but percentages are drawn at half a mm to the px."""
    size = 'width="100mm" height="100mm" viewBox="0 0 200 200"'
    panel = read(f'<rect width="{length}" height="10"/>', size=size)
    assert mm == pytest.approx(panel.points_mm[:, 0].max(), rel=1e-9)


def test_a_view_box_keeps_its_proportion_and_stands_in_the_middle():
    """preserveAspectRatio xMidYMid meet, the default (SVG 2, 8.6): 100 × 50 on 100 × 100 leaves 25 above."""
    panel = read(RECT, size='width="100mm" height="100mm" viewBox="0 0 100 50"')
    assert pytest.approx(panel.points_mm.min(axis=0).tolist()) == [1.0, 27.0]


@pytest.mark.parametrize(
    ("aspect", "corner"),
    [("xMinYMin meet", (1, 2)), ("xMaxYMax", (1, 52)), ("none", (1, 4)), ("xMidYMid slice", (-48, 4))],
)
def test_preserve_aspect_ratio_is_followed(aspect, corner):
    size = f'width="100mm" height="100mm" viewBox="0 0 100 50" preserveAspectRatio="{aspect}"'
    assert list(corner) == pytest.approx(read(RECT, size=size).points_mm.min(axis=0).tolist())


def test_a_view_box_may_begin_anywhere():
    panel = read(
        '<rect x="-20" y="30" width="5" height="5"/>',
        size='width="10cm" height="10cm" viewBox="-50 0 100 100"',
    )
    assert pytest.approx(panel.points_mm.min(axis=0).tolist()) == [30.0, 30.0]


@pytest.mark.parametrize(
    ("rescale", "size_mm", "rect_mm2"),
    [
        ({}, (100, 50), 200),
        ({"width_mm": 300}, (300, 150), 200 * 9),
        ({"height_mm": 25}, (50, 25), 50),
        ({"width_mm": 200, "height_mm": 50}, (200, 50), 400),
    ],
)
def test_a_side_in_mm_rescales_all_of_it(rescale, size_mm, rect_mm2):
    panel = read_drawing(page(RECT, size='width="10cm" height="5cm" viewBox="0 0 100 50"'), "a", **rescale)
    assert size_mm == pytest.approx((panel.width_mm, panel.height_mm))
    assert rect_mm2 == pytest.approx(panel.glass_area_mm2)
    assert size_mm[0] * size_mm[1] == pytest.approx(panel.outline_area_mm2)


def test_curves_are_as_fine_after_rescaling():
    """Straightened to 0.05 mm of the panel, not of the drawing."""
    tiny = '<circle cx="0.05" cy="0.05" r="0.04"/>'
    panel = read(tiny, size='width="100mm" height="100mm" viewBox="0 0 0.1 0.1"')
    radius = 40.0
    distance = ((panel.points_mm - 50) ** 2).sum(axis=1) ** 0.5
    middles = (
        panel.points_mm + panel.points_mm.take(range(1, len(panel.points_mm) + 1), axis=0, mode="wrap")
    ) / 2
    assert distance.max() - radius < 0.05
    assert radius - ((middles - 50) ** 2).sum(axis=1).min() ** 0.5 < 0.05
    assert math.pi * radius**2 == pytest.approx(panel.glass_area_mm2, rel=1e-9)


def test_without_any_size_the_page_is_drawn_around_the_shapes_and_says_so():
    panel = read(
        '<rect x="96" y="192" width="480" height="96"/><rect x="96" y="300" width="96" height="96"/>', size=""
    )
    assert pytest.approx((panel.width_mm, panel.height_mm)) == (127.0, 53.975)
    assert pytest.approx(panel.points_mm.min(axis=0).tolist()) == [0.0, 0.0]
    assert any("gives no page size" in text for text in panel.warnings)


def test_without_any_size_a_width_still_scales_it():
    panel = read(
        '<rect x="5" y="5" width="40" height="20"/><rect x="45" y="5" width="40" height="20"/>',
        size="",
        width_mm=160,
    )
    assert pytest.approx((panel.width_mm, panel.height_mm)) == (160.0, 40.0)


@pytest.mark.parametrize(
    "size",
    [
        'width="0" height="10mm"',
        'width="-5mm" height="10mm"',
        'width="10cm"',
        'width="NaN" height="10mm"',
        'width="abc" height="10mm"',
        'width="10furlong" height="10mm"',
        'width="1e99" height="10mm"',
        'width="10cm" height="10cm" viewBox="0 0 0 10"',
        'width="10cm" height="10cm" viewBox="0 0 -3 10"',
        'width="10cm" height="10cm" viewBox="0 0 10"',
        'width="10cm" height="10cm" viewBox="0 0 inf 10"',
    ],
)
def test_a_page_that_cannot_be_used_is_refused(size):
    with pytest.raises(PageSizeWrong, match=r"lemons.svg: its page size .* cannot be used; give the page"):
        read(RECT, size=size)


@pytest.mark.parametrize(
    ("size", "rescale"),
    [
        ('width="4.9mm" height="100mm"', {}),
        ('width="21m" height="1m" viewBox="0 0 1 1"', {}),
        ('width="21000mm" height="100mm"', {}),
        ('width="100mm" height="100mm"', {"width_mm": 0}),
        ('width="100mm" height="100mm"', {"width_mm": -3}),
        ('width="100mm" height="100mm"', {"height_mm": float("nan")}),
        ('width="100mm" height="100mm"', {"height_mm": float("inf")}),
        ('width="100mm" height="1mm"', {"width_mm": 300}),
    ],
)
def test_a_panel_smaller_than_5_mm_or_larger_than_20_m_is_refused(size, rescale):
    with pytest.raises((SizeOutOfRange, PageSizeWrong)) as fault:
        read(RECT, size=size, **rescale)
    assert "5 mm" in str(fault.value)
    assert "20 m" in str(fault.value)


def test_an_absurd_page_may_be_rescaled_to_a_sane_one():
    panel = read(RECT, size='viewBox="0 0 100000 50000"', width_mm=400)
    assert (panel.width_mm, panel.height_mm) == (400.0, 200.0)
