"""What stands on a template: every piece its number and letter, every letter its glass."""

import re

import numpy as np
import pytest

from bench.drawing.svg import read_drawing
from bench.finish.glass import glass_list
from bench.finish.told import MOST_LEGEND, letters, mirrored_said, told_of
from tests.fakes.drawings import BLUE, YELLOW, grid_svg


@pytest.fixture(scope="module")
def panel():
    return read_drawing(grid_svg(6, 3, colour=lambda c, r: YELLOW if c == 2 else BLUE), "grid.svg")


def test_pieces_are_numbered_as_a_page_is_read_each_with_the_letter_of_its_glass(panel):
    told = told_of(panel, np.arange(panel.tessera_count), glass_list(panel), name="Cloth")
    assert told.title == "Cloth, the whole panel, 18 pieces"
    assert [told.marks[panel.ids.index(f"c{c}r0")] for c in range(4)] == ["1a", "2a", "3b", "4a"]
    assert told.marks[panel.ids.index("c0r1")] == "7a"
    assert re.match(r"a .*#2a5caa; b .*#e8c93a", told.legend[0])


def test_only_pieces_of_the_section_are_marked_and_notes_come_first(panel):
    told = told_of(panel, np.array([4, 5]), glass_list(panel), section=3, notes=[mirrored_said()])
    assert sum(mark != "" for mark in told.marks) == 2
    assert told.title.endswith("section 3, 2 pieces")
    assert told.legend[0] == "Mirrored: glass is laid face down."


def test_a_legend_too_long_for_the_head_says_that_there_is_more():
    colours = [f"#{40 * (k % 6):02x}{40 * (k // 6 % 6):02x}{200 * (k // 36):02x}" for k in range(72)]
    panel = read_drawing(grid_svg(12, 6, colour=lambda c, r: colours[r * 12 + c]), "many.svg")
    told = told_of(panel, np.arange(72), glass_list(panel))
    assert len(told.legend) == MOST_LEGEND
    assert told.legend[-1] == "… and more: the glass list names them all"


def test_letters_go_on_after_z():
    assert [letters(k) for k in (0, 25, 26, 51, 52)] == ["a", "z", "aa", "az", "ba"]
