"""What cannot be a panel ends in one line that says what, where and what to do; nothing hostile bites."""

import pytest

from bench.drawing import faults as f
from bench.drawing import xmltree
from bench.drawing.census import MOST_SHAPES
from bench.drawing.faults import DrawingFault
from bench.drawing.svg import read_drawing
from bench.drawing.xmltree import MOST_LEVELS
from bench.fault import Fault
from tests.fakes.shapes import XMLNS, page, read, square

HEAD = f'<svg {XMLNS} width="10cm" height="10cm" viewBox="0 0 100 100">'


def fault_of(data: bytes, kind: type[DrawingFault]) -> DrawingFault:
    """Return the fault that the data raise, and see that its three parts are told in one line."""
    with pytest.raises(DrawingFault) as caught:
        read_drawing(data, "lemons.svg")
    fault = caught.value
    assert type(fault) is kind
    assert fault.where.startswith("lemons.svg")
    assert fault.what
    assert fault.todo
    assert "\n" not in str(fault)
    assert len(str(fault)) < 300
    return fault


@pytest.mark.parametrize("data", [b"", b"  \n\t "])
def test_an_empty_file(data):
    assert (
        str(fault_of(data, f.DrawingEmpty))
        == "lemons.svg: the file is empty; save the drawing again as plain SVG"
    )


@pytest.mark.parametrize(
    ("data", "seen"),
    [
        (b"\x89PNG\r\n\x1a\n....", "a PNG picture"),
        (b"\xff\xd8\xff\xe0....", "a JPEG picture"),
        (b"%PDF-1.7", "a PDF document"),
        (b"\x1f\x8b\x08\x00....", "a compressed file"),
        (b"PK\x03\x04....", "a zip archive"),
        (b"lemons, blue cloth", "something else"),
        (bytes(range(256)), "something else"),
        (b"<html><body/></html>", "an XML file that begins with <html>"),
        (b'<svg xmlns="urn:not-svg"/>', "an XML file that begins with <svg>"),
    ],
)
def test_a_file_that_is_no_svg(data, seen):
    assert fault_of(data, f.NotAnSvg).seen == seen


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (HEAD.encode() + b"\n<path\n", 2),
        (HEAD.encode() + b"\n<g>\n</svg>", 3),
        (HEAD.encode() + b"\n\n<path d='M0 0' d='M1 1'/></svg>", 3),
        (HEAD.encode() + b"<path id='\xff\xfe'/></svg>", 1),
        (HEAD.encode() + b"<path id='\x00'/></svg>", 1),
        (HEAD.encode() + b"<use x:href='#a'/></svg>", 1),
        (HEAD.encode() + b"<text>&nbsp;</text></svg>", 1),
        (b"<?xml version='1.0' encoding='nonsense'?>" + HEAD.encode() + b"</svg>", 1),
    ],
)
def test_broken_xml_names_its_line(data, line):
    assert fault_of(data, f.BrokenXml).line == line


LAUGHS = "".join("<!ENTITY l{} '{}'>".format(k, f"&l{k - 1};" * 10) for k in range(1, 10))


@pytest.mark.parametrize(
    ("declared", "used"),
    [
        ('<!ENTITY a "lemon">', "&a;"),
        ('<!ENTITY l0 "lol">' + LAUGHS, "&l9;"),
        ('<!ENTITY f SYSTEM "file:///etc/passwd">', "&f;"),
        ('<!ENTITY f SYSTEM "http://127.0.0.1:9/x">', "&f;"),
        ('<!ENTITY % p SYSTEM "file:///etc/passwd"> %p;', ""),
        ('<!NOTATION n SYSTEM "n"><!ENTITY f SYSTEM "f" NDATA n>', ""),
    ],
)
def test_entities_are_refused_where_they_are_declared(declared, used):
    data = f"<!DOCTYPE svg [\n{declared}]>{HEAD}{square(0, 0)}<text>{used}</text></svg>".encode()
    assert fault_of(data, f.EntitiesRefused).line == 2


def test_a_document_type_alone_is_allowed_and_never_fetched():
    doctype = '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://127.0.0.1:9/svg11.dtd">'
    assert read_drawing(f"{doctype}{HEAD}{square(0, 0)}</svg>".encode(), "a").tessera_count == 1


@pytest.mark.parametrize(
    ("body", "target"),
    [
        ('<use id="a" href="#a"/>', "#a"),
        ('<g id="a"><use href="#a"/></g>', "a"),
        ('<use id="a" href="#b"/><use id="b" href="#c"/><use id="c" href="#a"/>', "#b"),
        ('<symbol id="a"><g><use href="#a"/></g></symbol><use href="#a"/>', "a"),
    ],
)
def test_a_use_that_ends_in_itself(body, target):
    assert fault_of(page(square(0, 0) + body), f.UseLoop).target == target


def test_a_loop_that_nothing_draws_does_no_harm():
    assert read(square(0, 0) + '<defs><g id="a"><use href="#a"/></g></defs>').tessera_count == 1


def nested_uses(inmost: str) -> str:
    """Return definitions u0 to u59, each of which uses the one before ten times."""
    tens = (f"<use href='#u{k - 1}'/>" * 10 for k in range(1, 60))
    groups = "".join(f'<g id="u{k}">{ten}</g>' for k, ten in enumerate(tens, 1))
    return f'<defs><g id="u0">{inmost}</g>{groups}</defs><use href="#u59"/>'


def test_uses_of_uses_that_would_draw_billions_are_counted_not_drawn():
    fault = fault_of(page(nested_uses(square(0, 0))), f.TooManyShapes)
    assert fault.count == 10**59
    assert "endlessly many shapes" in str(fault)


def test_uses_of_nothing_that_would_be_visited_for_ever_are_refused_too():
    fault_of(page(square(0, 0) + nested_uses("")), f.TooManyElements)


def test_one_shape_more_than_allowed_is_refused_before_any_geometry():
    """The path data are nonsense; had geometry begun, the fault would be another one."""
    body = "<path d='nonsense'/>" * (MOST_SHAPES + 1)
    fault = fault_of(page(body), f.TooManyShapes)
    assert (fault.count, fault.limit) == (150_001, 150_000)
    assert "150,001 shapes; at most 150,000" in str(fault)


def test_shapes_that_use_repeats_count_as_often_as_they_are_drawn():
    row = '<g id="row">' + '<path d=""/>' * 1000 + "</g>"
    assert fault_of(page(row + '<use href="#row"/>' * 150), f.TooManyShapes).count == 151_000


def test_groups_nested_without_end():
    fault_of(page("<g>" * 100_000 + "</g>" * 100_000), f.NestedTooDeep)
    fault_of(page("<g>" * MOST_LEVELS + square(0, 0) + "</g>" * MOST_LEVELS), f.NestedTooDeep)


def test_uses_chained_without_end():
    chain = "".join(f'<use id="c{k}" href="#c{k + 1}"/>' for k in range(5000))
    fault_of(page(square(0, 0, 5, 'id="c5000"') + chain), f.NestedTooDeep)


def test_groups_nested_as_deep_as_allowed_are_read():
    depth = MOST_LEVELS - 3
    assert read("<g>" * depth + square(0, 0) + "</g>" * depth).tessera_count == 1


def test_more_elements_than_any_drawing_has(monkeypatch):
    monkeypatch.setattr(xmltree, "MOST_ELEMENTS", 1000)
    assert fault_of(page("<g/>" * 1000), f.TooManyElements).limit == 1000


@pytest.mark.parametrize(
    ("shape", "attribute"),
    [
        ('<path id="x" d="M0 0L NaN 5z"/>', "path"),
        ('<path id="x" d="M0 0L 1e400 5z"/>', "path"),
        ('<polygon id="x" points="0,0 nan,5 5,5"/>', "points"),
        ('<polygon id="x" points="0,0 1e400,5 5,5"/>', "points"),
        ('<rect id="x" width="inf" height="5"/>', "width"),
        ('<rect id="x" x="5 5" width="5" height="5"/>', "x"),
        ('<rect id="x" width="5bananas" height="5"/>', "width"),
        ('<circle id="x" r="NaN"/>', "r"),
        ('<ellipse id="x" rx="1e300" ry="2"/>', "rx"),
        ('<g id="x" transform="scale(nan)"><path d=""/></g>', "transform"),
        ('<svg id="x" width="1e400"/>', "width"),
        ('<use id="x" href="#y" x="NaN"/><path id="y" d=""/>', "x"),
    ],
)
def test_a_number_that_is_none_is_told_with_its_shape(shape, attribute):
    fault = fault_of(page(square(0, 0) + "\n" + shape), f.UnreadableNumber)
    assert fault.attribute == attribute
    assert fault.at == "shape 'x', line 2"


def test_a_shape_without_an_id_is_told_by_its_kind_and_line():
    fault = fault_of(page("\n\n<circle r='?'/>"), f.UnreadableNumber)
    assert str(fault) == (
        "lemons.svg, a circle at line 3: its r cannot be read at '?'; draw this shape again or delete it"
    )


@pytest.mark.parametrize(
    "shape",
    [
        '<rect id="far" x="1e6" width="5" height="5"/>',
        '<rect id="far" width="1e7" height="1e7"/>',
        '<rect id="far" width="5" height="5" transform="scale(1e9)"/>',
        '<circle id="far" r="1e11"/>',
        '<path id="far" d="M0 0 A1e9 1e9 0 0 1 5 5z L1e9 0 0 1e9z"/>',
    ],
)
def test_a_shape_that_reaches_beyond_100_m_is_told(shape):
    assert "shape 'far'" in fault_of(page(square(0, 0) + shape), f.CoordinateTooFar).at


@pytest.mark.parametrize(
    ("body", "seen"),
    [
        ("", ""),
        ("<text>a</text>", "1 × text"),
        ('<path d="M0 0L5 5L5 0"/><rect width="100" height="100"/>', "1 × open stroke, 1 × background"),
        (
            square(0, 0, 5, 'fill="none"') + square(0, 0, 5, "display='none'"),
            "1 × unfilled shape, 1 × hidden shape",
        ),
        ("<style>svg{display:none}</style>" + square(0, 0), "1 × hidden shape"),
    ],
)
def test_a_drawing_without_a_closed_filled_shape_tells_what_it_has(body, seen):
    assert fault_of(page(body), f.NoTesserae).seen == seen


def test_outlines_of_millions_of_points_are_refused_before_they_are_made():
    curve = "C0 9e4 9e4 0 5 5" * 20_000
    assert fault_of(page(f'<path d="M0 0{curve}z"/>'), f.TooManyPoints).count == 20_000 * 500 + 1


def test_thousands_of_shapes_on_top_of_one_another_are_refused_not_paired():
    fault_of(page(square(0, 0, 5) * 20_000), f.TooTangled)


def test_every_fault_of_a_drawing_is_a_small_one_of_its_own():
    kinds = [kind for kind in vars(f).values() if isinstance(kind, type) and issubclass(kind, f.DrawingFault)]
    assert len(kinds) > 15
    assert all(issubclass(kind, Fault) for kind in kinds)


LONG = 300_000


@pytest.mark.parametrize(
    "shape",
    [
        f'<rect width="{"1" * LONG}x" height="5"/>',
        f'<rect width="1{" " * LONG}x" height="5"/>',
        f'<g transform="{"scale(1)" * LONG}"><path d=""/></g>',
        f'<g transform="rotate({"1" * LONG}x)"><path d=""/></g>',
        f'<path d="M0 0A{"5" * LONG}"/>',
        f'<path d="M0 0{"A1 1 0 0 1 5 5" * 20_000}A1"/>',
        f'<path d="M{"1 1L" * LONG}x"/>',
        f'<polygon points="{"1" * LONG}x"/>',
    ],
)
def test_long_nonsense_in_a_number_is_refused_without_going_round_in_it(shape):
    fault_of(page(square(0, 0) + shape), f.UnreadableNumber)


@pytest.mark.parametrize(
    "body",
    [
        square(0, 0, 10, f'fill="rgb({"1" * LONG}x)"'),
        square(0, 0, 10, f'fill="url({" " * LONG}"'),
        square(0, 0, 10, f'opacity="{"1" * LONG}x"'),
        square(0, 0, 10, f'class="{"a " * LONG}" id="{"b" * LONG}"'),
        f"<style>{'/*' * LONG}</style>" + square(0, 0),
        f"<style>{'@a{' * LONG}</style>" + square(0, 0),
        f"<style>{'a,' * LONG}{{fill:red}}</style>" + square(0, 0),
        f"<style>{'a ' * LONG}{{fill:red}}</style>" + square(0, 0),
        f"<style>{'.a>b{fill:red}' * LONG}</style>" + square(0, 0),
        f"<style>{'a{fill:rgb(11111111111111111111111111111111111111x)}' * 9999}</style>" + square(0, 0),
    ],
)
def test_long_nonsense_elsewhere_is_passed_over_without_going_round_in_it(body):
    assert read(body).area_mm2.tolist() == pytest.approx([100])
