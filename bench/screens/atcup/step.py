"""What every step at the cup has: the desk it works on, and a way to turn to another view."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty

from bench.screens.parts.plates import Rows

LOW_DP = 600
Turn = Callable[[str], None]


class CupStep(Rows):
    """One step. `turn` names the view beside it to be shown, '' for the step itself."""

    desk = ObjectProperty()
    section = NumericProperty(0)
    wide = NumericProperty(1)
    low = BooleanProperty(False)  # little height on a wide screen

    def __init__(self, *, desk: Any, turn: Turn, **kwargs: Any) -> None:
        self.turn = turn
        super().__init__(desk=desk, **kwargs)

    @property
    def is_two_part(self) -> bool:
        """Whether the section's adhesive is mixed, and not ready as it comes."""
        job = self.desk.job
        return bool(job.product(job.section(self.desk.section).adhesive).is_two_part)

    def on_kv_post(self, _base: Any) -> None:
        # Kivy's ids alone would let a part go as soon as it is off the screen
        self._parts = [part.__self__ for part in self.ids.values()]

    def on_size(self, _step: object, size: tuple[float, float]) -> None:
        self.wide = int(size[0] >= size[1])
        self.low = bool(self.wide) and size[1] < LOW_DP * dp(1)

    def refresh(self) -> None:
        """Read again what the step shows."""

    def act_on_key(self) -> bool:
        """Do the step's one act, as a pedal asks for it; False where a pedal must not do it."""
        return False

    def elsewhere(self) -> None:
        """Go round the bench; the cup stays as it is."""
        self.desk.go("rounds")

    def put_away(self) -> None:
        """Leave the cup before resin meets hardener."""
        from bench.job.acts import cup

        mix = self.desk.job.state.mix_at_cup
        if mix is None:
            self.desk.go("panel")
            return
        done, _ = self.desk.attempt(cup.put_away, mix.number)
        if done:
            self.desk.go("panel")
