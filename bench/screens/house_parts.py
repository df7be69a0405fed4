"""What stands round the screens: the head with the way elsewhere, plates for what runs or must be read."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from kivy.properties import BooleanProperty, StringProperty
from kivy.uix.widget import Widget

from bench.fault import Fault
from bench.screens.gluing.words import mood_word
from bench.screens.parts.acts import Act
from bench.screens.parts.numbers import minutes_text
from bench.screens.parts.plates import Card, Notice, Row, Rows
from bench.speech import large_first, say

if TYPE_CHECKING:
    from bench.job.glue_sheet import GlueSheet


class Head(Row):
    """The title of the screen and the key that leads round the bench."""

    title = StringProperty("")
    key_text = StringProperty("")
    key_icon = StringProperty("")
    left_handed = BooleanProperty(False)
    __events__ = ("on_elsewhere",)

    def on_elsewhere(self) -> None:
        """Bound by the house."""

    def on_left_handed(self, _head: object, left_handed: bool) -> None:
        """Put the key under the hand that works it."""
        parts = [self.ids[name].__self__ for name in (("key", "plate") if left_handed else ("plate", "key"))]
        self.clear_widgets()
        for part in parts:
            self.add_widget(part)


class ReadingPlate(Card):
    """Says, as long as it is so, that nothing can be written."""

    text = StringProperty("")


class Sheet(Rows):
    """What must be read before the work goes on; it takes the place of a screen, never of a countdown."""

    def __init__(self, notice: Notice, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.notice = notice
        self.add_widget(notice)
        self.add_widget(Widget())  # the rest of the sheet


class Watch(Act):
    """A mix that runs: its time left, and the way back to it."""


def parts_of(fault: Fault) -> tuple[str, str, str]:
    """Return what a card says of a piece of news; where a file lies is for the command line to tell."""
    return "", large_first(fault.what), fault.todo


def tell_on(card: Notice, where: str, what: str, todo: str) -> None:
    """Have a card say what is wrong, where, and what to do."""
    card.title = large_first(f"{where}: {what}" if where else what)
    card.text = f"{large_first(todo)}." if todo else ""


def follow_mixes(desk: Any, watches: dict[int, Watch]) -> None:
    """Have the plates of running mixes, by number, say how each of them stands."""
    from bench.screens.gluing.alarm import alarm_of  # a start without a mix does not wait for it

    sheets = alarm_of(desk).look()
    for number in watches.keys() & sheets.keys():
        watches[number].text = watch_words(sheets[number])


def watch_words(sheet: GlueSheet) -> str:
    """Say which section is being set elsewhere, how long that may last, and what hour it is for the hands."""
    section, left = sheet.section, minutes_text(sheet.left_s)
    if sheet.unsure:
        return say("Section {section} is being set: clock unsure", section=section)
    if sheet.mood == "working":
        return say("Section {section} is being set: {left} left", section=section, left=left)
    mood = mood_word(sheet.mood)
    return say("Section {section} is being set: {left} left, {mood}", section=section, left=left, mood=mood)
