"""The picture of a difference: what goes, changes or comes is hatched, and each in its own way."""

import numpy as np
import pytest

from bench.drawing.difference import as_it_is_png, as_it_would_be_png, difference_png
from bench.drawing.picture import picture_png
from bench.drawing.revised import revised
from tests.fakes.shapes import read, square

AT = {"kept": (10, 10), "same": (50, 10), "changed": (10, 50), "gone": (50, 50), "added": (75, 75)}
FILL = 'fill="#c04040"'


@pytest.fixture
def thought():
    old = read("".join(square(*AT[name], 20, FILL) for name in ("kept", "same", "changed", "gone")))
    new = read(
        square(*AT["same"], 20, FILL)
        + square(*AT["changed"], 20, 'fill="#4040c0"')
        + square(*AT["added"], 20, FILL)
    )
    return old, revised(old, np.array([True, False, False, False]), new)


def inside(picture, name):
    """Return the pixels well within a piece; the picture shows 100 mm on 800 px."""
    (x, y), px = AT[name], 8
    return np.asarray(picture)[(y + 3) * px : (y + 17) * px, (x + 3) * px : (x + 17) * px].astype(int)


def ways(picture, name):
    """Return along which directions the hatching of a piece repeats, None where it has none."""
    part = inside(picture, name)
    if (part == part[0, 0]).all():
        return None
    moves = {"up": (part[1:, :-1], part[:-1, 1:]), "down": (part[1:, 1:], part[:-1, :-1])}
    moves["upright"] = (part[1:], part[:-1])
    return {move for move, (a, b) in moves.items() if (a == b).all()}


def test_what_goes_changes_or_comes_is_hatched_each_in_its_own_way(thought):
    old, found = thought
    now, then = as_it_is_png(old, found, long_side_px=800), as_it_would_be_png(found, long_side_px=800)
    assert {name: ways(now, name) for name in ("kept", "same", "changed", "gone")} == {
        "kept": None,
        "same": None,
        "changed": {"up"},
        "gone": set(),
    }
    assert {name: ways(then, name) for name in ("kept", "same", "changed", "added")} == {
        "kept": None,
        "same": None,
        "changed": {"up"},
        "added": {"upright"},
    }


def test_the_glass_is_seen_between_the_lines_in_its_own_colour(thought):
    _, found = thought
    then = inside(as_it_would_be_png(found, long_side_px=800), "changed").reshape(-1, 3)
    assert (then == (0x40, 0x40, 0xC0)).all(axis=1).mean() > 0.25


def test_a_thick_line_goes_around_what_stays_and_nothing_else(thought):
    old, found = thought
    plain = np.asarray(picture_png(old, long_side_px=800)).astype(int)
    shown = np.asarray(as_it_is_png(old, found, long_side_px=800)).astype(int)
    differs = np.abs(shown - plain).max(axis=2) > 0
    assert differs[6 * 8 : 10 * 8, 6 * 8 : 34 * 8].any()
    assert not differs[: 35 * 8, 45 * 8 : 75 * 8].any()


@pytest.mark.parametrize("side", [300, 1200])
def test_both_are_shown_with_what_the_hatching_means(thought, side):
    old, found = thought
    whole = difference_png(old, found, long_side_px=side)
    assert whole.width > 2 * side
    assert whole.height > side * 1.2
    assert whole.mode == "RGB"
