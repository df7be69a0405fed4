"""What the book has learned, as graphs: one at a time, every spot tapped leads to its entry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, OptionProperty, StringProperty

from bench.job.acts.lasting import Lasting
from bench.pace.graph import Graph, newest
from bench.screens.parts.graph import GraphView  # noqa: F401 - the kv file names it
from bench.screens.parts.split import SIDE_IN_TEXTS
from bench.screens.stack import stack
from bench.screens.widgets import Rows
from bench.speech import say

MOST_APART = 60  # spots that can still be told apart


class LearnedPart(Rows):
    """One graph on its plate, with what is to be seen in it or what the chosen spot stands for.

    A flat one leaves what is to be seen to 'In words'.
    """

    graph = ObjectProperty(None, allownone=True)
    chosen = NumericProperty(-1)
    whole = BooleanProperty(False)
    flat = BooleanProperty(False)
    title = StringProperty("")
    says = StringProperty("")
    which_text = StringProperty("")
    whole_text = StringProperty("")
    lasting_text = StringProperty("")
    __events__ = ("on_entry",)

    def __init__(self, **kwargs: Any) -> None:
        self._graphs: Sequence[Graph] = ()
        self._lives: dict[str, Lasting] = {}
        self._at = 0
        super().__init__(**kwargs)

    def on_entry(self, seq: int, panel_id: int) -> None:
        """Bound by the screen."""

    def show(self, graphs: Sequence[Graph], lives: Mapping[str, Lasting]) -> None:
        """Show these graphs, the first one first. lives: what the book shows of each adhesive."""
        self._graphs, self._at, self.whole = graphs, 0, False
        self._lives = dict(lives)
        self._lay()

    def keep(self, graphs: Sequence[Graph], adhesive: str, shown: Lasting) -> None:
        """Follow what was said of an adhesive, on the same graph."""
        self._graphs = graphs
        self._lives[adhesive] = shown
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
        self.which_text = say("Next ({page} of {pages})", page=self._at + 1, pages=len(self._graphs))
        many = count > MOST_APART
        span = say("Newest {count}", count=MOST_APART) if self.whole else say("All {count}", count=count)
        self.whole_text = span if many else ""
        life = self._lives.get(graph.about)
        self.lasting_text = "" if life is None else _offered(life)
        self._say()

    def _say(self) -> None:
        graph = self._graphs[self._at]
        life = self._lives.get(graph.about)
        shown = f" {_told(life)}" if life is not None and _offered(life) else ""
        said = f"{graph.says}{shown}"
        self.says = said if self.chosen < 0 else self.graph.spots[int(self.chosen)].says

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


def _offered(life: Lasting) -> str:
    """Name the act that a maker may do about an adhesive's life, "" for none."""
    if life.allowed:
        return say("Hold it to the label")
    return say("Let it last longer") if life.may_ask else ""


def _told(life: Lasting) -> str:
    longer = {"percent": 100 * (life.ratio - 1), "count": life.exact}
    if life.allowed:
        return say(
            "You let it last as shown: {percent:.0f} % longer than the label, "
            "by {count} mixes that went stringy.",
            **longer,
        )
    return say(
        "It lasts {percent:.0f} % longer than the label, by {count} mixes that went stringy; "
        "sections stay with the label unless you say otherwise.",
        **longer,
    )


class LearnedActs(Rows):
    """What can be done with the graphs, beside them."""

    part = ObjectProperty(None, allownone=True, rebind=True)
    lie = OptionProperty("wide", options=("wide", "tall"))
    low = BooleanProperty(False)
    side_in_texts = NumericProperty(SIDE_IN_TEXTS)
    few = BooleanProperty(True)  # that many stand below one another where it is low
    __events__ = ("on_words", "on_close", "on_lengthen")

    def on_kv_post(self, _base: Any) -> None:
        self._all = [child.__self__ for child in reversed(self.ids.grid.children)]
        self._whole = self.ids.whole.__self__
        self._lasting = self.ids.lasting.__self__
        self._offer()

    def on_part(self, _acts: object, part: Any) -> None:
        part.bind(whole_text=self._offer, lasting_text=self._offer)

    def _offer(self, *_: object) -> None:
        """Have the key for all spots, and the one for a longer life, only where they do something."""
        many = self.part is not None and bool(self.part.whole_text)
        asks = self.part is not None and bool(self.part.lasting_text)
        wanted = {self._whole: many, self._lasting: asks}
        self.few = not (many or asks)
        stack(self.ids.grid, [one for one in self._all if wanted.get(one, True)])

    def on_words(self) -> None:
        """Bound by the screen."""

    def on_lengthen(self, adhesive: str) -> None:
        """Bound by the screen."""

    def on_close(self) -> None:
        """Bound by the screen."""
