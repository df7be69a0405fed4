"""This tablet: how it speaks, looks and moves, how large its text is, its keys and its true size.

None of it is of a panel, and none of it is in the book's log.
"""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty, StringProperty

from bench.book import PEDAL_ACTS
from bench.fault import Fault
from bench.job.settings import LOOK, TEXT_SCALE
from bench.screens.keys import Keyed
from bench.screens.parts.stepper import Stepper  # noqa: F401 - named by the kv file
from bench.screens.setting import Setting
from bench.screens.setup import SetupScreen
from bench.screens.stack import stack
from bench.screens.tablet_choices import OF_SPEECH, tablet_settings
from bench.screens.theme import theme
from bench.screens.widgets import Rows
from bench.speech import say

KEPT_AS = {"look": LOOK, "text_scale": TEXT_SCALE}
TEXT_STEP, LEAST_TEXT, MOST_TEXT = 0.05, 0.85, 1.5
LINE = 1.25  # heights of its type that a line of text takes
NEVER = ("escape", "tab", "")  # they lead round the screen


def act_words() -> dict[str, str]:
    """Return what a key may do, in the language spoken."""
    return {
        "contact": say("First contact"),
        "count": say("Count"),
        "pause": say("Pause, go on"),
        "stringy": say("Stringy"),
        "done": say("Done"),
    }


class TextPart(Rows):
    """Text larger or smaller, seen at once."""

    scale = NumericProperty(1.0)
    __events__ = ("on_scale_chosen", "on_close")

    def step(self, by: int) -> None:
        """Take the next size, in steps of a twentieth."""
        wanted = round(self.scale / TEXT_STEP + by) * TEXT_STEP
        self.scale = round(min(max(wanted, LEAST_TEXT), MOST_TEXT), 2)
        self.dispatch("on_scale_chosen", self.scale)

    def on_scale_chosen(self, scale: float) -> None:
        """Bound by the screen."""

    def on_close(self) -> None:
        """Bound by the screen."""


class PedalPart(Keyed, Rows):
    """Say what a key does: tap what it is to do, then press the key or the pedal."""

    asked = StringProperty("")
    says = StringProperty("")
    __events__ = ("on_close",)

    def __init__(self, *, desk: Any, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(**kwargs)
        self._low = False
        self._rows = {act: self.ids[act].__self__ for act in PEDAL_ACTS}
        self._says, *self._rest = reversed(self.children)
        self.bind(size=self._lay)
        theme.bind(text=self._lay)

    def _lay(self, *_: object) -> None:
        """Where there is little height the rows say enough."""
        row_px = max(theme.target, LINE * (theme.text + theme.small) + theme.gap)
        needed_px = theme.target + 2 * row_px + LINE * theme.small + 2 * theme.pad + 3 * theme.gap
        self._low = self.width >= self.height and self.height < needed_px
        stack(self, [*([] if self._low else [self._says]), *self._rest])
        self.follow()

    def begin(self) -> None:
        """Show which key does what, with none asked for."""
        self.asked = ""
        self.follow()

    def follow(self) -> None:
        keys, words = self.desk.device.settings.keys, act_words()
        for act, row in self._rows.items():
            told = say("Press the key now") if act == self.asked else _key_words(keys.get(act, ""))
            row.text, row.says = words[act], told
            if self._low:
                both = f"{words[act]} {keys.get(act, '')}".strip()
                row.text, row.says = told if act == self.asked else both, ""
            row.chosen = act == self.asked
        self.says = (
            say("Press the key or the pedal for: {act}.", act=words[self.asked])
            if self.asked
            else say("A pedal is a keyboard to the tablet. Done must be held for a second, or pressed twice.")
        )

    def ask(self, act: str) -> None:
        """Have the next key do this; a second tap asks for none."""
        self.asked = "" if act == self.asked else act
        for row in self._rows.values():
            row.focus = False  # or Enter would tap the row again
        self.follow()

    def forget(self) -> None:
        """Have no key of its own for anything."""
        self._keep(self.desk.device.forget_keys)

    def _keep(self, change: Any, *args: str) -> None:
        try:
            change(*args)
        except Fault as fault:
            self.desk.tell(fault)
        self.begin()

    def on_key(self, name: str) -> bool:
        if not self.asked or name in NEVER:
            return False
        self._keep(self.desk.device.learn_key, self.asked, name)
        return True

    def on_close(self) -> None:
        """Bound by the screen."""


def _key_words(key: str) -> str:
    names = {
        "spacebar": say("Space"),
        "enter": say("Enter"),
        "numpadenter": say("Enter of the number pad"),
    }
    return names.get(key, key.upper() if len(key) < 4 else key) if key else say("No key yet")


class TabletScreen(SetupScreen):
    """Show what is set of this tablet; a tap changes it at once."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._text, self._pedal = TextPart(), PedalPart(desk=self.desk)
        self._text.bind(on_scale_chosen=lambda _part, scale: self._keep_theme("text_scale", scale))
        for part in (self._text, self._pedal):
            part.bind(on_close=lambda _part: self.back())

    def settings(self) -> tuple[Setting, ...]:
        return tablet_settings()

    def places(self) -> tuple[tuple[str, str, str], ...]:
        return (say("True size"), "to_card", "card"), (say("Keys and pedal"), "to_pedal", "pedal")

    def value(self, key: str) -> Any:
        return getattr(self.desk.device.settings if key in OF_SPEECH else theme, key)

    def _add(self, key: str, name: str, test_name: str, act: Any) -> None:
        super()._add(key, name, test_name, self._learn_keys if key == "pedal" else act)

    def _learn_keys(self) -> None:
        self._pedal.begin()
        self._put(self._pedal)

    def lies_there(self) -> dict[str, str]:
        settings = self.desk.device.settings
        known = settings.px_per_mm is not None
        keys = len(settings.keys)
        learned = say("{keys} of {all} learned", keys=keys, all=len(PEDAL_ACTS))
        return {
            "card": say("Measured against a card") if known else say("Not measured yet"),
            "pedal": learned if keys else say("None learned"),
        }

    def back(self) -> None:
        super().back()
        self.refresh()

    def _choose(self, setting: Setting) -> None:
        if setting.key == "text_scale":
            self._text.scale = theme.text_scale
            self._put(self._text)
        else:
            super()._choose(setting)

    def _set(self, setting: Setting, value: Any) -> None:
        self.back()
        if setting.key in OF_SPEECH:
            self.desk.speak(**{setting.key: value})
        else:
            self._keep_theme(setting.key, value)

    def _keep_theme(self, key: str, value: Any) -> None:
        """Have it at once, and keep it where it is kept."""
        setattr(theme, key, value)
        try:
            if key in KEPT_AS:
                self.desk.keep_setting(KEPT_AS[key], str(value))
            else:
                self.desk.device.change(**{key: value})
        except Fault as fault:
            self.desk.tell(fault)
        self.refresh()
