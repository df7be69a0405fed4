"""A view of a scene: size, hand, look and text; and what an eye and a glove find wrong with it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from fontTools.ttLib import TTFont

from bench.resources import resource
from bench.speech import tongue
from tests.fakes.areas import painted_home
from tests.fakes.drawings import grid_svg
from tests.fakes.gloves import complaints
from tests.fakes.inks import not_on_grey, unpaired

SIZES = {"1280x800": 1.0, "800x1280": 1.0, "2560x1600": 2.0, "1024x600": 1.0}  # with the density of each
HANDS = ("right", "left")
LOOKS = ("light", "dark")
TEXTS = (1.0, 1.5)


@dataclass(frozen=True)
class View:
    """How a scene is looked at."""

    size: str
    hand: str = "right"
    look: str = "light"
    text: float = 1.0

    def __str__(self) -> str:
        return f"{self.size} {self.hand} {self.look} {self.text:g}"

    def take(self, stage: Any) -> None:
        """Put it on; what is shown is laid out anew."""
        from bench.screens.theme import theme

        width, height = (int(side) for side in self.size.split("x"))
        theme.look, theme.text_scale = self.look, self.text
        theme.left_handed = self.hand == "left"
        stage.resize(width, height, density=SIZES[self.size])
        stage.frame(5)
        stage.run(0.6)
        stage.frame(20 if self.text > 1 or tongue().language != "en" else 2)  # type may yield


def views(
    sizes: Iterable[str] = SIZES,
    hands: Iterable[str] = HANDS,
    looks: Iterable[str] = LOOKS,
    texts: Iterable[float] = TEXTS,
) -> list[View]:
    """Return all views of these, the sizes changing last."""
    return [View(*how) for how in product(sizes, hands, looks, texts)]


@cache
def _glyphs() -> frozenset[int]:
    fonts = ("B612-Regular.otf", "B612-Bold.otf")
    known = [
        set(TTFont(str(resource("assets", "fonts", name)), recalcTimestamp=False).getBestCmap())
        for name in fonts
    ]
    return frozenset(set.intersection(*known))


def without_glyph(stage: Any) -> dict[str, str]:
    """Return the texts shown of which the typeface lacks a letter, and the letters."""
    found = {}
    for text in stage.texts():
        missing = sorted({c for c in text if c.isprintable() and ord(c) not in _glyphs()})
        if missing:
            found[text] = "".join(missing)
    return found


def wrong_with(stage: Any) -> dict[str, Any]:
    """Return all that is wrong with what is shown now."""
    seen = {
        **complaints(stage),
        "no glyph": without_glyph(stage),
        "ink": unpaired(stage),
        "ground": not_on_grey(stage),
    }
    return {what: which for what, which in seen.items() if which}


@contextmanager
def a_home(folder: Path) -> Iterator[Path]:
    """Make a folder the home, with drawings, scans and a study in it."""
    with pytest.MonkeyPatch.context() as patch:
        painted_home(folder, patch)
        patch.setenv("USERPROFILE", str(folder))
        (folder / "Documents" / "panel.svg").write_bytes(grid_svg(24, 12))
        yield folder
