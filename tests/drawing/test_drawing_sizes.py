"""Sizes for the hand, and doors that open without heavy imports."""

import subprocess
import sys

import numpy as np
import pytest

from bench.drawing.sizes import size_class


@pytest.mark.parametrize(
    ("area_mm2", "size"), [(0, 0), (29.99, 0), (30, 1), (46.5, 1), (90, 1), (90.01, 2), (5000, 2)]
)
def test_30_to_90_mm2_is_medium(area_mm2, size):
    assert size_class(np.array([area_mm2], float)).tolist() == [size]


def test_sizes_are_small_integers_shaped_like_the_areas():
    found = size_class(np.full((2, 3), 10.0))
    assert (found.dtype, found.shape) == (np.int32, (2, 3))


@pytest.mark.slow
def test_the_room_opens_and_reads_without_scipy_pillow_or_kivy():
    code = (
        "import sys; from bench.drawing.svg import read_drawing;"
        'read_drawing(b\'<svg width="9mm" height="9mm" viewBox="0 0 9 9"><rect width="3" height="3"/>'
        '<rect x="4" width="3" height="3"/></svg>\', \'a\');'
        "print([m for m in ('scipy', 'PIL', 'kivy', 'sqlite3') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
