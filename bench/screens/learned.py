"""What the book has learned, as graphs: one at a time, every spot tapped leads to its entry."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty

from bench.pace.graph import Graph, newest
from bench.screens.parts.graph import GraphView  # noqa: F401 - the kv file names it
from bench.screens.stack import stack
from bench.screens.widgets import Rows

MOST_APART = 60  # spots that can still be told apart


class LearnedPart(Rows):
    """One graph on its plate, with what is to be seen in it or what the chosen spot stands for."""

    graph = ObjectProperty(None, allownone=True)
    chosen = NumericProperty(-1)
    whole = BooleanProperty(False)
    title = StringProperty("")
    says = StringProperty("")
    which_text = StringProperty("")
    whole_text = StringProperty("")
    __events__ = ("on_entry",)

    def __init__(self, **kwargs: Any) -> None:
        self._graphs: Sequence[Graph] = ()
        self._at = 0
        super().__init__(**kwargs)

    def on_entry(self, seq: int, panel_id: int) -> None:
        """Bound by the screen."""

    def show(self, graphs: Sequence[Graph]) -> None:
        """Show these graphs, the first one first."""
        self._graphs, self._at, self.whole = graphs, 0, False
        self._lay()

    def turn(self) -> None:
        """Show the next graph, after the last the first."""
        self._at = (self._at + 1) % len(self._graphs)
        self._lay()

    def change_span(self) -> None:
        """Show all spots, or the newest only."""
        self.whole = not self.whole
        self._lay()

    def _lay(self) -> None:
        graph = self._graphs[self._at]
        count = len(graph.spots)
        self.chosen = -1
        self.graph = graph if self.whole else newest(graph, MOST_APART)
        self.title = graph.title
        self.which_text = f"Next ({self._at + 1} of {len(self._graphs)})"
        many = count > MOST_APART
        self.whole_text = (f"Newest {MOST_APART}" if self.whole else f"All {count}") if many else ""
        self._say()

    def _say(self) -> None:
        graph = self._graphs[self._at]
        self.says = graph.says if self.chosen < 0 else self.graph.spots[int(self.chosen)].says

    # -- spots -------------------------------------------------------------------------------------------

    def choose(self, number: int) -> None:
        """Put the ring round a spot and say what it stands for."""
        self.chosen = number
        self._say()

    def step(self, by: int) -> None:
        """Choose the spot before or after; without one, the newest."""
        count = len(self.graph.spots)
        if count:
            self.choose(count - 1 if self.chosen < 0 else min(max(0, int(self.chosen) + by), count - 1))

    def to_entry(self) -> None:
        """Lead to the entry of the chosen spot."""
        if self.chosen >= 0:
            spot = self.graph.spots[int(self.chosen)]
            self.dispatch("on_entry", spot.seq, spot.panel_id)


class LearnedActs(Rows):
    """What can be done with the graphs, beside them."""

    part = ObjectProperty(None, allownone=True, rebind=True)
    cols = NumericProperty(1)
    __events__ = ("on_words", "on_close")

    def on_kv_post(self, _base: Any) -> None:
        self._all = [child.__self__ for child in reversed(self.ids.grid.children)]
        self._whole = self.ids.whole.__self__
        self._offer()

    def on_part(self, _acts: object, part: Any) -> None:
        part.bind(whole_text=self._offer)

    def _offer(self, *_: object) -> None:
        """Have the key for all spots only where there are more than are shown."""
        many = self.part is not None and bool(self.part.whole_text)
        stack(self.ids.grid, [one for one in self._all if many or one is not self._whole])

    def on_words(self) -> None:
        """Bound by the screen."""

    def on_close(self) -> None:
        """Bound by the screen."""
