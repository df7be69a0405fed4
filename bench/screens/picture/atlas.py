"""Digits and the words for stages in one texture, so that all labels are drawn at once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from kivy.core.text import Label as CoreLabel

from bench.screens.theme import FONT

_DIGITS = "0123456789"

Quad = tuple[float, float, float, float]


@dataclass(frozen=True)
class Glyphs:
    """One line of the texture: its width in pixels and where it lies, as u, v of two opposite corners."""

    width_px: float
    spot: Quad


class Atlas:
    """Text of one size, a line of the texture for each digit and each word."""

    def __init__(self, words: Iterable[str], size_px: float) -> None:
        lines = [*_DIGITS, *dict.fromkeys(words)]
        # kept, since Kivy fills the texture again from the label when a tablet has lost it
        self._label = CoreLabel(
            text="\n".join(lines), font_name=FONT, font_size=size_px, bold=True, color=(1, 1, 1, 1)
        )
        self._label.refresh()
        self.texture = self._label.texture
        self.height_px = self.texture.height / len(lines)
        self.space_px = self._label.get_extents(" ")[0]
        self._glyphs = {line: self._line(line, k, len(lines)) for k, line in enumerate(lines)}

    def _line(self, line: str, k: int, count: int) -> Glyphs:
        u0, v0, u1, _, _, v1 = self.texture.tex_coords[:6]
        width = self._label.get_extents(line)[0]
        low, high = 1 - (k + 1) / count, 1 - k / count
        spot = (u0, v0 + low * (v1 - v0), u0 + width / self.texture.width * (u1 - u0), v0 + high * (v1 - v0))
        return Glyphs(width, spot)

    def quads(self, line: Sequence[str]) -> Iterator[tuple[float, Glyphs]]:
        """Yield what a line of a label is made of: how far right each piece starts [px], and the piece.

        line: numbers and words of the atlas, set apart by spaces.
        """
        at = 0.0
        for part in line:
            for glyphs in [self._glyphs[digit] for digit in part] if part.isdigit() else [self._glyphs[part]]:
                yield at, glyphs
                at += glyphs.width_px
            at += self.space_px

    def width_px(self, line: Sequence[str]) -> float:
        """Return how wide a line of a label is. [px]"""
        return max(at + glyphs.width_px for at, glyphs in self.quads(line))
