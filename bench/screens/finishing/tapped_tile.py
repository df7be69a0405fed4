"""The tile squared up: the joint of each grout is tapped in it, and a white card if one lies beside it."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, ListProperty, ObjectProperty, OptionProperty, StringProperty

from bench.fault import Fault
from bench.finish.beheld import tint_said
from bench.finish.tile import measured_colour
from bench.job.seeing import compared, known_colours
from bench.screens.parts.plates import Rows
from bench.screens.parts.shades import Shades  # noqa: F401 - the kv file names it
from bench.screens.tracing.found_picture import FoundPicture
from bench.speech import large_first, say

CARD = "\0"  # stands for the white card among the names of grouts, of which it can be none

Point = tuple[float, float]


class TilePicture(FoundPicture):
    """A photo in mm on which a place is tapped; a finger that goes on moves it."""

    __events__ = ("on_spot",)

    def on_touch_up(self, touch: Any) -> bool:
        still = touch.grab_current is self and touch.ud.get("still")
        taken = bool(super().on_touch_up(touch))
        if still:
            self.dispatch("on_spot", self._mm_of(touch))
        return taken

    def on_spot(self, at_mm: Point) -> None:
        """Bound by the part."""


class TappedTile(Rows):
    """Ask for one place after another. `flow` is the screen; state: how the tile was photographed.

    spots: the joint of each grout that was tapped; card_mm: of the white card, None without one.
    """

    flow = ObjectProperty()
    head = StringProperty("")
    says = StringProperty("")
    target = StringProperty("")
    shades = ListProperty()
    state = OptionProperty("dry", options=("dry", "sealed"))
    can_keep = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self.spots: dict[str, Point] = {}
        self.card_mm: Point | None = None
        self._names: list[str] = []
        super().__init__(**kwargs)

    def arrive(self) -> None:
        """Show a tile anew: the card is asked for first, then the grouts that are compared."""
        job = self.flow.job
        chosen = [z.grout.name for z in job.state.finish.in_order if z.grout is not None]
        self._names = list(dict.fromkeys((CARD, *compared(job), *chosen)))
        self.spots, self.card_mm, self.target = {}, None, CARD
        self.ids.picture.lay_under(self.flow.flat.pixels, self.flow.size_mm)
        self._show()

    def add(self, name: str) -> None:
        """Ask for a grout that was not among those compared."""
        plain = " ".join(name.split())
        if plain and plain not in self._names:
            self._names.append(plain)
        self.target = plain or self.target
        self._show()

    def tapped(self, at_mm: Point) -> None:
        """Take a place for what is asked for, and ask for the next that has none."""
        before = dict(self.spots), self.card_mm
        if self.target == CARD:
            self.card_mm = at_mm
        else:
            self.spots[self.target] = at_mm
        try:
            self._colours()
        except Fault as fault:
            self.spots, self.card_mm = before
            self.flow.desk.tell(fault)
            return
        self.flow.desk.clear_fault()
        left = [name for name in self._names if name not in self.spots and name != CARD]
        self.target = left[0] if left else self.target
        self._show()

    def turn_target(self) -> None:
        """Ask for the next name."""
        self.target = self._names[(self._names.index(self.target) + 1) % len(self._names)]
        self._show()

    def turn_state(self) -> None:
        """Say that the tile was photographed dry, or sealed."""
        self.state = "sealed" if self.state == "dry" else "dry"

    def state_said(self, state: str) -> str:
        """Say how the tile was photographed."""
        return say("sealed") if state == "sealed" else say("dry, not sealed")

    def _colours(self) -> dict[str, tuple[int, int, int]]:
        flat = self.flow.flat
        if self.card_mm is not None and not self.spots:
            measured_colour(flat, self.card_mm, self.card_mm)  # a card that is none is told at once
        return {name: measured_colour(flat, at, self.card_mm) for name, at in self.spots.items()}

    def _show(self) -> None:
        colours = self._colours()
        self.head = say("Tap a white card")
        if self.target != CARD:
            self.head = say("Tap the joint of {grout}", grout=tint_said(self.target))
        self.can_keep = bool(self.spots)
        guessed = known_colours(self.flow.job)
        pairs = [(guessed.get(name, colour), colour) for name, colour in colours.items()]
        self.shades = [tuple(v / 255 for v in colour) for pair in pairs for colour in pair]
        named = large_first(", ".join(map(tint_said, colours)))
        if not colours:
            self.says = say("A card or paper beside the tile takes out the light; skip it if there is none.")
        elif self.card_mm is None:
            self.says = say("{grouts}: before, and measured. No card: as photographed.", grouts=named)
        else:
            self.says = say("{grouts}: before, and measured.", grouts=named)
        places = [self.card_mm] if self.card_mm is not None else []
        self.ids.picture.ring([*places, *self.spots.values()])

    def act_on_key(self) -> None:
        """Do the step's one act, as Enter asks for it."""
        if self.can_keep:
            self.flow.keep()
