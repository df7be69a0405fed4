"""SVG out: what is written reads back the same, and another renderer shows it at true size."""

import io

import numpy as np
import pytest
import resvg_py
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from bench.drawing.load import load_drawing
from bench.drawing.svg import read_drawing
from bench.drawing.svg_out import write_svg
from bench.resources import resource
from tests.fakes.shapes import read, square

RING = '<path data-panel-outline="1" fill="none" fill-rule="evenodd" d="M5 5h90v90h-90z M40 40h20v20h-20z"/>'
MARKED = (
    RING
    + '<path id="frame" fill="#336699" fill-rule="evenodd" d="M10 10h20v20h-20z M15 15h10v10h-10z"/>'
    + '<g id="two words &amp; a &quot;sign&quot;" data-glass="clear" data-adhesive="Paste &lt;1&gt;">'
    + square(40, 10, 6, 'id="a" fill="#fedcba"')
    + square(50, 10, 6)
    + "</g>"
    + square(60, 10, 6, 'id="b" data-board="left" data-glass="iridised"')
    + '<circle id="two words" cx="80" cy="80" r="7.3" fill="rgb(1,2,3)"/>'
)


def by_id(panel):
    """All that a drawing says of each tessera, apart from its place in the file."""
    boards = panel.board or ("",) * panel.tessera_count
    return {
        one: (
            panel.colour[k].tolist(),
            int(panel.glass[k]),
            panel.adhesive[k],
            boards[k],
            panel.group_names[panel.group[k]] if panel.group[k] >= 0 else None,
            len(panel.rings_mm(k)),
        )
        for k, one in enumerate(panel.ids)
    }


def assert_same(panel, again):
    assert by_id(again) == by_id(panel)
    place = [again.ids.index(one) for one in panel.ids]
    np.testing.assert_allclose(again.area_mm2[place], panel.area_mm2, rtol=0, atol=0.01)
    np.testing.assert_allclose(again.centroid_mm[place], panel.centroid_mm, rtol=0, atol=1e-3)
    assert (again.width_mm, again.height_mm) == pytest.approx((panel.width_mm, panel.height_mm), abs=1e-5)
    assert again.outline_area_mm2 == pytest.approx(panel.outline_area_mm2, abs=0.01)
    assert len(again.outline_mm) == len(panel.outline_mm)
    pairs, back = {tuple(sorted((panel.ids[i], panel.ids[j]))) for i, j in panel.joints.pair}, set()
    back = {tuple(sorted((again.ids[i], again.ids[j]))) for i, j in again.joints.pair}
    assert len(pairs ^ back) <= len(pairs) / 500  # a joint just at the least length may go either way


def test_marks_holes_groups_boards_and_outline_come_back():
    panel = read(MARKED)
    assert_same(panel, read_drawing(write_svg(panel), "again.svg"))


def test_the_demo_comes_back_and_writing_it_twice_gives_the_same_bytes():
    _, panel = load_drawing(resource("assets", "demo", "lemons.svg"))
    data = write_svg(panel)
    again = read_drawing(data, panel.name)
    assert_same(panel, again)
    assert write_svg(again) == write_svg(read_drawing(write_svg(again), panel.name))


def test_sections_are_marked_and_numbered_and_add_no_glass():
    panel = read(MARKED)
    data = write_svg(panel, np.array([0, 0, -1, 1, 1]), numbers=[7, 12])
    assert_same(panel, read_drawing(data, "again.svg"))
    text = data.decode()
    assert [text.count(f'data-section="{n}"') for n in (7, 12)] == [2, 2]
    assert [text.count(f'data-number="{n}"') for n in (7, 12)] == [1, 1]


def test_outlines_that_add_up_are_not_taken_for_holes():
    nested = '<rect data-panel-outline="1" fill="none" x="5" y="5" width="90" height="90"/>'
    nested += '<rect data-panel-outline="1" fill="none" x="40" y="40" width="20" height="20"/>'
    panel = read(nested + square(10, 10, 6))
    assert panel.outline_area_mm2 == pytest.approx(90**2 + 20**2)
    assert_same(panel, read_drawing(write_svg(panel), "again.svg"))


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.floats(0, 60), st.floats(0, 60), st.floats(0.5, 30), st.text(max_size=12), st.integers(0, 2)
        ),
        min_size=1,
        max_size=8,
    )
)
def test_any_names_and_places_come_back(shapes):
    """Names of any signs that XML can hold, pieces of any size and place."""
    from xml.sax.saxutils import quoteattr

    body = ""
    for x, y, edge, name, kind in shapes:
        plain = "".join(c for c in name if c.isprintable())
        glass = ("opaque", "clear", "iridised")[kind]
        body += square(x, y, edge, f'id={quoteattr(plain)} data-glass="{glass}"')
    panel = read(body)
    again = read_drawing(write_svg(panel), "again.svg")
    assert by_id(again) == by_id(panel)
    place = [again.ids.index(one) for one in panel.ids]
    np.testing.assert_allclose(again.area_mm2[place], panel.area_mm2, rtol=0, atol=0.01)


def test_another_renderer_shows_the_panel_at_true_size_and_in_its_colours():
    """resvg knows nothing of this house: at 96 px an inch a millimetre is 96 / 25.4 px (CSS 2.2, 4.3.2)."""
    body = square(10, 20, 30, 'fill="#cc2200"') + square(60, 70, 20, 'fill="#0044bb"')
    zoom = 4
    png = resvg_py.svg_to_bytes(svg_string=write_svg(read(body)).decode(), dpi=96 * zoom)
    picture = Image.open(io.BytesIO(bytes(png))).convert("RGBA")
    px_per_mm = zoom * 96 / 25.4
    assert picture.size == pytest.approx((100 * px_per_mm, 100 * px_per_mm), abs=zoom)
    pixels = np.asarray(picture)
    for colour, (left, top, edge) in {(204, 34, 0): (10, 20, 30), (0, 68, 187): (60, 70, 20)}.items():
        rows, columns = np.nonzero((pixels[..., :3] == colour).all(axis=2) & (pixels[..., 3] == 255))
        found = [columns.min(), rows.min(), columns.max() + 1, rows.max() + 1]
        wanted = [left, top, left + edge, top + edge]
        np.testing.assert_allclose(np.array(found) / px_per_mm, wanted, atol=0.15)


def test_another_renderer_leaves_a_hole_open():
    hole = '<path fill="#336699" fill-rule="evenodd" d="M10 10h60v60h-60z M30 30h20v20h-20z"/>'
    png = resvg_py.svg_to_bytes(svg_string=write_svg(read(hole)).decode(), dpi=96)
    pixels = np.asarray(Image.open(io.BytesIO(bytes(png))).convert("RGBA"))
    at = [round(mm * 96 / 25.4) for mm in (20, 40)]
    assert pixels[at[0], at[0]].tolist() == [0x33, 0x66, 0x99, 255]
    assert pixels[at[1], at[1], 3] == 0
