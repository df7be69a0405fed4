"""What is no tessera is left out, counted, and told with a reason; nothing disappears in silence."""

import pytest

from tests.fakes.shapes import XMLNS, read, square

PIECE = square(40, 40, 10, 'id="piece"')


def left_out(body: str) -> dict[str, int]:
    panel = read(PIECE + body)
    assert panel.ids[0] == "piece"
    assert all(one.why and one.count > 0 for one in panel.left_out)
    return {one.what: one.count for one in panel.left_out}


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        ('<path d="M0 0L5 5L5 0"/>', {"open stroke": 1}),
        ('<path d="M0 0L5 5L5 0" fill="none"/>', {"open stroke": 1}),
        ('<polyline points="0,0 5,5 5,0"/>', {"open stroke": 1}),
        ('<line x1="0" y1="0" x2="9" y2="9" stroke="red"/>', {"open stroke": 1}),
        (square(0, 0, 5, 'fill="none"'), {"unfilled shape": 1}),
        (square(0, 0, 5, 'fill="transparent"'), {"unfilled shape": 1}),
        (square(0, 0, 5, 'fill="#ff000000"'), {"unfilled shape": 1}),
        (square(0, 0, 5, 'fill-opacity="0"'), {"unfilled shape": 1}),
        ("<g fill='none'>" + square(0, 0, 5) + square(9, 0, 5) + "</g>", {"unfilled shape": 2}),
        (square(0, 0, 5, 'style="display:none"'), {"hidden shape": 1}),
        ("<g display='none'>" + square(0, 0, 5) + square(9, 0, 5) + "</g>", {"hidden shape": 2}),
        ("<g visibility='hidden'>" + square(0, 0, 5) + "</g>", {"hidden shape": 1}),
        ("<g opacity='0'>" + square(0, 0, 5) + "</g>", {"hidden shape": 1}),
        ("<g style='display:none'><use href='#piece'/></g>", {"hidden shape": 1}),
        ("<defs>" + square(0, 0, 5) + "</defs>", {"shape never drawn": 1}),
        ("<symbol>" + square(0, 0, 5) + "</symbol>", {"shape never drawn": 1}),
        ("<clipPath>" + square(0, 0, 5) + "</clipPath>", {"shape never drawn": 1}),
        (
            "<marker>" + square(0, 0, 5) + "</marker><pattern>" + square(0, 0, 5) + "</pattern>",
            {"shape never drawn": 2},
        ),
        ('<rect width="100" height="100"/>', {"background": 1}),
        ('<rect x="-10" y="-10" width="150" height="150" fill="url(#x)"/>', {"background": 1}),
        ('<rect width="96" height="99"/>', {"background": 1}),
        ("<text>lemon <tspan>tree</tspan></text>", {"text": 1}),
        ('<image href="cloth.png" width="9" height="9"/>', {"image": 1}),
        (
            "<foreignObject><p xmlns='http://www.w3.org/1999/xhtml'>a</p></foreignObject>",
            {"foreignObject": 1},
        ),
        ('<use href="#nowhere"/><use/>', {"broken reference": 2}),
        (
            '<use href="other.svg#piece"/><use href="http://example.org/a.svg#piece"/>',
            {"broken reference": 2},
        ),
        (
            '<path d=""/><rect width="0" height="5"/><circle r="0"/><polygon points="1,1"/>',
            {"empty shape": 4},
        ),
        ('<polygon points="0,0 9,9 18,18"/><path d="M0 0L9 0z"/>', {"empty shape": 2}),
        ("<title>a</title><desc>b</desc><metadata><x/></metadata><script>1</script><g/>", {}),
        ('<x:path xmlns:x="urn:other" d="M0 0h5v5z"/>', {}),
    ],
)
def test_each_kind_is_counted_under_its_own_name(body, expected):
    assert left_out(body) == expected


def test_a_filled_stroke_is_closed_where_its_last_point_meets_its_first():
    panel = read('<polyline points="0,0 5,0 5,5 0.005,0.005"/><path d="M20 0L25 0L25 5L20 0"/>')
    assert panel.area_mm2.tolist() == pytest.approx([12.5, 12.5], abs=0.03)
    assert panel.left_out == ()


def test_of_a_path_with_closed_and_open_parts_the_closed_ones_are_glass():
    assert read('<path d="M0 0h5v5h-5zM20 0h5v5"/>').area_mm2.tolist() == pytest.approx([25])


def test_a_background_counts_by_the_panel_that_an_outline_marks():
    """Half the page is no background, but it is where an outline makes the panel that small."""
    half = '<rect width="100" height="48"/>'
    outline = '<rect width="100" height="50" fill="none" data-panel-outline="true"/>'
    assert left_out(half) == {}
    assert left_out(half + outline) == {"background": 1}


def test_a_shape_in_the_definitions_that_is_used_is_not_left_out():
    assert left_out("<defs>" + square(0, 0, 5, 'id="a"') + '</defs><use href="#a"/>') == {}


def test_a_visible_shape_in_a_hidden_group_is_shown():
    """SVG 2, 11.3: visibility is inherited, so that a shape may take it back; display may not."""
    body = "<g visibility='hidden'>" + square(0, 0, 5, "visibility='visible'") + "</g>"
    assert left_out(body) == {}


def test_the_report_keeps_one_order_and_reads_aloud():
    panel = read(PIECE + '<text>a</text><path d="M0 0L5 5"/>' + square(0, 0, 5, 'fill="none"'))
    told = [f"{one.count} × {one.what}: {one.why}" for one in panel.left_out]
    assert told == [
        "1 × open stroke: its outline is not closed, so it encloses no glass",
        "1 × unfilled shape: it has no fill, so no glass",
        "1 × text: letters are no glass; turn them into paths if they are to be set",
    ]


def test_elements_without_the_svg_name_space_are_read_as_svg():
    from bench.drawing.svg import read_drawing

    data = f"<svg {XMLNS} width='50mm' height='50mm' viewBox='0 0 50 50'>{PIECE}</svg>".encode()
    plain = data.replace(f" {XMLNS}".encode(), b"")
    assert b"xmlns" not in plain
    assert read_drawing(plain, "a").area_mm2.tolist() == read_drawing(data, "a").area_mm2.tolist()
