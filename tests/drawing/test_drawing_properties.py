"""Whatever is drawn comes back with its area; whatever bytes come, only a fault is raised."""

import random
import re

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from bench.drawing.svg import read_drawing
from bench.fault import Fault
from tests.fakes.shapes import page, polygons_of, read, square, svg_of, voronoi


@st.composite
def blobs(draw) -> shapely.Polygon:
    """Return a star-shaped polygon about a point of the page, perhaps with a hole."""
    x, y = draw(st.floats(30, 70)), draw(st.floats(30, 70))
    radii = np.array(draw(st.lists(st.floats(4, 25), min_size=3, max_size=12)))
    angles = np.arange(len(radii)) * 2 * np.pi / len(radii)
    way = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    hole = [(x, y) + 0.2 * radii.min() * way[::-1]] if draw(st.booleans()) else []
    return shapely.Polygon((x, y) + radii[:, None] * way, hole)


@settings(max_examples=60, deadline=None)
@given(blobs())
def test_any_polygon_comes_back_with_its_area_its_centroid_and_its_outline(blob):
    panel = read_drawing(svg_of([blob], 100, 100, digits=9), "a")
    (found,) = polygons_of(panel)
    assert panel.area_mm2[0] == pytest.approx(blob.area, rel=1e-7)
    assert panel.centroid_mm[0].tolist() == pytest.approx([blob.centroid.x, blob.centroid.y], abs=1e-6)
    assert found.symmetric_difference(blob).area < 1e-4
    assert (panel.left_out, panel.joints.pair.tolist()) == ((), [])


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from([0.0, 0.5, 1.5]))
def test_every_panel_keeps_its_own_word(seed, gap):
    """The arrays of a panel fit one another, glass and joints make up the page, and ids are all different."""
    panel = read_drawing(svg_of(voronoi(80, seed=seed, gap_mm=gap), 100, 80), "a")
    n = panel.tessera_count
    assert n == len(set(panel.ids)) == len(panel.area_mm2) == len(panel.centroid_mm) == len(panel.colour)
    assert n == len(panel.glass) == len(panel.adhesive) == len(panel.group) == len(panel.tessera_ring) - 1
    assert panel.tessera_ring[-1] == len(panel.ring_start) - 1
    assert panel.ring_start[-1] == len(panel.points_mm)
    assert panel.glass_area_mm2 + panel.joint_area_mm2 == pytest.approx(100 * 80)
    assert (panel.points_mm.dtype, panel.ring_start.dtype, panel.joints.pair.dtype) == (
        float,
        np.int32,
        np.int32,
    )


def test_reading_twice_gives_the_same():
    data = svg_of(voronoi(60, seed=1), 100, 80)
    one, other = read_drawing(data, "a"), read_drawing(data, "a")
    assert one.points_mm.tobytes() == other.points_mm.tobytes()
    assert one.joints.length_mm.tobytes() == other.joints.length_mm.tobytes()


RICH = page("""
  <style>
    @media print { .a { fill: red } }
    g > path.a, .b #q { fill: rgb(10%,20%,30%) !important } * { opacity: .9 }
  </style>
  <linearGradient id="lg"><stop stop-color="red"/><stop style="stop-color:#00f"/></linearGradient>
  <symbol id="s" viewBox="0 0 10 10">
    <ellipse cx="5" cy="5" rx="4" ry="3"/><rect x="1" width="3" height="20%"/>
  </symbol>
  <g id="g1" transform="rotate(30 50 50) scale(.5,.4) skewX(10)" data-glass="iridised">
    <path class="a" d="m10,10 20,0 0,20-20,0z m5 5v5h5V15z" id="q"/>
    <use href="#s" x="30" y="30" width="20" height="9"/>
    <use href="#q" transform="matrix(1 .1 -.1 1 3 4)"/>
  </g>
  <svg x="50" y="50" width="40" height="40" viewBox="0 0 4 4">
    <polygon points="0,0 1,0 1,1 0,1" fill="url(#lg)"/>
    <circle cx="2" cy="2" r="1" fill="hsl(120,50%,50%)" data-panel-outline=""/>
  </svg>
  <path d="M1 1C2 2 3 3 4 1S5 5 6 1Q 7 7 8 1T 9 9A3 3 30 0 1 1 20Z" fill="url(#no) blue" clip-path="url(#c)"/>
  <polygon points="60,10 80,30 80,10 60,30"/>
  <polyline points="1,50 9,50 9,59 1,50" style="fill:#123;opacity:50%"/>
""")
SCRAPS = (
    b"NaN inf 1e999 -1e300 0 - e #q #s #g1 % mm z M display:none 1e-300 A 999999999 { } ; 1e9 1e5 ( ) "
    b"url(#lg) none rotate(3) scale(1e8) scale(0) !important L Q c S1,2,3,4 T5,5 a1,1,0,0010,10"
).split(b" ")


def within_values(data: bytes, chance: random.Random) -> bytes:
    """Change something inside the quotes of an attribute, so that the XML stays whole."""
    spans = [m.span(1) for m in re.finditer(rb'"([^"<>&]*)"', data) if b"http" not in m[1]]
    low, high = chance.choice(spans)
    at, end = sorted((chance.randint(low, high), chance.randint(low, high)))
    kind = chance.random()
    new = (
        chance.choice(SCRAPS)
        if kind < 0.5
        else data[slice(*chance.choice(spans))][:40]
        if kind < 0.7
        else b""
    )
    return data[:at] + new + data[at if kind < 0.3 else end :]


def anywhere(data: bytes, chance: random.Random) -> bytes:
    """Change any bytes at all."""
    at = chance.randrange(len(data))
    new = bytes(chance.randrange(256) for _ in range(chance.randrange(4)))
    return data[:at] + new + data[at + chance.randrange(8) :]


CHANGES = (within_values, within_values, anywhere)
HEADS = (b"", b"<svg", b"<svg width='9mm' height='9mm'>", b"<?xml version='1.0' ")


@settings(max_examples=300, deadline=None)
@given(seed=st.integers(0, 2**32), changes=st.integers(1, 5), change=st.sampled_from(CHANGES))
@example(seed=0, changes=0, change=anywhere)
def test_changed_bytes_never_raise_anything_but_a_fault(seed, changes, change):
    chance = random.Random(seed)
    data = RICH
    for _ in range(changes):
        data = change(data, chance)
    panel, fault = None, None
    try:
        panel = read_drawing(data, "changed.svg")
    except Fault as raised:
        fault = raised
    if panel is None:
        assert fault.what
        assert fault.where.startswith("changed.svg")
        assert fault.todo
    else:
        assert panel.tessera_count > 0
        assert (panel.area_mm2 > 0).all()
        for numbers in (panel.points_mm, panel.area_mm2, panel.centroid_mm, panel.joints.length_mm):
            assert np.isfinite(numbers).all()


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=200), st.sampled_from(HEADS))
def test_random_bytes_never_raise_anything_but_a_fault(data, head):
    with pytest.raises(Fault):
        read_drawing(head + data, "a")


def test_the_rich_drawing_itself_is_read():
    panel = read_drawing(RICH, "rich")
    assert panel.tessera_count == 8
    assert panel.outline_area_mm2 == pytest.approx(np.pi * 100)
    assert read(square(0, 0)).tessera_count == 1
