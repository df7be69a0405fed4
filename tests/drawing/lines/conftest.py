"""The drawing that most tests of drawn lines look for again."""

import pytest

from bench.drawing.svg import read_drawing
from tests.fakes.drawings import grid_svg


@pytest.fixture(scope="module")
def grid():
    """Eighty squares of 6.2 mm with joints of 0.8, 3 mm of paper around them."""
    moved = grid_svg(10, 8, page_mm=(76, 62)).replace(b"<rect ", b'<rect transform="translate(3 3)" ')
    return read_drawing(moved, "grid.png")
