"""Layouts: marks where their values are, dashes and hatching against Shapely, words that do not collide."""

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon, box

from bench.pace.graph import Band, Graph, Named, Span, Spot, Stroke, lay_out, nearest, newest
from bench.pace.graph.shapes import dashes, hatching


def measure(text):
    return 14.0 * len(text), 32.0


def graph(count=10, **more):
    spots = tuple(Spot(k + 1.0, 4.0 + k % 3, "dot", 100 + k, 1, f"spot {k}") for k in range(count))
    ends = tuple(x for k in range(count) for x in (k + 0.5, k + 1.5))
    band = Band(ends, (3.0,) * len(ends), (6.5,) * len(ends), "believed")
    line = Stroke(((1.0, 5.0), (float(count), 5.0)), "promised", dashed=True)
    x, y = Span("glue-up", 0.5, count + 0.5, whole=True), Span("a minute", 0.0, 7.0, held="low")
    return Graph(
        "pace", "Pace", "", x, y, spots, (line,), (band,), (Named("dot", "seen"),), in_order=True, **more
    )


def test_dashes_by_hand_go_on_round_a_corner():
    """10 along, 10 up, 6 on and 4 off: 0–6 along, then 0–6 up."""
    drawn = np.array(list(dashes([(0, 0), (10, 0), (10, 10)], 6, 4)))
    assert drawn == pytest.approx(np.array([(0, 0, 6, 0), (10, 0, 10, 6)]), abs=1e-5)


def test_hatching_lies_within_the_band_and_covers_it():
    """Shapely: every diagonal within the polygon, and none of it farther than a pitch from one."""
    x, low, high = np.array([0.0, 100, 200]), np.array([10.0, 30, 0]), np.array([60.0, 90, 50])
    lines = [LineString([(a, b), (c, d)]) for a, b, c, d in hatching(x, low, high, 12)]
    band = Polygon([*zip(x, low, strict=True), *zip(x[::-1], high[::-1], strict=True)])
    assert lines
    assert all(band.buffer(1e-6).covers(line) for line in lines)
    rng = np.random.default_rng(2)
    inner = band.buffer(-12)
    spots = [p for p in map(Point, rng.uniform((0, 0), (200, 90), (300, 2))) if inner.contains(p)]
    assert max(min(line.distance(p) for line in lines) for p in spots) < 12


def test_hatching_of_nothing_is_nothing():
    assert list(hatching(np.zeros(1), np.zeros(1), np.ones(1), 10)) == []
    assert list(hatching(np.array([0.0, 50]), np.zeros(2), np.zeros(2) - 1, 10)) == []


def test_marks_stand_at_their_values_and_the_nearest_is_found():
    made = graph()
    layout = lay_out(made, 900, 500, unit=1, measure=measure)
    spots = [m for m in layout.marks if m.spot is not None]
    left, low, right, high = layout.box
    steps = np.diff([m.x for m in spots])
    assert steps == pytest.approx(np.full(9, steps[0]))
    assert all(left < m.x < right and low < m.y < high for m in spots)
    assert spots[1].y - spots[0].y == pytest.approx((high - low) / 8)  # the axis ends on 8
    for mark in spots:
        assert nearest(layout, mark.x + 3, mark.y - 2, reach=20) == mark.spot
    assert nearest(layout, left, high, reach=1) is None


@pytest.mark.parametrize("size", [(860, 470), (700, 520), (1000, 700), (420, 380)])
def test_words_stay_on_the_sheet_and_clear_of_each_other(size):
    layout = lay_out(graph(30), *size, unit=1, measure=measure)
    boxes = [box(w.x, w.y, w.x + measure(w.text)[0], w.y + 32) for w in layout.words]
    sheet = box(-1, -1, size[0] + 1, size[1] + 1)
    assert all(sheet.covers(one) for one in boxes)
    apart = [a.intersection(b).area for k, a in enumerate(boxes) for b in boxes[:k]]
    assert max(apart) == 0


def test_a_sheet_too_small_and_a_graph_of_nothing_still_lay_out():
    assert lay_out(graph(), 60, 40, unit=1, measure=measure).box[3] > 0
    empty = Graph("pace", "Pace", "later", Span("n", 0, 1), Span("y", 0, 1))
    assert lay_out(empty, 600, 400, unit=1, measure=measure).marks == ()
    assert nearest(lay_out(empty, 600, 400, unit=1, measure=measure), 1, 1, reach=1e9) is None


def test_the_newest_keep_their_entries_and_their_band():
    made = newest(graph(100), 10)
    assert [s.seq for s in made.spots] == list(range(190, 200))
    assert made.x.low == 90.5
    assert made.bands[0].x[0] == 90.5
    assert len(made.bands[0].x) == 20
    assert newest(graph(10), 10) == graph(10)


def test_very_many_marks_are_small_and_few_are_large():
    few, many = (lay_out(graph(n), 900, 500, unit=1, measure=measure) for n in (5, 2000))
    assert few.marks[-1].radius > 3 * many.marks[-1].radius
    assert sum(m.spot is not None for m in many.marks) == 2000
