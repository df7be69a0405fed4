"""A panel packed and unpacked is the same panel; damaged bytes are none."""

from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.drawing.packed import pack, unpack
from bench.drawing.panel import Joints, Panel
from bench.drawing.svg import read_drawing
from bench.speech import Tongue, speak, tongue
from tests.fakes.drawings import grid_svg

RICH = b"""<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
<path data-panel-outline="" fill="none" d="M1 1H59V39H1Z M20 10V30H24V10Z"/>
<g id="rim" data-board="left">
<path id="ring" fill="#c0a020" fill-rule="evenodd" d="M2 2H18V18H2Z M6 6H14V14H6Z"/></g>
<path id="core" fill="#2040a0" data-glass="clear" data-adhesive="white-paste" d="M6.5 6.5H13.5V13.5H6.5Z"/>
<line x1="1" y1="1" x2="5" y2="5" stroke="red"/></svg>"""


def same(one, other) -> bool:
    for field in fields(one):
        a, b = getattr(one, field.name), getattr(other, field.name)
        if isinstance(a, Joints):
            if not same(a, b):
                return False
        elif isinstance(a, np.ndarray):
            if a.dtype != b.dtype or not np.array_equal(a, b):
                return False
        elif field.name == "outline_mm":
            if len(a) != len(b) or not all(map(np.array_equal, a, b)):
                return False
        elif a != b or type(a) is not type(b):
            return False
    return True


@pytest.mark.parametrize("data", [grid_svg(6, 4), RICH])
def test_it_is_the_same_in_every_field(data):
    panel = read_drawing(data, "it.svg")
    assert same(unpack(pack(panel)), panel)


def test_every_field_is_told_apart_by_that_comparison():
    panel = read_drawing(RICH, "it.svg")
    told = [f.name for f in fields(Panel) if f.name != "joints"]
    for name in told:
        value = getattr(panel, name)
        changed = value[:0] if hasattr(value, "__getitem__") and len(value) else (1,) if value == () else 1.5
        if isinstance(value, str | float):
            changed = "x" if isinstance(value, str) else value + 1
        other = unpack(pack(panel))
        object.__setattr__(other, name, changed)
        assert not same(panel, other), name


@settings(max_examples=80, deadline=None)
@given(st.data())
def test_damaged_bytes_are_no_panel_or_the_same_panel(data):
    whole = bytearray(pack(read_drawing(grid_svg(4, 3), "it.svg")))
    at = data.draw(st.integers(0, len(whole) - 1))
    whole[at] ^= data.draw(st.integers(1, 255))
    found = unpack(bytes(whole))
    assert found is None or same(found, read_drawing(grid_svg(4, 3), "it.svg"))


@pytest.mark.parametrize("data", [b"", b"PK", b"not a zip", b"\x93NUMPY\x01\x00"])
def test_other_bytes_are_no_panel(data):
    assert unpack(data) is None


def test_bytes_that_break_off_are_no_panel():
    whole = pack(read_drawing(grid_svg(4, 3), "it.svg"))
    assert {unpack(whole[:cut]) for cut in range(0, len(whole), 97)} == {None}


def test_what_was_packed_in_another_language_is_read_anew():
    """Its warnings are sentences, and would go on in the language that was spoken then."""
    before, whole = tongue(), pack(read_drawing(RICH, "it.svg"))
    try:
        speak(Tongue("de"))
        assert unpack(whole) is None
        german = read_drawing(RICH, "it.svg")
        assert same(unpack(pack(german)), german)
    finally:
        speak(before)
    assert unpack(whole) is not None
