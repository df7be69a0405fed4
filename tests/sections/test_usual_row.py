"""How many tesserae a row usually has, so that a maker may count by the row."""

import numpy as np
import pytest

from bench.drawing.svg import read_drawing
from bench.sections.forms import usual_row


def bricks(lengths: list[int]) -> bytes:
    """Rows of bricks 10 × 5 mm, so many in each, every other row shifted by half a brick."""
    shapes = [
        f'<rect id="r{row}b{k}" x="{10 * k + 5 * (row % 2) + 0.4}" y="{5 * row + 0.4}" '
        f'width="9.2" height="4.2" fill="#2a5caa"/>'
        for row, count in enumerate(lengths)
        for k in range(count)
    ]
    size = f'width="{10 * max(lengths) + 10}mm" height="{5 * len(lengths)}mm"'
    box = f'viewBox="0 0 {10 * max(lengths) + 10} {5 * len(lengths)}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} {box}>{"".join(shapes)}</svg>'.encode()


@pytest.mark.parametrize(("lengths", "usual"), [([8] * 6, 8), ([5, 9, 7], 7), ([12], 12)])
def test_it_is_the_median_of_the_rows_that_were_drawn(lengths, usual) -> None:
    """To one: the last brick of a row may be seen to lean on the row beside it."""
    panel = read_drawing(bricks(lengths), "bricks.svg")
    assert usual_row(panel, np.arange(panel.tessera_count)) == pytest.approx(usual, abs=1)


def test_only_the_tesserae_asked_for_are_looked_at() -> None:
    panel = read_drawing(bricks([8] * 6), "bricks.svg")
    left = [k for k, name in enumerate(panel.ids) if int(name.split("b")[1]) < 4]
    assert usual_row(panel, np.array(left)) == pytest.approx(4, abs=1)


def test_where_no_row_is_seen_it_is_none() -> None:
    panel = read_drawing(bricks([2, 2]), "bricks.svg")
    assert usual_row(panel, np.arange(panel.tessera_count)) == 0
    assert usual_row(panel, np.array([0])) == 0
