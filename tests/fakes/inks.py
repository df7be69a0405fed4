"""Look at what is drawn under each text: a plate of the house, or glass, a photo, the grey round them.

The instructions of the window are gone through in the order in which they are drawn; what was filled last at
a place is what lies there. Boxes that are filled with a texture in plain white are pictures; those in a
colour of their own are texts that a drawing wrote.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from kivy.graphics import (
    Color,
    PopMatrix,
    PushMatrix,
    Rectangle,
    RoundedRectangle,
    StencilPop,
    StencilPush,
    StencilUnUse,
    StencilUse,
)
from kivy.uix.label import Label

from bench.screens.parts.press import Pressable
from bench.screens.theme import LOOKS, TEXT_PAIRS, theme

PICTURE = "a picture"
_WHITE = (1.0, 1.0, 1.0)
_EDGE = 0.02  # of a text's box: so far within its corners it is looked at

Back = Sequence[float] | str


@dataclass
class _Seen:
    """What was drawn so far: areas filled, and texts with what lies under them."""

    labels: dict[int, Label]  # by the number of the texture
    plain: int  # the texture of what is only filled
    colour: Sequence[float] = (1.0, 1.0, 1.0, 1.0)
    stencil: str = ""
    moved: int = 0
    areas: list[tuple[Sequence[float], Back]] = field(default_factory=list)
    texts: list[tuple[str, Sequence[float], set[Any]]] = field(default_factory=list)
    pictures: list[set[Any]] = field(default_factory=list)  # what lies behind each

    def take(self, one: Any) -> None:
        """Go on by an instruction; what is drawn in places of its own (moved) is not looked at."""
        if isinstance(one, Color):
            self.colour = tuple(one.rgba)
        elif isinstance(one, (StencilPush, StencilUnUse)):
            self.stencil = "shape" if isinstance(one, StencilPush) else "end"
        elif isinstance(one, (StencilUse, StencilPop)):
            self.stencil = ""
        elif isinstance(one, (PushMatrix, PopMatrix)):
            self.moved += 1 if isinstance(one, PushMatrix) else -1
        elif isinstance(one, (Rectangle, RoundedRectangle)) and not self.moved:
            self._filled(one)

    def _filled(self, one: Any) -> None:
        box = (*one.pos, one.pos[0] + one.size[0], one.pos[1] + one.size[1])
        number = one.texture.id if one.texture is not None else self.plain
        if self.stencil == "shape":
            self._pictured(box)
        elif self.stencil:
            return
        elif number in self.labels:
            label = self.labels[number]
            if label.text.strip():
                self.texts.append((label.text, label.color, self._under(box)))
        elif number == self.plain:
            self.areas += [(box, self.colour)] if self.colour[3] > 0.99 else []
        elif tuple(self.colour[:3]) == _WHITE:
            self._pictured(box)
        else:
            self.texts.append(("(drawn)", self.colour, self._under(box)))

    def _pictured(self, box: Sequence[float]) -> None:
        if min(box[2] - box[0], box[3] - box[1]) > 0:
            self.pictures.append(self._under(box))
            self.areas.append((box, PICTURE))

    def _under(self, box: Sequence[float]) -> set[Any]:
        """Return what lies under a box: at its middle and near its corners."""
        x1, y1, x2, y2 = box
        across, up = _EDGE * (x2 - x1), _EDGE * (y2 - y1)
        spots = [(x, y) for x in (x1 + across, x2 - across) for y in (y1 + up, y2 - up)]
        return {self._at(x, y) for x, y in (*spots, ((x1 + x2) / 2, (y1 + y2) / 2))}

    def _at(self, x: float, y: float) -> Any:
        for (x1, y1, x2, y2), back in reversed(self.areas):
            if x1 <= x <= x2 and y1 <= y <= y2:
                return back
        return tuple(theme.surround)


def _instructions(group: Any) -> Iterator[Any]:
    for one in group.children:
        if hasattr(one, "children"):
            yield from _instructions(one)
        else:
            yield one


def _is_seen(widget: Any) -> bool:
    while widget.parent is not widget and widget.parent is not None:
        if widget.opacity < 0.5:
            return False
        widget = widget.parent
    return True


def _named(colour: Back) -> str:
    """Name a colour by all that it is in the theme."""
    if isinstance(colour, str):
        return colour
    names = [name for name in (*LOOKS[theme.look], "surround") if _alike(colour, getattr(theme, name))]
    return "/".join(names) or ", ".join(f"{part:.2f}" for part in colour[:3])


def _alike(one: Sequence[float], other: Sequence[float]) -> bool:
    return max(abs(a - b) for a, b in zip(one[:3], other[:3], strict=True)) < 0.01


def _is_pair(ink: Sequence[float], back: Back) -> bool:
    return not isinstance(back, str) and any(
        _alike(ink, getattr(theme, text)) and _alike(back, getattr(theme, plate))
        for text, plate in TEXT_PAIRS
    )


def _seen(stage: Any) -> _Seen:
    labels = [w for w in stage.widgets() if isinstance(w, Label) and w.texture is not None and _is_seen(w)]
    seen = _Seen({label.texture.id: label for label in labels}, Rectangle().texture.id)
    for one in _instructions(stage.window.canvas):
        seen.take(one)
    return seen


def not_on_grey(stage: Any) -> dict[str, str]:
    """Return what lies behind pictures other than the neutral grey, and other than a picture."""
    backs = {back for behind in _seen(stage).pictures for back in behind}
    wrong = [_named(back) for back in backs if back != PICTURE and not _alike(back, theme.surround)]
    return {"a picture": f"on {', '.join(sorted(wrong))}"} if wrong else {}


def unpaired(stage: Any) -> dict[str, str]:
    """Return the texts that stand on what their ink makes no tested pair with, and both by name."""
    return {
        text: f"{_named(ink)} on {', '.join(sorted(_named(back) for back in backs))}"
        for text, ink, backs in _seen(stage).texts
        if not all(_is_pair(ink, back) for back in backs)
    }


def unpaired_while_pressed(stage: Any) -> dict[str, str]:
    """Return the same while a finger lies on all that can be set off, each as if it were the only one."""
    pressed = [w for w in stage.widgets() if isinstance(w, Pressable) and not w.disabled]
    for widget in pressed:
        widget.pressed = True
    stage.frame()
    found = unpaired(stage)
    for widget in pressed:
        widget.pressed = False
    stage.frame()
    return found
