"""What every screen is: a sheet that is told of the desk, follows the book, and follows the clock.

The house makes a screen when it is first turned to. It calls `arrive` each time it is turned to, `refresh`
whenever the book has changed, and `tick` twice a second while the screen is shown.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.job.job import Job

SEEN_S = 0.1  # two frames on a slow screen


class Screen(BoxLayout):
    """Base of the screens.

    title: what the head of the house says. bare: the screen takes the whole window and brings its own way
    elsewhere, `desk.go("rounds")`. busy: what it is doing that takes a while, "" for nothing.
    """

    desk = ObjectProperty(None)
    title = StringProperty("")
    test_name = StringProperty("")
    bare = BooleanProperty(False)
    busy = StringProperty("")

    @property
    def job(self) -> Job:
        return self.desk.job  # type: ignore[no-any-return]

    def hold(self, *names: str) -> dict[str, Any]:
        """Take parts that the kv file names off the screen and keep them, to be shown when they are needed.

        Kivy's `ids` alone would let a part go as soon as it is off the screen.
        """
        parts: dict[str, Any] = {name: self.ids[name].__self__ for name in names}
        for part in parts.values():
            if part.parent is not None:
                part.parent.remove_widget(part)
        return parts

    def soon(self, words: str, act: Callable[[], object]) -> None:
        """Say what takes a while, let that be seen, and then do it."""
        self.busy = words

        def now(_dt: float) -> None:
            try:
                act()
            finally:
                self.busy = ""

        Clock.schedule_once(now, SEEN_S)

    @property
    def gloves_on(self) -> bool:
        """Return whether hands in gloves are at work here, so that the screen is kept awake."""
        return False

    @property
    def shown_part(self) -> str:
        """Return what is shown, where parts are as unlike as screens; a new title tells of a turn."""
        return ""

    def arrive(self) -> None:
        """Be turned to: forget what was half done here."""

    def refresh(self) -> None:
        """Follow the book."""

    def tick(self) -> None:
        """Follow the clock."""

    def step_back(self) -> bool:
        """Go back from a part to what the screen shows first; False where it shows that."""
        return False

    def elsewhere(self, *_: Any) -> None:
        """Go round the bench."""
        self.desk.go("rounds")
