"""What stands beside the panel's picture: the next act, or a section's card."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty

from bench.screens.drawing_words import unparted
from bench.screens.parts.plates import Rows
from bench.screens.parts.told import Told  # noqa: F401 - the kv file names it

if TYPE_CHECKING:
    from bench.screens.section_words import SectionFacts


class NextPart(Rows):
    """The one big act, the sentence that says why, and what remains."""

    headline = StringProperty("")
    icon = StringProperty("")
    why = StringProperty("")
    waits = BooleanProperty(False)
    outlook = StringProperty("")
    has_report = BooleanProperty(False)
    low = BooleanProperty(False)  # little height beside a wide picture
    __events__ = ("on_next", "on_report", "on_days", "on_elsewhere")

    def on_next(self) -> None:
        """Bound by the screen."""

    def on_report(self) -> None:
        """Bound by the screen."""

    def on_days(self) -> None:
        """Bound by the screen."""

    def on_elsewhere(self) -> None:
        """Bound by the screen."""

    def on_kv_post(self, _base: Any) -> None:
        self._key = self.ids.report.__self__
        self.bind(has_report=self._offer)
        self._offer()

    def _offer(self, *_: object) -> None:
        key = self._key
        if key.parent is not None and not self.has_report:
            self.remove_widget(key)
        elif key.parent is None and self.has_report:
            self.add_widget(key, index=2)


class WholeKeys(Rows):
    """The keys that are left where the picture has the whole screen: beside it, below it on a tall one."""

    picture = ObjectProperty(None, rebind=True)
    wide = BooleanProperty(True)
    side_in_texts = NumericProperty(3.0)
    __events__ = ("on_close",)

    def on_close(self) -> None:
        """Bound by the screen."""


class SectionPart(Rows):
    """The card of the section that was tapped."""

    head = StringProperty("")
    lines = StringProperty("")
    __events__ = ("on_choose", "on_try", "on_chip", "on_shape", "on_close")

    def on_kv_post(self, _base: Any) -> None:
        names = ("choose", "tries", "chip", "shape", "last")
        self._acts = {name: self.ids[name].__self__ for name in names}

    def show(self, facts: SectionFacts) -> None:
        """Show a section's facts and the acts it allows."""
        self.head, self.lines = facts.head, "\n".join(facts.lines)
        self._acts["choose"].text = unparted(facts.act)
        shown = {"choose": bool(facts.act), "tries": facts.may_try, "last": True}
        self.ids.acts.clear_widgets()
        for name, is_shown in shown.items():
            if is_shown:
                self.ids.acts.add_widget(self._acts[name])
        for name, is_shown in (("chip", facts.may_chip), ("shape", facts.may_shape)):
            act, last = self._acts[name], self._acts["last"]
            if is_shown and act.parent is None:
                last.add_widget(act, index=1)
            elif not is_shown and act.parent is not None:
                last.remove_widget(act)

    def on_choose(self) -> None:
        """Bound by the screen."""

    def on_try(self, stage: str) -> None:
        """Bound by the screen."""

    def on_chip(self) -> None:
        """Bound by the screen."""

    def on_shape(self) -> None:
        """Bound by the screen."""

    def on_close(self) -> None:
        """Bound by the screen."""
