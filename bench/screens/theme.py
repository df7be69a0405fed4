"""The one look of the house: colours, sizes and type, in a light and a dark dress.

Round the glass there is only neutral mid-grey, so that nothing tints what the eye makes of a colour; text
stands on plates of near-white or near-black. kv files read it: `#:import theme bench.screens.theme.theme`.
"""

from __future__ import annotations

from typing import Any

from kivy.event import EventDispatcher
from kivy.metrics import Metrics
from kivy.properties import (
    AliasProperty,
    BooleanProperty,
    BoundedNumericProperty,
    ColorProperty,
    NumericProperty,
    OptionProperty,
    StringProperty,
)

from bench.screens.contrast import rgb

FONT = "Bench"
SURROUND = "#777777"

# ink is text and lines on plate; quiet is lesser text on plate; act and act_ink are the one big act.
LOOKS: dict[str, dict[str, str]] = {
    "light": {
        "plate": "#f6f6f4",
        "ink": "#151515",
        "quiet": "#454545",
        "edge": "#2b2b2b",
        "act": "#151515",
        "act_ink": "#f6f6f4",
        "side": "#e2e2df",
        "held": "#c9c9c5",
        "ring": "#000000",
    },
    "dark": {
        "plate": "#161616",
        "ink": "#f2f2ef",
        "quiet": "#bdbdb9",
        "edge": "#d8d8d4",
        "act": "#f2f2ef",
        "act_ink": "#161616",
        "side": "#2a2a2a",
        "held": "#434343",
        "ring": "#ffffff",
    },
}

# What stands on what: each pair must reach the contrast for text.
TEXT_PAIRS = (
    ("ink", "plate"),
    ("quiet", "plate"),
    ("ink", "side"),
    ("ink", "held"),
    ("quiet", "side"),
    ("act_ink", "act"),
)

# What a line must stand out against: the ring of the focus, round targets on a plate and on the grey.
LINE_PAIRS = (("ring", "plate"), ("ring", "surround"))

# Okabe and Ito's eight colours, told apart by every kind of colour vision; black is kept for the lines.
OKABE_ITO = ("#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7")

TARGET_DP = 96
GAP_DP = 16
TEXT_SP = 34
SMALL_SP = 26
HEAD_SP = 44
NUMBER_SP = 64


class Theme(EventDispatcher):
    """Hold what every screen looks like; a change is seen at once everywhere.

    Lengths come out in pixels. `text_scale` is the reader's wish, 0.85 to 1.5; it moves text, never
    targets; `fit` is the part of it that a screen holds (see `Fit`). `snug` is text where the bench has no
    room to grow: the usual size, or small type enlarged where that is more; `beyond` is by how much text is
    larger than usual, 1 where it is not. `left_handed` puts the acts
    under the left hand. `still`: nothing moves, it only changes.
    """

    look = OptionProperty("light", options=tuple(LOOKS))
    text_scale = BoundedNumericProperty(1.0, min=0.849, max=1.501)  # Kivy keeps bounds in single precision
    fit = NumericProperty(1.0)
    left_handed = BooleanProperty(False)
    still = BooleanProperty(False)
    font = StringProperty(FONT)

    surround = ColorProperty(SURROUND)
    plate = ColorProperty()
    ink = ColorProperty()
    quiet = ColorProperty()
    edge = ColorProperty()
    act = ColorProperty()
    act_ink = ColorProperty()
    side = ColorProperty()
    held = ColorProperty()
    ring = ColorProperty()

    _dp = NumericProperty(1.0)
    _sp = NumericProperty(1.0)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        Metrics.bind(density=self._measure, fontscale=self._measure)
        self._measure()
        self.on_look(self, self.look)

    def on_look(self, _theme: Theme, look: str) -> None:
        for name, code in LOOKS[look].items():
            setattr(self, name, (*rgb(code), 1.0))

    def _measure(self, *_: object) -> None:
        from kivy.metrics import dp, sp

        self._sp = sp(1)  # before dp: see the note in offscreen
        self._dp = dp(1)

    def _length(self, name: str) -> float:
        return round(_LENGTHS_DP[name] * self._dp)

    def _type(self, name: str) -> float:
        return round(_TYPES_SP[name] * self._sp * self.text_scale * self.fit)

    target = AliasProperty(lambda self: self._length("target"), bind=("_dp",))
    gap = AliasProperty(lambda self: self._length("gap"), bind=("_dp",))
    pad = AliasProperty(lambda self: self._length("pad"), bind=("_dp",))
    radius = AliasProperty(lambda self: self._length("radius"), bind=("_dp",))
    line = AliasProperty(lambda self: self._length("line"), bind=("_dp",))
    border = AliasProperty(lambda self: self._length("border"), bind=("_dp",))
    beyond = AliasProperty(lambda self: max(1.0, self.text_scale), bind=("text_scale",))
    text = AliasProperty(lambda self: self._type("text"), bind=("_sp", "text_scale", "fit"))
    small = AliasProperty(lambda self: self._type("small"), bind=("_sp", "text_scale", "fit"))
    snug = AliasProperty(
        lambda self: max(self._type("small"), min(self._type("text"), round(TEXT_SP * self._sp * self.fit))),
        bind=("_sp", "text_scale", "fit"),
    )
    head = AliasProperty(lambda self: self._type("head"), bind=("_sp", "text_scale", "fit"))
    number = AliasProperty(lambda self: self._type("number"), bind=("_sp", "text_scale", "fit"))


_LENGTHS_DP = {"target": TARGET_DP, "gap": GAP_DP, "pad": 20, "radius": 14, "line": 3, "border": 28}
_TYPES_SP = {"text": TEXT_SP, "small": SMALL_SP, "head": HEAD_SP, "number": NUMBER_SP}

theme = Theme()
