"""The pieces that were found in the photo: how many, what was drawn, and what is corrected by hand."""

from __future__ import annotations

from collections import deque
from typing import Any

from kivy.properties import BooleanProperty, ObjectProperty, StringProperty

from bench.drawing.dry import Compared, Correction, Found, compared, corrected, stroked, tapped
from bench.fault import Fault
from bench.job.acts.dry_photo import said_again
from bench.screens.drying.laid_picture import LaidPicture  # noqa: F401 - the kv file names it
from bench.screens.parts.plates import Rows
from bench.screens.tracing.found_picture import MOST_RINGS
from bench.speech import length, say, say_n

MOST_STEPS_KEPT = 6  # of what was found before a correction; older ones are worked out again


class LaidPieces(Rows):
    """Outline what was found, follow taps and strokes, and offer the count. `flow` is the screen."""

    flow = ObjectProperty()
    count_text = StringProperty("")
    says = StringProperty("")
    how = StringProperty("")
    drawing = BooleanProperty(False)
    fill_text = StringProperty("")
    can_fill = BooleanProperty(False)
    can_take_back = BooleanProperty(False)
    can_count = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self.proposed: Found | None = None
        self.found: Found | None = None
        self.corrections: tuple[Correction, ...] = ()
        self._before: deque[Found] = deque(maxlen=MOST_STEPS_KEPT)
        self._at_once: list[int] = []  # how many words were said with each act
        self._gaps: list[tuple[float, float]] = []
        super().__init__(**kwargs)

    def arrive(self, proposed: Found, found: Found, corrections: tuple[Correction, ...]) -> None:
        """Show a photo anew, with what was found in it and what has been said of that."""
        self.proposed, self.found, self.corrections = proposed, found, corrections
        self._before.clear()
        self._at_once = [1] * len(corrections)
        self.drawing = False
        self.ids.picture.lay_under(self.flow.flat.pixels, found.size_mm)
        self._show()

    # -- correcting --------------------------------------------------------------------------------------

    def tapped(self, x_mm: float, y_mm: float, slack_mm: float) -> None:
        """Take a piece away, or add one."""
        self._say_of(tapped(self.found, x_mm, y_mm, slack_mm))

    def stroked(self, points_mm: list[tuple[float, float]]) -> None:
        """Part a piece, or make two one."""
        self.ids.picture.wipe()
        if points_mm:
            self._say_of(stroked(self.found, points_mm))

    def fill_gaps(self) -> None:
        """Add a piece wherever a drawn one seems to be missing: white on white is easily passed over."""
        self._say_of(*(Correction(kind="added", points_mm=(place,)) for place in self._gaps))

    def _say_of(self, *said: Correction) -> None:
        """Say one thing, or several at once, of which those that cannot be are passed over."""
        assert self.found is not None
        after, held = said_again(self.found, said) if len(said) > 1 else (None, said)
        if after is None:
            try:
                after = corrected(self.found, said)
            except Fault as fault:
                self.how = fault.sentence
                return
        self._before.append(self.found)
        self.found, self.corrections = after, (*self.corrections, *held)
        self._at_once.append(len(held))
        self._show()

    def take_back(self) -> None:
        """Take back what was said last, all of it where several words were said at once."""
        assert self.proposed is not None
        self.corrections = self.corrections[: len(self.corrections) - self._at_once.pop()]
        self.found = self._before.pop() if self._before else corrected(self.proposed, self.corrections)
        self._show()

    def turn_drawing(self) -> None:
        """Let the finger draw, or move the photo again."""
        self.drawing = not self.drawing
        self._tell_how()

    def _tell_how(self) -> None:
        if self.drawing:
            self.how = say("Draw across a piece to part it, or from one into the next to join them.")
        else:
            self.how = say("Tap a piece that is none, or bare ground where one lies.")

    # -- what it comes to --------------------------------------------------------------------------------

    def _show(self) -> None:
        assert self.found is not None
        task, picture = self.flow.task, self.ids.picture
        told = compared(self.found, task.panel, task.tesserae, task.frame)
        self.count_text = str(self.found.count)
        self.says = in_words(told, int(self.found.by_edges.sum()))
        self._tell_how()
        self.can_take_back, self.can_count = bool(self._at_once), self.found.count > 0
        picture.show_laid(self.found)
        gaps = task.frame.in_photo(task.panel.centroid_mm[list(told.gaps)]) if told.gaps else ()
        self._gaps = [(float(x), float(y)) for x, y in gaps]
        self.can_fill = bool(self._gaps)
        self.fill_text = say_n("Fill {count} gap", "Fill {count} gaps", len(self._gaps))
        picture.ring(self._gaps)

    def act_on_key(self) -> None:
        """Do the step's one act, as Enter asks for it."""
        if self.can_count:
            self.flow.count()


def in_words(told: Compared, by_edges: int) -> str:
    """Say how the pieces compare with what was drawn."""
    said = [say("{count} drawn", count=told.drawn)]
    gaps = len(told.gaps)
    if gaps > MOST_RINGS:
        said.append(say("{count} gaps, {ringed} ringed", count=gaps, ringed=MOST_RINGS))
    elif gaps:
        said.append(say_n("{count} gap", "{count} gaps", gaps))
    if told.added:
        said.append(say("{count} added", count=len(told.added)))
    if told.pairs:
        said.append(say("half lie within {shift}", shift=length(max(0.1, told.shift_mm), 1)))
    if by_edges:
        said.append(
            say_n("{count} told by its edges only", "{count} told by their edges only", by_edges)
        )
    return "; ".join(said) + "."
