"""The first step: the picture large; which way up it is, and how light."""

from __future__ import annotations

from kivy.properties import BooleanProperty, StringProperty

from bench.drawing.photo import paper_mm, tone, turned, whole
from bench.drawing.photo.adjust import MOST_STEPS
from bench.screens.parts.photo import Photo  # noqa: F401 - the kv file names it
from bench.screens.tracing.step import Step
from bench.speech import say, unbroken
from bench.speech import size as true_size


class PictureStep(Step):
    """Turn by quarters, lighten or darken by steps; the file itself is never changed."""

    needs = "raw"
    name = StringProperty("")
    says = StringProperty("")
    lightest = BooleanProperty(False)
    darkest = BooleanProperty(False)

    def arrive(self) -> None:
        self.name = self.draft.name
        self._draw()

    def turn(self, quarters: int) -> None:
        """Turn by quarters, clockwise."""
        self.flow.take(self.draft.turned_by(quarters % 4, self.draft.size_px(self.flow.picture)))
        self._draw()

    def lighten(self, steps: int) -> None:
        """Lighten by so many steps."""
        lighten = min(max(self.draft.lighten + steps, -MOST_STEPS), MOST_STEPS)
        self.flow.change(lighten=lighten)
        self._draw()

    def _draw(self) -> None:
        draft, picture = self.draft, self.flow.picture
        self.ids.photo.show(turned(picture.pixels, draft.turned), tone(draft.lighten))
        self.lightest, self.darkest = draft.lighten >= MOST_STEPS, draft.lighten <= -MOST_STEPS
        size = draft.size_px(picture)
        self.says = say("{wide:,} × {high:,} pixels", wide=size[0], high=size[1])
        if picture.mm_per_px is not None:
            paper = paper_mm(whole(size), picture.mm_per_px)
            self.says = say("{pixels}, {paper}", pixels=self.says, paper=unbroken(true_size(*paper)))
