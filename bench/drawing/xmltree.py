"""Read XML into a light tree and refuse what could hurt: entities, endless nesting, endless elements."""

from __future__ import annotations

from dataclasses import dataclass, field
from xml.parsers import expat

from bench.drawing.faults import BrokenXml, EntitiesRefused, NestedTooDeep, NotAnSvg, TooManyElements
from bench.speech import say

SVG = "http://www.w3.org/2000/svg"
XLINK_HREF = "http://www.w3.org/1999/xlink href"
MOST_LEVELS = 256
MOST_ELEMENTS = 1_000_000


@dataclass(slots=True, eq=False)
class Node:
    """One element. `tag` is the SVG name, or "" for an element of another namespace."""

    tag: str
    attributes: dict[str, str]
    line: int
    children: list[Node] = field(default_factory=list)
    text: str = ""


def read_tree(data: bytes, name: str) -> Node:
    """Return the root `svg` element of a drawing.

    A document type is allowed, an entity declaration is refused, and nothing outside the file is ever
    opened. Raises a DrawingFault that names the line.
    """
    builder = _Builder(name)
    parser = builder.parser
    try:
        parser.Parse(data, True)
    except expat.ExpatError as error:
        reason = expat.ErrorString(error.code)
        if builder.root is None and b"<svg" not in data:
            raise NotAnSvg(name, _beginning(data)) from None
        raise BrokenXml(name, error.lineno, reason) from None
    except (LookupError, ValueError) as error:  # an encoding that Python does not know, or not byte by byte
        raise BrokenXml(name, 1, say("its encoding: {error}", error=error)) from None
    if builder.root is None:
        raise NotAnSvg(name, _beginning(data))
    return builder.root


def _beginning(data: bytes) -> str:
    """Say what a file begins as."""
    beginnings = (
        (b"\x89PNG", say("a PNG picture")),
        (b"\xff\xd8", say("a JPEG picture")),
        (b"GIF8", say("a GIF picture")),
        (b"%PDF", say("a PDF document")),
        (b"%!PS", say("a PostScript document")),
        (b"\x1f\x8b", say("a compressed file")),
        (b"PK\x03\x04", say("a zip archive")),
    )
    return next((what for magic, what in beginnings if data.startswith(magic)), say("something else"))


def _attribute(key: str) -> str:
    """Name an attribute: plain names stay, `xlink:href` is `href`, a layer's label `label`, others ""."""
    if key == XLINK_HREF:
        return "href"
    space, _, local = key.rpartition(" ")
    return local if not space or local == "label" else ""


class _Builder:
    """Hold the open elements while expat reports what it finds."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.root: Node | None = None
        self.open: list[Node] = []
        self.count = 0
        self.style: list[str] = []  # of the style sheet that is open
        parser = expat.ParserCreate(namespace_separator=" ")
        parser.buffer_text = True
        parser.StartElementHandler = self.start
        parser.EndElementHandler = self.end
        parser.CharacterDataHandler = self.text
        parser.EntityDeclHandler = self.entity
        parser.ExternalEntityRefHandler = self.outside
        self.parser = parser

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        space, _, local = tag.rpartition(" ")
        line = self.parser.CurrentLineNumber
        if self.root is None and (local != "svg" or space not in (SVG, "")):
            raise NotAnSvg(self.name, say("an XML file that begins with <{tag}>", tag=local[:40]))
        self.count += 1
        if self.count > MOST_ELEMENTS:
            raise TooManyElements(self.name, self.count, MOST_ELEMENTS)
        if len(self.open) >= MOST_LEVELS:
            raise NestedTooDeep(self.name, line, MOST_LEVELS)
        if any(" " in key for key in attributes):
            attributes = {_attribute(key): attributes[key] for key in sorted(attributes, reverse=True)}
        node = Node(local if space in (SVG, "") else "", attributes, line)
        if self.open:
            self.open[-1].children.append(node)
        else:
            self.root = node
        self.open.append(node)

    def end(self, tag: str) -> None:
        node = self.open.pop()
        if node.tag == "style":
            node.text = "".join(self.style)
            self.style.clear()

    def text(self, text: str) -> None:
        if self.open[-1].tag == "style":
            self.style.append(text)

    def entity(self, entity: str, *rest: object) -> None:
        raise EntitiesRefused(self.name, self.parser.CurrentLineNumber, entity)

    def outside(self, context: str, *rest: object) -> int:
        raise EntitiesRefused(self.name, self.parser.CurrentLineNumber, context)
