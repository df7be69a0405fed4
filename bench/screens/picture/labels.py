"""The number and the word on each section of the picture, all in two meshes.

Panning only shifts them, by whole pixels, so that text stays sharp. Zooming, which makes room for more words,
builds them anew, and so does panning to a part for which no labels were made yet. They are drawn by Kivy's
own program, as all other text is: one of our own would cost a start as much as their making.

A label says what there is room for within its section and beside the other labels: number, word and note,
on one line or two, without the note, or the number alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

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
WORDLESS = ("drawn",)
_CORNER = np.linspace(0, 2 * np.pi, 16, endpoint=False) + np.pi / 16
_FAN = np.array([[0, k, k + 1] for k in range(1, 15)])
_QUAD = np.array([[0, 1, 2], [2, 3, 0]])

Say = Callable[[str], str]
Rows = NDArray[np.float64]  # x, y [px], u, v
Lines = tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Plate:
    """Where a label lies: about the middle of its section's anchor, so far to either side. [mm, px]"""

    anchor_mm: tuple[float, float]
    reach_px: tuple[float, float]

    def meets(self, other: Plate, px_per_mm: float) -> bool:
        return all(
            abs(here - there) * px_per_mm < mine + theirs
            for here, there, mine, theirs in zip(
                self.anchor_mm, other.anchor_mm, self.reach_px, other.reach_px, strict=True
            )
        )


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
        self.shown: tuple[tuple[Section, Lines, Plate], ...] = ()

    def place(
        self,
        view: View,
        at: tuple[float, float],
        sections: Sequence[Section],
        say: Say,
        notes: Mapping[int, str],
    ) -> None:
        """Put the labels where they belong for a view; `at` is the widget's lower left corner.

        notes: by number, what a label says after its word where there is room.
        """
        x, y = view.to_px(0.0, 0.0)
        self._shift.xy = (round(at[0] + x), round(at[1] + y))
        looks = (*theme.ink, *theme.plate, theme.small)
        state = (view.px_per_mm, view.width_px, view.height_px, sections, say, dict(notes), *looks)
        if state == self._built and self._is_near(view):
            return
        self._built, self._centre_mm = state, (view.x_mm, view.y_mm)
        self._build(view, sections, say, notes)

    @property
    def plates(self) -> tuple[Plate, ...]:
        """Where labels lie by now."""
        return tuple(plate for _, _, plate in self.shown)

    def _is_near(self, view: View) -> bool:
        """Tell whether the view still shows only what labels were made for: half a screen further out."""
        reach = view.width_px / view.px_per_mm / 2, view.height_px / view.px_per_mm / 2
        return (
            abs(view.x_mm - self._centre_mm[0]) <= reach[0]
            and abs(view.y_mm - self._centre_mm[1]) <= reach[1]
        )

    def _build(
        self, view: View, sections: Sequence[Section], say: Say, notes: Mapping[int, str]
    ) -> None:
        self._drawn.clear()
        atlas = self._atlas_for(say, notes)
        self.shown = tuple(self._chosen(atlas, view, sections, say, notes))
        plates, texts = [], []
        for section, lines, plate in self.shown:
            x, y = section.anchor_mm
            middle = np.rint([x * view.px_per_mm, -y * view.px_per_mm])
            plates.append(_rounded(plate, middle))
            texts += _text(atlas, lines, middle)
        if plates:
            self._drawn.add(Color(*theme.plate[:3]))
            self._drawn.add(_mesh(plates, _FAN))
            self._drawn.add(Color(*theme.ink[:3]))
            self._drawn.add(_mesh(texts, _QUAD, atlas.texture))

    def _chosen(
        self, atlas: Atlas, view: View, sections: Sequence[Section], say: Say, notes: Mapping[int, str]
    ) -> list[tuple[Section, Lines, Plate]]:
        """Return what is said on which sections, and where its plate lies."""
        wide, high = view.width_px / view.px_per_mm, view.height_px / view.px_per_mm
        shown: list[tuple[Section, Lines, Plate]] = []
        for section in sections:
            x, y = section.anchor_mm
            if abs(x - view.x_mm) > wide or abs(y - view.y_mm) > high or len(shown) >= MOST_LABELS:
                continue
            lines: Lines = ((str(section.number),),)
            plate = _plate(atlas, section, lines)
            if _has_room(section, plate, view.px_per_mm):
                shown.append((section, lines, plate))
        for more in (_with_word, _with_note):  # all words before any note
            for k, (section, _, _) in enumerate(shown):
                others = [other for _, _, other in (*shown[:k], *shown[k + 1 :])]
                for lines in more(section, say, notes):
                    plate = _plate(atlas, section, lines)
                    if _has_room(section, plate, view.px_per_mm) and not any(
                        plate.meets(other, view.px_per_mm) for other in others
                    ):
                        shown[k] = section, lines, plate
                        break
        return shown

    def _atlas_for(self, say: Say, notes: Mapping[int, str]) -> Atlas:
        words = [say(stage) for stage in LOOKS]
        said = (*words, *(f"{word}," for word in words), *notes.values()) if notes else tuple(words)
        key = (said, theme.small)
        if self._atlas is None or key != self._atlas_of:
            self._atlas, self._atlas_of = Atlas(*key), key
        return self._atlas


def _with_word(section: Section, say: Say, _notes: Mapping[int, str]) -> Iterator[Lines]:
    if section.stage not in WORDLESS:
        yield ((str(section.number), say(section.stage)),)


def _with_note(section: Section, say: Say, notes: Mapping[int, str]) -> Iterator[Lines]:
    if section.number in notes and section.stage not in WORDLESS:
        number, word, note = str(section.number), say(section.stage), notes[section.number]
        yield ((number, f"{word},", note),)
        yield ((number, word), (note,))


def _has_room(section: Section, plate: Plate, px_per_mm: float) -> bool:
    left, top, right, bottom = section.box_mm
    wide, high = (right - left) * px_per_mm, (bottom - top) * px_per_mm
    return 2 * plate.reach_px[0] <= wide and 2 * plate.reach_px[1] <= high


def _plate(atlas: Atlas, section: Section, lines: Lines) -> Plate:
    width = max(atlas.width_px(line) for line in lines)
    return Plate(section.anchor_mm, (width / 2 + dp(7), len(lines) * atlas.height_px / 2 + dp(2)))


def _rounded(plate: Plate, middle: Rows) -> Rows:
    """Return a plate with rounded corners about a section's anchor."""
    radius = dp(7)
    straight = np.array(plate.reach_px) - radius
    turn = np.column_stack([np.cos(_CORNER), np.sin(_CORNER)])
    return np.hstack([middle + np.sign(turn) * straight + turn * radius, np.zeros((len(turn), 2))])


def _text(atlas: Atlas, lines: Lines, middle: Rows) -> Iterator[Rows]:
    """Yield a four-sided piece for each digit and word, on whole pixels off the anchor."""
    high = atlas.height_px
    for k, line in enumerate(lines):
        left, low = -round(atlas.width_px(line) / 2), round((len(lines) / 2 - 1 - k) * high)
        for at, glyphs in atlas.quads(line):
            u0, v0, u1, v1 = glyphs.spot
            x0, x1 = left + at, left + at + glyphs.width_px
            off = np.array([[x0, low], [x1, low], [x1, low + high], [x0, low + high]])
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
