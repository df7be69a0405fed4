"""Type that yields: where a screen does not hold its words they are set smaller there, and never cut.

What fits depends on the language, the tablet and the size of text that was chosen, of which no screen can
be drawn for each. So the house looks at what it shows; where something is cut or pushed out, type becomes
smaller a step at a time, at most down to the smallest that can be chosen. Targets for the hand stay as they
are. It grows again with the next screen, and a screen that is turned to again is as it was found to fit.
What stands above a screen gives up its room before type does, and where a picture is left with next to none.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator
from typing import Any

from kivy.clock import Clock
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.gridlayout import GridLayout
from kivy.uix.label import Label

from bench.screens.parts.fitting import breaks
from bench.screens.theme import theme

STEP = 0.94  # from one size of type to the next
SETTLED = 3  # frames in which the same is seen: before, a layout may be on its way
SETTLING = 2  # the same after a step: lists lay their pages a frame later
LEAST_SCALE = 0.85
_SLACK_PX = 1.5
_PUSHED_PX = 0.9  # a whole pixel is missing from the gap beyond


class Fit:
    """Watch a root widget, and let the theme's type yield.

    give_room: takes away what stands above, and says whether anything did.
    """

    def __init__(self, root: Any, give_room: Callable[[], bool] = lambda: False) -> None:
        self._root, self._give_room = root, give_room
        self._known: dict[Hashable, float] = {}
        self.view: Hashable = None
        self._seen = 0
        self._next_frame = Clock.create_trigger(self._look)

    def turned(self, name: str) -> None:
        """Begin with another screen, size or chosen text: as it fitted before, else unshrunk."""
        view = (name, *self._root.size, theme.text_scale)
        if view != self.view:
            self.view = view
            theme.fit = self._known.get(view, 1.0)
            self._seen = 0
        self.look()

    def look(self) -> None:
        """See in the next frame whether all is held."""
        self._next_frame()

    def _look(self, _dt: float) -> None:
        if self._root.get_root_window() is None:
            return  # put away: what it no longer shows is not for it to judge
        least = min(1.0, LEAST_SCALE / theme.text_scale)
        cut = overflows(self._root)
        if not cut and not crushed(self._root):
            self._seen = 0
            return
        self._seen += 1
        if self._seen >= SETTLED:
            if self._give_room():
                self._seen = 0
            elif cut and theme.fit > least:
                theme.fit = self._known[self.view] = max(least, _smaller(theme.fit))
                self._seen = SETTLED - SETTLING
            else:
                return
        self._next_frame()


def _smaller(fit: float) -> float:
    """Return the next smaller share. Type has the same sizes whatever was chosen: powers of STEP.

    So large text that yields comes to what usual text comes to, never below it for a step that fell between.
    """
    steps = math.log(theme.text_scale * fit, STEP)
    return float(STEP ** (math.floor(steps + 1e-6) + 1) / theme.text_scale)


def overflows(root: Any) -> bool:
    """Tell whether any text is cut or broken within a word, or anything is pushed out of where it stands."""
    return any(_cut(part) if isinstance(part, Label) else _pushed_out(part) for part in _shown(root))


def crushed(root: Any) -> bool:
    """Tell whether a picture has less height than the targets it asks for: nothing is seen in it."""
    asking = (part for part in _shown(root) if hasattr(part, "least_targets"))
    return any(part.height < part.least_targets * theme.target for part in asking)


def _shown(part: Any) -> Iterator[Any]:
    yield part
    for child in part.children:
        yield from _shown(child)


def _cut(label: Any) -> bool:
    if not label.text:
        return False
    wide_px, high_px = label.texture_size
    if wide_px > label.width + _SLACK_PX or high_px > label.height + _SLACK_PX or _pushed_out(label):
        return True
    return not label.markup and breaks(label.text, label.font_size, label.width + _SLACK_PX, bold=label.bold)


def _pushed_out(part: Any) -> bool:
    box = part.parent
    if not isinstance(box, BoxLayout | GridLayout) or min(part.size) < 1:
        return False
    return bool(
        part.x < box.x - _PUSHED_PX
        or part.y < box.y - _PUSHED_PX
        or part.right > box.right + _PUSHED_PX
        or part.top > box.top + _PUSHED_PX
    )
