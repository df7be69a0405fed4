"""Python's collector, kept to the time between frames.

Left to itself it runs wherever something is made, in any thread: then it takes away widgets that nothing
shows any longer while a change is just being told to them, and Kivy's rules fall over the gap
(ReferenceError). Swept between two frames, nobody is being told anything.
"""

from __future__ import annotations

import gc
from typing import Any

from kivy.clock import Clock

EVERY_S = 0.25
REFUSE = 5000  # objects made and not let go since the last sweep, from which on one is worth while


class Sweeper:
    """Sweep now and then, from `begin` to `end`; meanwhile the collector does nothing of its own accord."""

    def __init__(self) -> None:
        self._event: Any = None

    def begin(self) -> None:
        gc.disable()
        self._event = Clock.schedule_interval(self.sweep, EVERY_S)

    def end(self) -> None:
        """Leave the collector to itself again, if it was taken over."""
        if self._event is not None:
            self._event.cancel()
            self._event = None
            gc.enable()

    def sweep(self, _dt: float = 0.0) -> None:
        """Sweep what is young, and after so many times what is older, as the collector itself would."""
        (young, middle, old), (_, often, seldom) = gc.get_count(), gc.get_threshold()
        if young >= REFUSE:
            gc.collect(2 if old > seldom else 1 if middle > often else 0)
