"""The chart of pieces against time: what names its lines never lies over them."""

from itertools import pairwise

import pytest

from bench.screens.gluing.chart import PaceChart
from bench.screens.offscreen import Stage

COUNTS = {
    "none": [],
    "slow": [(400.0, 4), (700.0, 9), (1000.0, 12)],
    "quick": [(300.0, 30), (420.0, 60)],
    "even": [(300.0, 12), (600.0, 30), (900.0, 48)],
}


@pytest.mark.parametrize("counts", COUNTS)
@pytest.mark.parametrize("size", [(380, 180), (450, 330), (700, 260), (1000, 700)])
@pytest.mark.parametrize("spent_s", [60.0, 700.0, 1200.0, 1490.0])
@pytest.mark.parametrize("wall_s", [1500.0, 650.0])
def test_no_word_lies_over_the_paces_the_time_or_wall(stage: Stage, counts, size, spent_s, wall_s) -> None:
    chart = PaceChart(pos=(40, 40), size_hint=(None, None), size=size)
    boxes = []
    chart.write = lambda texture, x, y: boxes.append((x, y, x + texture.width, y + texture.height))
    chart.pieces, chart.total_s, chart.wall_s, chart.spent_s = 80, 1500.0, wall_s, spent_s
    chart.set_from_s, chart.clean_from_s = 150.0, 1350.0
    chart.counts, chart.placed_text = COUNTS[counts], "80 pieces"
    boxes.clear()
    chart._drawn = ()
    chart._redraw()
    named = boxes[2:]  # the first two are the minutes and the pieces, beside the lines
    assert len(boxes) >= 2
    lines = [[chart._place(point) for point in chart.so_far()]]
    if wall_s >= chart.needed()[-1][0]:
        lines.append([chart._place(point) for point in chart.needed()])
    lines.append([chart._place((spent_s, 0.0)), chart._place((spent_s, 80.0))])
    wall_x, _ = chart._place((wall_s, 0.0))
    for left, low, right, high in named:
        assert chart.x <= left
        assert right <= wall_x
        for line in lines:
            for (x1, y1), (x2, y2) in pairwise(line):
                for k in range(101):
                    x, y = x1 + k / 100 * (x2 - x1), y1 + k / 100 * (y2 - y1)
                    assert not (left < x < right and low < y < high)


def test_the_lines_are_named_where_there_is_room(stage: Stage) -> None:
    chart = PaceChart(pos=(0, 0), size_hint=(None, None), size=(600, 400))
    told = []
    chart.write = lambda texture, x, y: told.append((x, y))
    chart.pieces, chart.total_s, chart.wall_s = 80, 1500.0, 1500.0
    chart.set_from_s, chart.clean_from_s, chart.placed_text = 150.0, 1350.0, "80 pieces"
    told.clear()
    chart._drawn = ()
    chart._redraw()
    assert len(told) == 3
