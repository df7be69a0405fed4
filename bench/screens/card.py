"""True size: hold a bank card to the glass and make the drawn one as large; then a millimetre is known.

A tablet's own word on its density is rounded and cannot be trusted. A bank card is 85.60 × 53.98 mm wherever
it comes from: ISO/IEC 7810, size ID-1.
"""

from __future__ import annotations

from typing import Any

from kivy.metrics import Metrics, dp
from kivy.properties import NumericProperty

from bench.fault import Fault
from bench.screens.parts.drawn import Drawn
from bench.screens.screen import Screen
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say
from bench.speech.measures import MM_PER_INCH

CARD_MM = (85.60, 53.98)
LEAST_PX = 120
_HANDLE_DP = 40


class DrawnCard(Drawn):
    """A card from one edge of the room onwards, its other edge to be moved; long where the room is long.

    long_px: its long side. A finger anywhere moves the far edge by as much as it moves, so that it need not
    be hit, and no hand lies over it.
    """

    WATCHED = ("long_px",)
    long_px = NumericProperty(500.0)

    def __init__(self, **kwargs: Any) -> None:
        self._wanted_px = 500.0  # in a room that is too small for it, less is drawn
        super().__init__(**kwargs)
        self.bind(size=lambda *_: self.grow(0.0))

    @property
    def lies(self) -> bool:
        """Whether its long side lies across."""
        return bool(self.width >= self.height)

    def _fitting(self, long_px: float) -> float:
        return min(max(long_px, LEAST_PX), max(max(self.size) - 2 * dp(_HANDLE_DP), LEAST_PX))

    def begin(self, long_px: float) -> None:
        """Draw it so long."""
        self._wanted_px = long_px
        self.grow(0.0)

    def box_px(self) -> tuple[float, float, float, float]:
        """Return x, y, width, height of the drawn card in the window."""
        long_px, short_px = self.long_px, self.long_px * CARD_MM[1] / CARD_MM[0]
        width, height = (long_px, short_px) if self.lies else (short_px, long_px)
        if self.lies:
            return self.x + dp(_HANDLE_DP), self.top - height, width, height
        return self.x, self.top - dp(_HANDLE_DP) - height, width, height

    def grow(self, by_px: float) -> None:
        """Make its long side longer, within the room."""
        if by_px:
            self._wanted_px = self._fitting(self.long_px + by_px)
        self.long_px = self._fitting(self._wanted_px)

    def draw(self) -> None:
        x, y, width, height = self.box_px()
        reach = dp(_HANDLE_DP)
        if self.lies:
            low = max(y, self.y)
            self.line([x, self.top, x + width, self.top], 1)
            for edge in (x, x + width):
                self.line([edge, self.y, edge, self.top], 1)
            self.line([x, low, x + width, low], 1)
            self._arrow(x + width, (self.top + low) / 2, reach, across=True)
        else:
            for edge in (y, y + height):
                self.line([self.x, edge, self.right, edge], 1)
            for side in (x, min(x + width, self.right)):
                self.line([side, y, side, y + height], 1)
            self._arrow(min(x + width / 2, self.center_x), y, reach, across=False)

    def _arrow(self, x: float, y: float, reach: float, *, across: bool) -> None:
        """Show which edge moves, and which way."""
        for sign in (-1, 1):
            tip = sign * abs(reach) * 0.8
            side = abs(reach) * 0.3
            if across:
                self.line([x + sign * dp(4), y, x + tip, y], 2.5)
                self.line([x + tip - sign * side, y - side, x + tip, y, x + tip - sign * side, y + side], 2.5)
            else:
                self.line([x, y + sign * dp(4), x, y + tip], 2.5)
                self.line([x - side, y + tip - sign * side, x, y + tip, x + side, y + tip - sign * side], 2.5)

    def on_touch_down(self, touch: Any) -> bool:
        if not self.collide_point(*touch.pos):
            return False
        touch.grab(self)
        return True

    def on_touch_move(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        self.grow(touch.dx if self.lies else -touch.dy)
        return True

    def on_touch_up(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        return True


class CardScreen(Screen):
    """Measure the screen against a card; what is found is kept for this machine."""

    def arrive(self) -> None:
        """Begin with what was found before, else with what the machine says of itself."""
        self._from = self.desk.came_from
        known = self.desk.device.settings.px_per_mm or Metrics.dpi / MM_PER_INCH
        self.ids.card.begin(round(known * CARD_MM[0]))

    def __init__(self, **kwargs: Any) -> None:
        self._from = "panel"
        super().__init__(**kwargs)
        self._says, *self._rest = reversed(self.children)
        self.bind(size=self._lay)
        theme.bind(small=self._lay)

    def _lay(self, *_: object) -> None:
        """Where there is little height the card has it, and the title says what to do."""
        room_px = self.height - 2 * (theme.target + theme.gap) - 2 * theme.gap - 2.6 * theme.small
        low = room_px < 1.5 * theme.target
        stack(self, [*([] if low else [self._says]), *self._rest])
        self.title = say("Match a card") if low else say("True size")

    def move(self, steps: int) -> None:
        """Move the edge by a pixel, or by ten."""
        self.ids.card.grow(steps)

    def keep(self) -> None:
        """The drawn card is as large as the real one."""
        try:
            self.desk.device.change(px_per_mm=self.ids.card.long_px / CARD_MM[0])
        except Fault as fault:
            self.desk.tell(fault)
            return
        self.leave()

    def leave(self) -> None:
        """Go back to where it was asked for."""
        self.desk.go(self._from)
