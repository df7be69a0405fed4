"""A number pad of our own: a keyboard would cover the screen and its keys are too small for gloves."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty

from bench.screens.keys import Keyed
from bench.screens.parts.acts import SideAct
from bench.screens.parts.pages import text_height_px
from bench.screens.parts.plates import Card, Row
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say, tongue

MOST_SIGNS = 6
_ROWS = ("12345", "67890")
_MARKS = (".", ",", "decimal")


class PadKey(SideAct):
    """One key of the pad; quick typing is allowed, a bouncing finger is not."""

    kind = OptionProperty("head", options=("head", "text"))
    roomy = BooleanProperty(False)
    debounce_s = NumericProperty(0.08)


def pad_key(text: str, test_name: str, act: Callable[[], object], **looks: Any) -> PadKey:
    """Make a key that does this when it is pressed."""
    key = PadKey(text=text, test_name=test_name, **looks)
    key.bind(on_act=lambda _key: act())
    return key


class NumberPad(Keyed, Card):
    """Type a number in two rows of five, mark and correction at their ends, then use it.

    `value` is None until something is typed; `decimals` 0 types whole numbers. `mark` is the decimal mark
    the reader is used to; with `below_zero` the number is a negative one. Outside `least` to `most` the pad
    says so and does not let the number be used. A keyboard types into it too, with a point or a comma for
    the mark; to use the number takes a touch, since a pedal sends Enter. room_px: the height there is for it
    and an act below it, 0 where nobody counts. Where that is little the act stands `beside` the one that uses
    the number; where it is `low`, the number beside the title as well. most_px bounds the number's size; 0:
    as other numbers.
    """

    title = StringProperty("")
    unit = StringProperty("")
    text = StringProperty("")
    mark = StringProperty(".")
    below_zero = BooleanProperty(False)
    decimals = NumericProperty(1)
    least = NumericProperty(0.0)
    most = NumericProperty(9999.0)
    use_text = StringProperty("")
    why_not = StringProperty("")
    low = BooleanProperty(False)
    beside = BooleanProperty(False)
    room_px = NumericProperty(0)
    most_px = NumericProperty(0)

    __events__ = ("on_value", "on_use")

    def on_kv_post(self, _base: Any) -> None:
        self.mark = tongue().decimal_mark
        self.use_text = self.use_text or say("Use")
        back = pad_key("←", "pad_back", self.take_back)
        for signs, last in zip(_ROWS, (self._mark_key(), back), strict=True):
            row = Row()
            for sign in signs:
                row.add_widget(self._key(sign))
            row.add_widget(last)
            self.ids.digits.add_widget(row)
        self._judge()
        self.bind(room_px=self._judge_room, width=self._judge_room, title=self._judge_room)
        theme.bind(text=self._judge_room)
        self._judge_room()

    def _key(self, sign: str) -> PadKey:
        return pad_key(sign, f"pad_{sign}", lambda: self.type_sign(sign))

    def _mark_key(self) -> PadKey:
        key = pad_key(self.mark, "pad_mark", lambda: self.type_sign(self.mark), disabled=not self.decimals)
        self.bind(mark=key.setter("text"))
        self.bind(decimals=lambda _pad, decimals: setattr(key, "disabled", not decimals))
        return key

    @property
    def value(self) -> float | None:
        if not self.text.strip(self.mark):
            return None
        value = float(self.text.replace(self.mark, "."))
        return -value if self.below_zero else value

    def type_sign(self, sign: str) -> None:
        """Add a digit or the decimal mark, where the number allows it."""
        whole, mark, part = self.text.partition(self.mark)
        if sign == self.mark:
            fits = self.decimals > 0 and not mark
            sign = sign if whole else "0" + sign
        else:
            fits = len(part) < self.decimals if mark else len(whole) < MOST_SIGNS
        if fits:
            self.text = sign if self.text == "0" and sign != self.mark else self.text + sign

    def taking_in(self, leave: Any) -> list[Any]:
        """Have the act that leaves the pad beside the one that uses it where there is little height.

        Return what stands below the pad: nothing then, else that act.
        """
        inside = [leave] if self.beside else []
        stack(self.ids.foot, [*inside, self.ids.use.__self__])
        return [] if self.beside else [leave]

    def _judge_room(self, *_: object) -> None:
        """See which way of laying it out the room holds."""
        if not self.room_px or self.width <= 2 * theme.pad:
            return
        title_px = text_height_px(self.title, int(self.width - 2 * theme.pad), int(theme.text), bold=True)
        use_px = max(theme.target, 1.28 * theme.head + 1.3 * theme.snug + theme.gap)
        gaps_px = 2 * theme.pad + 4 * theme.gap
        full_px = title_px + 1.3 * theme.number + 2 * theme.target + use_px + gaps_px
        self.low = self.room_px < full_px
        self.beside = self.room_px < full_px + theme.target + 2 * theme.gap

    def on_key(self, name: str) -> bool:
        sign = name.removeprefix("numpad")
        if sign == "backspace":
            self.take_back()
        elif sign in _MARKS:
            self.type_sign(self.mark)
        elif sign.isdigit() and len(sign) == 1:
            self.type_sign(sign)
        else:
            return False
        return True

    def take_back(self) -> None:
        """Take back the last sign; nothing typed, nothing happens."""
        self.text = self.text[:-1]

    def use(self) -> None:
        """Hand the number over, if it may be used."""
        if not self.why_not:
            self.dispatch("on_use", self.value)

    def on_below_zero(self, *_: object) -> None:
        self.on_text()

    def on_text(self, *_: object) -> None:
        self._judge()
        self.dispatch("on_value", self.value)

    def on_least(self, *_: object) -> None:
        self._judge()

    def on_most(self, *_: object) -> None:
        self._judge()

    def _judge(self) -> None:
        value = self.value
        if value is None:
            self.why_not = say("Type a number")
        elif value < self.least:
            self.why_not = say("At least {figure}", figure=self._written(self.least))
        elif value > self.most:
            self.why_not = say("At most {figure}", figure=self._written(self.most))
        else:
            self.why_not = ""

    def _written(self, value: float) -> str:
        return f"{value:g}".replace(".", self.mark)

    def on_value(self, value: float | None) -> None:
        """Tell of every change: bound by the screen."""

    def on_use(self, value: float) -> None:
        """Tell of the number to be used: bound by the screen."""
