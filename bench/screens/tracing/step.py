"""What every step from a picture to a panel has: the flow that it is part of, its title, and its two ends.

A step is a widget with a rule in its own kv file. It reads what the maker said from `flow.draft`, says more
with `flow.change(...)`, looks at `flow.picture`, and goes on with `done`.
"""

from __future__ import annotations

from typing import Any, Literal

from kivy.properties import ObjectProperty, StringProperty

from bench.job.drafts import Draft
from bench.screens.parts.plates import Rows


class Step(Rows):
    """One step of the flow.

    needs: the picture that must be at hand before it is shown: "raw" as it was read, "ready" turned,
    squared up and lightened, "" none. title: what the head says of it.
    """

    needs: Literal["", "raw", "ready"] = ""
    title = StringProperty("")
    flow = ObjectProperty()

    def on_kv_post(self, _base: Any) -> None:
        # Kivy's ids alone would let a part go as soon as it is off the screen
        self._parts = [part.__self__ for part in self.ids.values()]

    @property
    def draft(self) -> Draft:
        return self.flow.draft  # type: ignore[no-any-return]

    def arrive(self) -> None:
        """Be turned to: show what the draft says."""

    def leave(self) -> None:
        """Be turned away from; the flow drops what runs aside."""

    def done(self) -> None:
        """Go on to the next step."""
        self.flow.go_on()

    def back(self) -> None:
        """Go back to the step before."""
        self.flow.go_back()

    def act_on_key(self) -> None:
        """Do the step's one act, as Enter asks for it."""
        self.done()
