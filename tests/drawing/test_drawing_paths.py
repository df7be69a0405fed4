"""Path data becomes the outline that svgelements reads in it, and curves keep their area and their place."""

import math
import re

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from svgelements import Path

from bench.drawing.flatten import TOLERANCE_MM, pieces_of, place, straighten
from bench.drawing.numbers import IDENTITY, Unreadable
from bench.drawing.paths import read_path
from tests.fakes.shapes import polygons_of, read


def outline(data: str) -> np.ndarray:
    """Return the points of the first sub-path, its curves straightened."""
    strokes = read_path(data)
    placed = place(strokes, [IDENTITY] * len(strokes))
    rings = straighten(placed, pieces_of(placed))
    return rings.points_mm[: rings.start[1]]


def sampled(data: str) -> np.ndarray:
    """Return 200 points on each segment of the path as svgelements reads it."""
    at = np.linspace(0, 1, 200)
    points = [[segment.point(t) for t in at] for segment in Path(data) if type(segment).__name__ != "Move"]
    return np.array([[p.x, p.y] for some in points for p in some])


PLACE = st.integers(-30, 30)
FLAG = st.sampled_from("01")
PAIR = st.builds("{} {}".format, PLACE, PLACE)


def command(letters: str, *parts: st.SearchStrategy) -> st.SearchStrategy:
    return st.builds(
        lambda letter, *rest: letter + ",".join(map(str, rest)), st.sampled_from(letters), *parts
    )


COMMAND = st.one_of(
    command("Ll", PAIR),
    command("Ll", PAIR, PAIR),
    command("Hh", PLACE),
    command("Vv", PLACE),
    command("Cc", PAIR, PAIR, PAIR),
    command("Ss", PAIR, PAIR),
    command("Qq", PAIR, PAIR),
    command("Tt", PAIR),
    command("Tt", PAIR, PAIR),
    command(
        "Aa",
        st.integers(1, 40),
        st.integers(1, 40),
        st.integers(-90, 90),
        FLAG,
        FLAG,
        PAIR,
    ),
)


@settings(max_examples=150, deadline=None)
@given(start=PAIR, commands=st.lists(COMMAND, min_size=2, max_size=6))
def test_any_path_stays_within_the_tolerance_of_what_svgelements_draws(start, commands):
    """Save a smooth curve after one of the other kind: svgelements bends it, SVG 2, 9.3.6 does not."""
    data = f"M{start}" + "".join(commands)
    assume(not re.search(r"[QqTt][^A-Za-z]*[Ss]|[CcSs][^A-Za-z]*[Tt]", data))
    drawn, true = shapely.LineString(outline(data)), shapely.LineString(sampled(data))
    assert drawn.hausdorff_distance(true) <= TOLERANCE_MM + 0.02  # 0.02: the 200 points are straight too


@pytest.mark.parametrize(
    ("data", "same"),
    [
        ("M0 0L10 0L10 10Z", "M0,0 10,0 10,10z"),
        ("m1,2 10,0 0,10z", "M1 2H11V12Z"),
        ("M.5.5L10.5.5-5-5z", "M0.5,0.5 L10.5,0.5 L-5,-5 Z"),
        ("M1e1-1E0 20+3 5.,5z", "M10,-1 20,3 5,5z"),
        ("M0 0a5 5 0 1010 0z", "M0 0 a 5 5 0 1 0 10 0 z"),
        ("M0 0a5 5 0 0110 0z", "M0,0A5,5,0,0,1,10,0z"),
        ("M0 0a5 0 0 0 1 10 0L5 5z", "M0 0L10 0L5 5z"),
        ("M0 0A1 1 0 0 1 10 0L5 9z", "M0 0A5 5 0 0 1 10 0L5 9z"),
        ("\n\tM 0 , 0\nL 10 0\r\n5 5 z ", "M0 0 10 0 5 5z"),
        ("M0 0L10 0L5 5zl-3 4 8 8z", "M0 0L10 0L5 5zM0 0L-3 4L5 12z"),
    ],
)
def test_the_same_outline_may_be_written_in_many_ways(data, same):
    """SVG 2, 9.3: commands may run on, signs and points may stand for commas, radii too small grow."""
    one, other = read_path(data), read_path(same)
    assert len(one) == len(other)
    for a, b in zip(one, other, strict=True):
        assert a.flat == pytest.approx(b.flat)
        assert a.closed == b.closed


@pytest.mark.parametrize("data", ["", "  ", "none", "M5 5", "M5,5z", "M1 1M2 2M3 3"])
def test_a_path_without_a_stroke_draws_nothing(data):
    assert read_path(data) == []


@pytest.mark.parametrize(
    "data",
    [
        "L0 0 1 1",
        "0 0L1 1",
        "M",
        "M1",
        "M0 0L1",
        "M0 0L",
        "M0 0L1 1 2",
        "M0 0C1 1 2 2 3",
        "M0 0H",
        "M0 0 L NaN 1",
        "M0 0 L 1 inf",
        "M0 0 L 1e999 1",
        "M0 0 l 9e12 0 1 0",
        "M0 0 L 1 1 z 3",
        "M0 0 L 1 1 X 3 4",
        "M0 0 L 1-+1",
        "M0 0 A 1 1 0 2 0 3 3",
        "M0 0 A 1 1 0 0 0 3",
        "M0 0 A",
        "M0 0 L 1;1",
        "M0 0 L #1 1",
    ],
)
def test_path_data_that_is_not_quite_right_is_refused_not_guessed(data):
    with pytest.raises(Unreadable):
        read_path(data)


@pytest.mark.parametrize(
    ("body", "area", "centroid"),
    [
        ('<circle cx="30" cy="40" r="3"/>', math.pi * 9, (30, 40)),
        ('<ellipse cx="30" cy="40" rx="12" ry="0.8"/>', math.pi * 9.6, (30, 40)),
        ('<ellipse cx="30" cy="40" rx="5"/>', math.pi * 25, (30, 40)),
        ('<rect x="10" y="20" width="8" height="4"/>', 32, (14, 22)),
        ('<rect x="10" y="20" width="8" height="4" rx="1"/>', 32 - 4 + math.pi, (14, 22)),
        ('<rect x="10" y="20" width="8" height="4" rx="9" ry="1"/>', 32 - 16 + math.pi * 4, (14, 22)),
        ('<polygon points="0,0 6,0 6,6 0,6"/>', 36, (3, 3)),
        ('<polyline points="0 0,6 0 6-6,0,0"/>', 18, (4, -2)),
        ('<path d="M0 0H6V6"/><polygon points="1,1 2,1 2,2"/>', 0.5, (5 / 3, 4 / 3)),
        ('<path d="M40 40A4 4 0 1 1 48 40 4 4 0 1 1 40 40z"/>', math.pi * 16, (44, 40)),
        # a lens of two quadratic curves: each bulges ⅔ of its sagitta (½ of 4) over a chord of 9
        ('<path d="M10 10Q14.5 14 19 10Q14.5 6 10 10"/>', 2 * 2 / 3 * 2 * 9, (14.5, 10)),
    ],
)
def test_every_kind_of_shape_has_the_area_and_centroid_of_its_formula(body, area, centroid):
    """Curves are straightened, yet lose no area: the pieces stand as much outside as inside."""
    panel = read(body)
    assert panel.tessera_count == 1
    assert panel.area_mm2[0] == pytest.approx(area, rel=3e-3)
    assert panel.centroid_mm[0].tolist() == pytest.approx(centroid, abs=0.01)


def test_a_border_that_two_tesserae_share_is_the_same_from_either_side():
    """One draws the curve forward, the other backward; no sliver may lie between."""
    body = (
        '<path d="M0 0H10C14 5 6 12 11 20H0z" fill="red"/><path d="M20 0V20H11C6 12 14 5 10 0z" fill="blue"/>'
    )
    one, other = polygons_of(read(body))
    assert one.intersection(other).area == pytest.approx(0, abs=1e-9)
    assert one.union(other).area == pytest.approx(400, rel=1e-9)
    assert read(body).joints.gap_mm.tolist() == pytest.approx([0], abs=1e-9)


def test_points_of_a_polygon_may_be_odd_in_number_as_svg_says():
    """SVG 2, 10.7: the last number of an odd list is an error, and what came before is drawn."""
    assert read('<polygon points="0,0 6,0 6,6 3"/>').area_mm2.tolist() == pytest.approx([18])
