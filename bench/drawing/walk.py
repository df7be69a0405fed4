"""Walk the drawing as it would be drawn: what is inherited, what `use` repeats, what is hidden."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from bench.drawing.census import NEVER_DRAWN, SHAPES, Census, draws
from bench.drawing.faults import UnreadableNumber
from bench.drawing.numbers import Affine, Unreadable, then
from bench.drawing.page import Page
from bench.drawing.scene import Scene, Shape, inherit, moved, place_px, windowed
from bench.drawing.styles import StyleSheet
from bench.drawing.xmltree import Node


class Walk:
    """All shapes of a drawing in the order drawn, its named groups, and what is not drawn at all."""

    def __init__(self, root: Node, census: Census, page: Page, to_mm: Affine) -> None:
        self.census = census
        self.shapes: list[Shape] = []
        self.groups: list[str] = []
        self.left_out: Counter[str] = Counter()
        self._drawn: set[int] = set()
        self._above: list[Node] = []
        self._styles = StyleSheet(_style_texts(root))
        self._visit(root, Scene(then(to_mm, page.inner), page.whole_px))
        self.left_out["shape never drawn"] += self._never_drawn(root)

    def _visit(self, node: Node, scene: Scene) -> None:
        tag = node.tag
        if tag in ("text", "foreignObject", "image"):
            self.left_out[tag] += 1
        if not draws(node):
            return
        look = self._styles.look(node, self._above)
        if look.get("display", "").strip() == "none":
            self.left_out["hidden shape"] += self._shapes_in(node)
            return
        try:
            scene = inherit(look, scene, self.census.by_id)
            if tag in SHAPES:
                self._shape(node, look, scene)
            else:
                self._inside(node, look, scene)
        except Unreadable as error:
            at = Shape(node, look, scene).told
            raise UnreadableNumber(self.census.name, at, error.attribute, error.text) from None

    def _shape(self, node: Node, look: Mapping[str, str], scene: Scene) -> None:
        self._drawn.add(id(node))
        if scene.visible and scene.opacity > 0:
            self.shapes.append(Shape(node, look, scene))
        else:
            self.left_out["hidden shape"] += 1

    def _inside(self, node: Node, look: Mapping[str, str], scene: Scene) -> None:
        """Visit what a group, an inner drawing or a `use` holds."""
        parts = node.children
        if node.tag == "use":
            target = self.census.target(node)
            if target is None:
                self.left_out["broken reference"] += 1
                return
            scene = moved(scene, place_px(look, scene.whole_px))
            parts = [target]
            if target.tag in ("symbol", "svg"):
                own = self._styles.look(target, [*self._above, node])
                window = {key: look[key] for key in ("width", "height") if key in look}
                scene = windowed(target, {**own, **window}, inherit(own, scene, self.census.by_id))
                parts = target.children
        elif node.tag == "svg" and self._above:  # the outermost one is the page itself
            scene = windowed(node, look, moved(scene, place_px(look, scene.whole_px)))
        elif node.tag == "g" and (key := look.get("label") or look.get("id")):
            scene = replace(scene, group=len(self.groups))
            self.groups.append(" ".join(key.split()))
        self._above.append(node)
        for part in parts:
            self._visit(part, scene)
        self._above.pop()

    def _shapes_in(self, node: Node) -> int:
        extent = self.census.count(node, 1)
        return extent.shapes

    def _never_drawn(self, root: Node) -> int:
        """Count the shapes in `defs` and its like that no `use` has drawn."""
        count, waiting = 0, [(child, False) for child in root.children]
        while waiting:
            node, inside = waiting.pop()
            inside = inside or node.tag in NEVER_DRAWN
            count += inside and node.tag in SHAPES and id(node) not in self._drawn
            waiting.extend((child, inside) for child in node.children)
        return count


def _style_texts(root: Node) -> list[str]:
    found, waiting = [], [root]
    while waiting:
        node = waiting.pop()
        if node.tag == "style":
            found.append(node.text)
        waiting.extend(reversed(node.children))
    return found
