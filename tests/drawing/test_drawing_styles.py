"""Fills come down the cascade: attributes, style sheets by weight, styles, and what groups hand on."""

import pytest
from PIL import ImageColor

from tests.fakes.shapes import read, square


def colour(body: str) -> tuple[int, ...]:
    panel = read(body)
    assert panel.tessera_count == 1
    return tuple(panel.colour[0].tolist())


RED, GREEN, BLUE = (255, 0, 0), (0, 128, 0), (0, 0, 255)


def test_a_shape_without_a_fill_is_black():
    """SVG 2, 13.4: the first value of `fill` is black."""
    assert colour(square(0, 0)) == (0, 0, 0)


@pytest.mark.parametrize("name", sorted(ImageColor.colormap))
def test_every_colour_name_is_known(name):
    """CSS Color 4, 6.1, in the table of Pillow."""
    assert ImageColor.getrgb(name) == colour(square(0, 0, attributes=f'fill="{name}"'))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("#f80", (255, 136, 0)),
        ("#ff8800", (255, 136, 0)),
        ("#FF880080", (255, 136, 0)),
        ("rgb(1, 2, 3)", (1, 2, 3)),
        ("rgb(1 2 3 / 50%)", (1, 2, 3)),
        ("rgba(10%, 20%, 30%, .5)", (26, 51, 76)),
        ("rgb(300, -5, 12.6)", (255, 0, 13)),
        ("hsl(120, 100%, 25%)", (0, 128, 0)),
        ("hsl(240deg 100% 50%)", (0, 0, 255)),
        (" Red ", RED),
    ],
)
def test_colours_are_read_however_they_are_written(text, expected):
    assert expected == pytest.approx(colour(square(0, 0, attributes=f'fill="{text}"')), abs=1)


@pytest.mark.parametrize(
    ("sheet", "attributes", "expected"),
    [
        (".a{fill:red}", 'class="a"', RED),
        (".a{fill:red}", 'class="b a" fill="blue"', RED),
        (".a{fill:red}", 'class="a" style="fill:blue"', BLUE),
        ("path{fill:red} .a{fill:blue}", 'class="a"', BLUE),
        (".a{fill:blue} path{fill:red}", 'class="a"', BLUE),
        ("#x{fill:green} .a{fill:blue}", 'class="a" id="x"', GREEN),
        (".a{fill:red} .a{fill:blue}", 'class="a"', BLUE),
        ("path.a{fill:green} .a{fill:blue}", 'class="a"', GREEN),
        (".a.b{fill:green} .a{fill:blue}", 'class="a b"', GREEN),
        (".a.b{fill:green} .a{fill:blue}", 'class="a"', BLUE),
        ("*{fill:red}", 'fill="blue"', RED),
        ("rect,.a , circle{fill:red}", 'class="a"', RED),
        (".a{fill:red !important}", 'class="a" style="fill:blue"', RED),
        (".a{fill:red !important}", 'class="a" style="fill:blue!important"', BLUE),
        ("/* .a{fill:blue} */ .a{ fill : red ; stroke:none }", 'class="a"', RED),
        ("@media print{.a{fill:blue}} .a{fill:red}", 'class="a"', RED),
        ("@import url(x.css); .a{fill:red}", 'class="a"', RED),
        (".a:hover{fill:blue} .a{fill:red}", 'class="a"', RED),
        (".a{fill:red;fill:nonsense} .a{fill:12}", 'class="a" fill="blue"', RED),
        (".a{fill:nonsense}", 'class="a" fill="blue"', BLUE),
        ("", 'style="color:red;fill:currentColor"', RED),
    ],
)
def test_the_weightiest_rule_wins(sheet, attributes, expected):
    """CSS Cascade 4, 6: importance, then ids before classes before types, then the last one; what cannot be
    read is as good as not written."""
    assert expected == colour(f"<style>{sheet}</style>" + square(0, 0, attributes=attributes))


@pytest.mark.parametrize(
    ("selector", "hit"),
    [
        ("g path", True),
        (".row path", True),
        ("#outer .row > path", True),
        ("#outer > path", False),
        ("#outer > g > .a", True),
        ("svg > g path.a", True),
        ("g g g path", False),
        ("rect path", False),
        ("#outer > .row path", True),
    ],
)
def test_rules_follow_what_a_shape_stands_in(selector, hit):
    piece = square(0, 0, 10, 'class="a"')
    body = f'<style>{selector}{{fill:red}}</style><g id="outer"><g class="row">{piece}</g></g>'
    assert (RED if hit else (0, 0, 0)) == colour(body)


def test_a_style_sheet_in_cdata_after_the_shapes_counts():
    assert (
        colour(square(0, 0, attributes='class="a"') + "<style><![CDATA[ .a { fill: red } ]]></style>") == RED
    )


def test_groups_and_uses_hand_their_fill_on():
    body = f'<g fill="blue"><g style="fill:red">{square(0, 0)}</g></g>'
    assert colour(body) == RED
    piece = square(0, 0, 10, 'id="p"')
    body = f'<defs>{piece}</defs><use href="#p" fill="blue"/>'
    assert colour(body) == BLUE


def test_inherit_takes_the_fill_of_the_group():
    assert colour(f'<g fill="blue"><style>path{{fill:inherit}}</style>{square(0, 0, 10)}</g>') == BLUE


def test_a_gradient_gives_the_mean_of_its_stops():
    stops = '<stop stop-color="#ff0000"/><stop offset="1" style="stop-color:#0000ff"/>'
    body = f'<linearGradient id="lit">{stops}</linearGradient><radialGradient id="far" href="#lit"/>'
    assert colour(body + square(0, 0, attributes='fill="url(#far)"')) == (128, 0, 128)


def test_a_pattern_falls_back_to_its_second_colour_or_grey_and_is_named():
    panel = read(
        square(0, 0, 10, 'id="a" fill="url(#none) blue"') + square(20, 0, 10, 'id="b" fill="url(\'#none\')"')
    )
    assert [list(BLUE), [128, 128, 128]] == panel.colour.tolist()
    assert panel.warnings == (
        "2 tesserae are painted with a pattern, so that the colour is not their own: a, b",
    )


def test_thousands_of_rules_are_read_and_still_weighed():
    sheet = "".join(f".c{k}{{fill:#00{k % 256:02x}00}}" for k in range(3000))
    assert colour(f"<style>{sheet}</style>" + square(0, 0, attributes='class="c2999"')) == (0, 2999 % 256, 0)
