"""Ids, groups, glass, adhesive and the outline: what a drawing says of a piece, and what it inherits."""

import numpy as np
import pytest

from bench.drawing.faults import OutlineNotClosed
from bench.drawing.names import unique_names
from bench.drawing.panel import GLASS_KINDS
from tests.fakes.shapes import read, square


def test_a_piece_has_the_id_of_its_shape_or_an_invented_one():
    panel = read(
        square(0, 0, 5, 'id="lemon"') + square(10, 0, 5) + square(20, 0, 5) + square(30, 0, 5, 'id="t1"')
    )
    assert panel.ids == ("lemon", "t2", "t3", "t1")


def test_use_makes_its_ids_unique_and_never_takes_one_that_is_there():
    body = (
        square(0, 0, 5, 'id="p"')
        + '<use href="#p" x="10"/><use href="#p" x="20"/>'
        + square(30, 0, 5, 'id="p-2"')
    )
    assert read(body).ids == ("p", "p-3", "p-4", "p-2")


def test_names_are_told_apart_in_order():
    assert unique_names(["a", "", "a", "", "a-2", "a", "t2"]) == ("a", "t1", "a-3", "t3", "a-2", "a-4", "t2")
    assert unique_names([" a \n b "]) == ("a b",)
    assert len(set(unique_names(["x"] * 5000 + [""] * 5000))) == 10_000


def test_a_group_is_the_innermost_one_with_a_name():
    bowl = f'<g id="bowl"><g><g id="lemon">{square(0, 0, 5)}</g>{square(10, 0, 5)}</g></g>'
    layer = f'<g id="layer7" xmlns:x="urn:editor" x:label="Blue cloth">{square(30, 0, 5)}</g>'
    panel = read(f'{bowl}{square(20, 0, 5)}<g id="empty">{layer}</g>')
    names = [panel.group_names[k] if k >= 0 else None for k in panel.group]
    assert names == ["lemon", "bowl", None, "Blue cloth"]
    assert len(panel.group_names) == 3


def test_a_group_that_is_used_twice_is_two_groups():
    body = f'<g id="row">{square(0, 0, 5)}{square(6, 0, 5)}</g><use href="#row" y="20"/>'
    panel = read(body)
    assert panel.group.tolist() == [0, 0, 1, 1]
    assert panel.group_names == ("row", "row-2")


@pytest.mark.parametrize(
    ("text", "kind"), [("opaque", 0), ("clear", 1), ("iridised", 2), (" Clear ", 1), ("", 0)]
)
def test_glass_is_read_from_the_shape(text, kind):
    panel = read(square(0, 0, 5, f'data-glass="{text}"'))
    assert GLASS_KINDS[panel.glass[0]] == GLASS_KINDS[kind]
    assert panel.warnings == ()


def test_glass_and_adhesive_come_from_the_groups_unless_the_shape_says_otherwise():
    shapes = square(0, 0, 5) + square(10, 0, 5, 'data-glass="opaque" data-adhesive="grey  paste"')
    used = square(20, 0, 5, 'id="u"')
    body = (
        f'<defs>{used}</defs><g data-glass="clear" data-adhesive="white"><g>{shapes}</g>'
        '<use href="#u" data-glass="iridised"/></g>' + square(30, 0, 5)
    )
    panel = read(body)
    assert [GLASS_KINDS[k] for k in panel.glass] == ["clear", "opaque", "iridised", "opaque"]
    assert panel.adhesive == ("white", "grey paste", "white", "")


def test_unknown_glass_is_taken_as_opaque_and_named_with_what_there_is():
    mirror = square(0, 0, 5, 'id="a" data-glass="mirror"') + square(20, 0, 5, 'data-glass="mirror"')
    panel = read(f'{mirror}<g data-glass="Smalti">{square(10, 0, 5)}</g>')
    assert panel.glass.tolist() == [0, 0, 0]
    known = "which is none of opaque, clear, iridised, and taken as opaque"
    assert panel.warnings == (
        f"2 tesserae are of glass 'mirror', {known}: a, t1",
        f"1 tessera is of glass 'smalti', {known}: t2",
    )


@pytest.mark.parametrize("mark", ["", "true", "outline", "yes"])
def test_an_outline_is_no_piece_and_gives_the_panel_its_area(mark):
    panel = read(
        square(0, 0, 5) + f'<circle cx="50" cy="50" r="40" fill="none" data-panel-outline="{mark}"/>'
    )
    assert panel.tessera_count == 1
    assert panel.outline_area_mm2 == pytest.approx(np.pi * 1600)
    assert panel.joint_area_mm2 == pytest.approx(np.pi * 1600 - 25)
    assert len(panel.outline_mm) == 1
    assert (panel.width_mm, panel.height_mm) == (100, 100)


def test_an_outline_may_have_a_hole_and_may_be_marked_on_its_group():
    frame = '<g data-panel-outline=""><path d="M0 0h80v80h-80z M30 30h20v20h-20z"/></g>'
    panel = read(square(0, 0, 5) + frame)
    assert panel.outline_area_mm2 == pytest.approx(6400 - 400)
    assert len(panel.outline_mm) == 2


@pytest.mark.parametrize("mark", ["false", "no", "0", "none"])
def test_a_mark_that_says_no_marks_nothing(mark):
    panel = read(square(0, 0, 5, f'data-panel-outline="{mark}"'))
    assert panel.tessera_count == 1
    assert panel.outline_area_mm2 == pytest.approx(10_000)
    assert panel.outline_mm == ()


@pytest.mark.parametrize("d", ["M0 0L50 0L50 50", "M0 0L50 50z", ""])
def test_an_outline_that_encloses_nothing_is_a_fault(d):
    with pytest.raises(OutlineNotClosed, match="shape 'edge', line 1: the panel outline is not closed"):
        read(square(0, 0, 5) + f'<path id="edge" d="{d}" data-panel-outline=""/>')


def test_the_panel_is_the_page_without_an_outline():
    panel = read(square(0, 0, 5))
    assert panel.outline_area_mm2 == pytest.approx(10_000)
    assert panel.joint_area_mm2 == pytest.approx(9975)
    assert panel.name == "lemons.svg"


def test_a_board_is_inherited_and_a_shape_may_lie_on_another():
    east = square(10, 0, 5, 'data-board="east"')
    body = f'<g data-board="west">{square(0, 0, 5)}{east}</g>'
    assert read(body + square(20, 0, 5)).board == ("west", "east", "")
    assert read(square(0, 0, 5)).board == ()  # a drawing that names none: all on one
