"""Count what a drawing would draw, `use` included, before anything is drawn or measured."""

from __future__ import annotations

from dataclasses import dataclass, field

from bench.drawing.faults import NestedTooDeep, TooManyElements, TooManyShapes, UseLoop
from bench.drawing.xmltree import MOST_ELEMENTS, MOST_LEVELS, Node

MOST_SHAPES = 150_000
SHAPES = frozenset(("path", "polygon", "polyline", "rect", "circle", "ellipse", "line"))
NEVER_DRAWN = frozenset(("defs", "symbol", "marker", "mask", "clipPath", "pattern"))  # only by reference
_NO_CONTENT = frozenset(
    ("", "style", "script", "metadata", "title", "desc", "text", "foreignObject", "image")
)


@dataclass(slots=True)
class Extent:
    """What one element draws with all that is in it: shapes, elements visited, and levels."""

    shapes: int = 0
    visits: int = 1
    levels: int = 1

    def add(self, other: Extent) -> None:
        self.shapes += other.shapes
        self.visits += other.visits
        self.levels = max(self.levels, 1 + other.levels)


@dataclass(slots=True)
class Census:
    """The elements by id, and how much each element draws."""

    name: str
    by_id: dict[str, Node]
    extents: dict[int, Extent | None] = field(default_factory=dict)  # None while it is being counted

    def target(self, use: Node) -> Node | None:
        """Return what a `use` points at; None for nothing, or for another file, which is never opened."""
        href = use.attributes.get("href", "").strip()
        found = self.by_id.get(href[1:]) if href.startswith("#") else None
        return None if found and found.tag in NEVER_DRAWN - {"symbol"} else found

    def parts(self, node: Node) -> list[Node]:
        """Return the elements that `node` draws, in order."""
        if node.tag == "use":
            target = self.target(node)
            return [target] if target else []
        return [child for child in node.children if draws(child)]

    def count(self, node: Node, level: int) -> Extent:
        known = self.extents.get(id(node))
        if known is None:
            if id(node) in self.extents:
                raise UseLoop(
                    self.name, node.line, node.attributes.get("href", node.attributes.get("id", ""))
                )
            if level > MOST_LEVELS:
                raise NestedTooDeep(self.name, node.line, MOST_LEVELS)
            self.extents[id(node)] = None
            known = Extent(shapes=int(node.tag in SHAPES))
            for part in self.parts(node):
                known.add(self.count(part, level + 1))
            self.extents[id(node)] = known
        if level + known.levels > MOST_LEVELS + 1:
            raise NestedTooDeep(self.name, node.line, MOST_LEVELS)
        return known


def draws(child: Node) -> bool:
    """Tell whether an element is drawn where it stands, and not only where something points at it."""
    return child.tag not in NEVER_DRAWN and child.tag not in _NO_CONTENT


def take_census(root: Node, name: str) -> Census:
    """Count the shapes that the drawing would draw, each `use` counted as often as it draws.

    Each element is counted once, so that a `use` of a `use` of a `use` costs nothing to count. Raises
    TooManyShapes, TooManyElements, UseLoop or NestedTooDeep.
    """
    by_id: dict[str, Node] = {}
    waiting = [root]
    while waiting:
        node = waiting.pop()
        if key := node.attributes.get("id"):
            by_id.setdefault(key, node)
        waiting.extend(reversed(node.children))
    census = Census(name, by_id)
    extent = census.count(root, 1)
    if extent.shapes > MOST_SHAPES:
        raise TooManyShapes(name, extent.shapes, MOST_SHAPES)
    if extent.visits > MOST_ELEMENTS:
        raise TooManyElements(name, extent.visits, MOST_ELEMENTS)
    return census
