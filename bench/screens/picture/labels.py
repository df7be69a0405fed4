"""The number and the word on each section of the picture, all in two meshes.

Panning only shifts them, by whole pixels, so that text stays sharp. Zooming, which makes room for more words,
builds them anew, and so does panning to a part for which no labels were made yet. They are drawn by Kivy's
own program, as all other text is: one of our own would cost a start as much as their making.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from kivy.graphics import Color, InstructionGroup, Mesh, PopMatrix, PushMatrix, Translate
from kivy.graphics.texture import Texture
from kivy.metrics import dp
from numpy.typing import NDArray

from bench.screens.picture.atlas import Atlas
from bench.screens.picture.division import Section
from bench.screens.picture.looks import LOOKS
from bench.screens.picture.view import View
from bench.screens.theme import theme

MOST_LABELS = 400
_WORDLESS = ("drawn",)
_CORNER = np.linspace(0, 2 * np.pi, 16, endpoint=False) + np.pi / 16
_FAN = np.array([[0, k, k + 1] for k in range(1, 15)])
_QUAD = np.array([[0, 1, 2], [2, 3, 0]])

Say = Callable[[str], str]
Rows = NDArray[np.float64]  # x, y [px], u, v


class Labels:
    """Draw the labels of a division into `group`: all plates, then all texts."""

    def __init__(self) -> None:
        self._shift, self._drawn = Translate(), InstructionGroup()
        self.group = InstructionGroup()
        for instruction in (PushMatrix(), self._shift, self._drawn, PopMatrix()):
            self.group.add(instruction)
        self._atlas: Atlas | None = None
        self._atlas_of: tuple[object, ...] = ()
        self._built: tuple[object, ...] = ()
        self._centre_mm = (0.0, 0.0)

    def place(self, view: View, at: tuple[float, float], sections: Sequence[Section], say: Say) -> None:
        """Put the labels where they belong for a view; `at` is the widget's lower left corner."""
        x, y = view.to_px(0.0, 0.0)
        self._shift.xy = (round(at[0] + x), round(at[1] + y))
        looks = (*theme.ink, *theme.plate, theme.small)
        state = (view.px_per_mm, view.width_px, view.height_px, sections, say, *looks)
        if state == self._built and self._is_near(view):
            return
        self._built, self._centre_mm = state, (view.x_mm, view.y_mm)
        self._build(view, sections, say)

    def _is_near(self, view: View) -> bool:
        """Tell whether the view still shows only what labels were made for: half a screen further out."""
        reach = view.width_px / view.px_per_mm / 2, view.height_px / view.px_per_mm / 2
        return (
            abs(view.x_mm - self._centre_mm[0]) <= reach[0]
            and abs(view.y_mm - self._centre_mm[1]) <= reach[1]
        )

    def _build(self, view: View, sections: Sequence[Section], say: Say) -> None:
        self._drawn.clear()
        atlas = self._atlas_for(say)
        wide, high = view.width_px / view.px_per_mm, view.height_px / view.px_per_mm
        plates, texts = [], []
        for section in sections:
            x, y = section.anchor_mm
            if abs(x - view.x_mm) > wide or abs(y - view.y_mm) > high or len(plates) >= MOST_LABELS:
                continue
            word = "" if section.stage in _WORDLESS else say(section.stage)
            for text in dict.fromkeys((word, "")):
                if _has_room(section, atlas.width_px(section.number, text), atlas.height_px, view.px_per_mm):
                    middle = np.rint([x * view.px_per_mm, -y * view.px_per_mm])
                    plates.append(_plate(atlas, section.number, text, middle))
                    texts += _text(atlas, section.number, text, middle)
                    break
        if plates:
            self._drawn.add(Color(*theme.plate[:3]))
            self._drawn.add(_mesh(plates, _FAN))
            self._drawn.add(Color(*theme.ink[:3]))
            self._drawn.add(_mesh(texts, _QUAD, atlas.texture))

    def _atlas_for(self, say: Say) -> Atlas:
        key = (tuple(say(stage) for stage in LOOKS), theme.small)
        if self._atlas is None or key != self._atlas_of:
            self._atlas, self._atlas_of = Atlas(*key), key
        return self._atlas


def _has_room(section: Section, width_px: float, height_px: float, px_per_mm: float) -> bool:
    left, top, right, bottom = section.box_mm
    wide, high = (right - left) * px_per_mm, (bottom - top) * px_per_mm
    return width_px + dp(14) <= wide and height_px + dp(4) <= high


def _plate(atlas: Atlas, number: int, word: str, middle: Rows) -> Rows:
    """Return a plate with rounded corners about a section's anchor."""
    width, height = atlas.width_px(number, word), atlas.height_px
    radius = dp(7)
    straight = np.array([width / 2 + dp(7) - radius, height / 2 + dp(2) - radius])
    turn = np.column_stack([np.cos(_CORNER), np.sin(_CORNER)])
    return np.hstack([middle + np.sign(turn) * straight + turn * radius, np.zeros((len(turn), 2))])


def _text(atlas: Atlas, number: int, word: str, middle: Rows) -> Iterator[Rows]:
    """Yield a four-sided piece for each digit and the word, on whole pixels off the anchor."""
    left, low = -round(atlas.width_px(number, word) / 2), -round(atlas.height_px / 2)
    for at, glyphs in atlas.quads(number, word):
        u0, v0, u1, v1 = glyphs.spot
        x0, x1 = left + at, left + at + glyphs.width_px
        off = np.array([[x0, low], [x1, low], [x1, low + atlas.height_px], [x0, low + atlas.height_px]])
        yield np.hstack([middle + off, [[u0, v0], [u1, v0], [u1, v1], [u0, v1]]])


def _mesh(pieces: list[Rows], corner: NDArray[np.int_], texture: Texture | None = None) -> Mesh:
    """Return one mesh of pieces of as many corners each."""
    index = len(pieces[0]) * np.arange(len(pieces))[:, None, None] + corner
    return Mesh(
        vertices=np.vstack(pieces).astype(np.float32).ravel(),
        indices=index.ravel().astype(np.uint16),
        mode="triangles",
        texture=texture,
    )
