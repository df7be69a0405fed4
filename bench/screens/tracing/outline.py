"""The first step of an empty panel: how large it is, and its outline."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.clock import Clock
from kivy.graphics import Color, InstructionGroup, Line
from kivy.properties import BooleanProperty, ColorProperty, StringProperty

from bench.drawing.study import Outline, Study
from bench.drawing.study.mixing import plain_region
from bench.drawing.study.outline import outline_labels
from bench.fault import Fault
from bench.job.studying import GROUND
from bench.screens.open import LEAST_MM, MOST_MM
from bench.screens.parts.acts import SideAct
from bench.screens.parts.choice import Choice
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.screens.tracing.area_words import length_or_ask
from bench.screens.tracing.areas_picture import AreasPicture, flat  # noqa: F401 - named by the kv file
from bench.screens.tracing.step import Step
from bench.speech import area, say

_MORE: dict[str, tuple[str, ...]] = {  # what a shape asks beside width and height
    "rectangle": (),
    "oval": (),
    "l": ("cut_width_mm", "cut_height_mm"),
    "ring": ("ring_mm",),
}
_SKETCH = 0.55  # of the height of its key


class ShapeAct(SideAct):
    """One shape, drawn as a line: told at a glance, without words; the one that is chosen is inverted."""

    shape = StringProperty("")
    current = StringProperty("")
    ink = ColorProperty((0, 0, 0, 1))

    def __init__(self, **kwargs: Any) -> None:
        self._group = InstructionGroup()
        super().__init__(**kwargs)
        self.canvas.add(self._group)
        self.bind(pos=self._draw, size=self._draw, shape=self._draw, ink=self._draw)

    def _draw(self, *_: object) -> None:
        self._group.clear()
        high = round(_SKETCH * self.height)
        wide = min(round(1.2 * high), self.width - 2 * theme.gap)
        x, y = round(self.center_x - wide / 2), round(self.center_y - high / 2)
        self._group.add(Color(*self.ink))
        for line in _lines(self.shape, x, y, wide, high):
            self._group.add(Line(width=theme.line, **line))


def _lines(shape: str, x: float, y: float, wide: float, high: float) -> list[dict[str, Any]]:
    outer = {"ellipse": (x, y, wide, high)}
    inner = {"ellipse": (x + wide / 4, y + high / 4, wide / 2, high / 2)}
    return {
        "rectangle": [{"rectangle": (x, y, wide, high)}],
        "oval": [outer],
        "ring": [outer, inner],
        "l": [{"points": _l_points(x, y, wide, high), "close": True}],
    }.get(shape, [])


def _l_points(x: float, y: float, wide: float, high: float) -> tuple[float, ...]:
    right, top, middle, half = x + wide, y + high, x + wide / 2, y + high / 2
    return x, y, right, y, right, half, middle, half, middle, top, x, top


class OutlineStep(Step):
    """Ask for width, height and shape, and show what they come to."""

    head = StringProperty("")
    says = StringProperty("")
    shape = StringProperty("rectangle")
    width_text = StringProperty("")
    height_text = StringProperty("")
    wants_width = BooleanProperty(False)
    wants_height = BooleanProperty(False)
    asking = BooleanProperty(False)
    fits = BooleanProperty(False)
    _above: Sequence[Any] = ()  # what stands at the side above the shapes

    def on_kv_post(self, base: Any) -> None:
        super().on_kv_post(base)
        self.remove_widget(self.ids.ask)
        self._more = {name: self._asker(name) for some in _MORE.values() for name in some}
        self._above = [part for part in reversed(self.ids.side.children) if part not in self._last]
        self._later = Clock.create_trigger(self._lay_shapes, -1)  # not while it is being laid out
        self._lay_shapes()

    def _asker(self, name: str) -> Choice:
        text = say("The ring") if name == "ring_mm" else say("Cut out")
        choice = Choice(text=text, test_name=name, lines=2)
        choice.bind(on_act=lambda _choice: self.ask(name, text))
        return choice

    @property
    def _last(self) -> tuple[Any, Any]:
        return self.ids.shapes.__self__, self.ids.ends.__self__

    def lay_shapes(self) -> None:
        """Have the shapes where there is room for them, once it is laid out."""
        if self._above:
            self._later()

    def _lay_shapes(self, *_: object) -> None:
        """Have the shapes below the others, or where there is little height below the picture."""
        shapes, ends = self._last
        low = self.ids.split.low
        stack(self.ids.side, [*self._above, *([] if low else [shapes]), ends])
        stack(self.ids.main, [self.ids.picture.__self__, *([shapes] if low else [])])

    def arrive(self) -> None:
        self._say()

    def _say(self) -> None:
        """Show the outline, or say what is still to be told."""
        draft = self.draft
        self.shape = draft.outline.shape
        self.width_text, self.height_text = length_or_ask(draft.width_mm), length_or_ask(draft.height_mm)
        self.wants_width = draft.width_mm is None
        self.wants_height = draft.width_mm is not None and draft.height_mm is None
        self.fits = False
        if draft.width_mm is None or draft.height_mm is None:
            stack(self.ids.more, [])
            self.head, self.says = say("An empty panel"), say("Type its width and height.")
            return
        size_mm = (draft.width_mm, draft.height_mm)
        self._ask_more(draft.outline, size_mm)
        try:
            labels = outline_labels(draft.outline, size_mm, draft.name)
        except Fault as fault:
            self.head = say("No such panel")
            self.says = fault.sentence
            return
        self.fits = True
        study = Study(labels, size_mm, (plain_region(GROUND, 6.0),))
        self.ids.picture.show_under(flat(study, [GROUND]), size_mm)
        self.ids.picture.show_areas(study)
        self.head = area(study.area_mm2()[0], 1)
        self.says = say("Next you draw areas on it.")

    def _ask_more(self, outline: Outline, size_mm: tuple[float, float]) -> None:
        cut = outline.cut_mm(size_mm)
        across, down, wide = map(length_or_ask, (*cut, outline.ring_width_mm(size_mm)))
        self._more["cut_width_mm"].says = say("{length} across", length=across)
        self._more["cut_height_mm"].says = say("{length} down", length=down)
        self._more["ring_mm"].says = say("{length} wide", length=wide)
        stack(self.ids.more, [self._more[name] for name in _MORE[outline.shape]])

    def choose(self, shape: str) -> None:
        """Take another shape."""
        self._change(shape=shape)

    def _change(self, **update: Any) -> None:
        outline = Outline.model_validate({**self.draft.outline.model_dump(), **update})
        self.flow.change(outline=outline)
        self._say()

    # -- numbers -----------------------------------------------------------------------------------------

    def ask(self, name: str, text: str) -> None:
        """Ask for a length."""
        is_side = name in ("width_mm", "height_mm")
        least = LEAST_MM if is_side else 1.0
        use = lambda mm: self._set(name, mm)  # noqa: E731
        self.ids.ask.ask_length(text, use, least_mm=least, most_mm=MOST_MM)
        self.asking = True
        self.ids.split.put_main(self.ids.ask)

    def leave_pad(self) -> None:
        """Look at the panel again."""
        self.asking = False
        self.ids.split.put_main(self.ids.main)

    def _set(self, name: str, length_mm: float) -> None:
        if name in ("width_mm", "height_mm"):
            self.flow.change(**{name: length_mm})
            self._say()
        else:
            self._change(**{name: length_mm})

    def act_on_key(self) -> None:
        if self.asking:
            self.ids.ask.ids.pad.use()
        elif self.fits:
            self.done()
