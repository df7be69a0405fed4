"""What a shape takes over from the groups around it, and where that puts and paints it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from bench.drawing.faults import quoted
from bench.drawing.numbers import Affine, affine, length_px, then
from bench.drawing.page import view_affine, view_box
from bench.drawing.paint import BLACK, Paint, fill_paint, opacity, plain_paint
from bench.drawing.xmltree import Node
from bench.speech import say

_PAINTED = ("color", "fill", "fill-opacity", "opacity", "visibility", "clip-path", "mask")
_OURS = ("data-panel-outline", "data-glass", "data-adhesive", "data-board")
_INHERITED = frozenset(("transform", *_PAINTED, *_OURS))
_NO = ("false", "no", "0", "none")


@dataclass(frozen=True, slots=True)
class Scene:
    """What a shape takes over from the groups around it."""

    matrix: Affine
    whole_px: tuple[float, float]
    fill: Paint | None = BLACK
    true_fill: bool = True
    current: Paint = BLACK
    fill_opacity: float = 1.0
    opacity: float = 1.0
    visible: bool = True
    glass: str = ""
    adhesive: str = ""
    board: str = ""
    group: int = -1
    outline: bool = False
    clipped: bool = False


@dataclass(frozen=True, slots=True)
class Shape:
    """One shape as often as it is drawn, with its own look and all that it took over."""

    node: Node
    look: Mapping[str, str]
    scene: Scene

    @property
    def filled(self) -> bool:
        paint = self.scene.fill
        return paint is not None and paint[3] * self.scene.fill_opacity > 0

    @property
    def told(self) -> str:
        """Say which shape it is, for a fault."""
        key = self.node.attributes.get("id", "")
        line = self.node.line
        if key:
            return say("shape {name}, line {line}", name=quoted(key), line=line)
        return say("a {tag} at line {line}", tag=self.node.tag, line=line)


def inherit(look: Mapping[str, str], scene: Scene, by_id: Mapping[str, Node]) -> Scene:
    """Return what an element of this look hands on; a value that cannot be read is passed over, as in CSS.

    Raises Unreadable for a transform that cannot be read: guessing would move glass.
    """
    if _INHERITED.isdisjoint(look):
        return scene
    said = {key: look[key].strip() for key in _INHERITED & look.keys()}
    marks = said.pop("data-panel-outline", None)  # alone, without a value, it marks as well
    said = {key: text for key, text in said.items() if text not in ("", "inherit")}
    current = plain_paint(said["color"]) if "color" in said else None
    current = current or scene.current
    fill = fill_paint(said["fill"], current, by_id) if "fill" in said else None
    moves = said.get("transform")
    return Scene(
        matrix=then(scene.matrix, affine(moves)) if moves else scene.matrix,
        whole_px=scene.whole_px,
        fill=fill[0] if fill else scene.fill,
        true_fill=fill[1] if fill else scene.true_fill,
        current=current,
        fill_opacity=opacity(said["fill-opacity"]) if "fill-opacity" in said else scene.fill_opacity,
        opacity=scene.opacity * opacity(said.get("opacity")),
        visible=said["visibility"] == "visible" if "visibility" in said else scene.visible,
        glass=said.get("data-glass", scene.glass).lower(),
        adhesive=" ".join(said.get("data-adhesive", scene.adhesive).split()),
        board=" ".join(said.get("data-board", scene.board).split()),
        group=scene.group,
        outline=scene.outline if marks is None else marks.lower() not in _NO,
        clipped=scene.clipped or any(said.get(key, "none") != "none" for key in ("clip-path", "mask")),
    )


def place_px(look: Mapping[str, str], whole: tuple[float, float]) -> tuple[float, float]:
    return length_px(look.get("x", "0"), "x", whole[0]), length_px(look.get("y", "0"), "y", whole[1])


def moved(scene: Scene, xy: tuple[float, float]) -> Scene:
    return scene if xy == (0, 0) else replace(scene, matrix=then(scene.matrix, (1, 0, 0, 1, *xy)))


def windowed(node: Node, look: Mapping[str, str], scene: Scene) -> Scene:
    """Return the scene inside an inner `svg` or `symbol`, whose viewBox fills its window."""
    width, height = (
        length_px(look.get(key, "100%"), key, size)
        for key, size in zip(("width", "height"), scene.whole_px, strict=True)
    )
    box = view_box(node)
    whole = (box[2], box[3]) if box and box[2] > 0 and box[3] > 0 else (width, height)
    return replace(scene, matrix=then(scene.matrix, view_affine(node, width, height)), whole_px=whole)
