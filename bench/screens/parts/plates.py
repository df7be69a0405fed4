"""Plates carry all text, so that it never stands on glass or on the grey round it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from kivy.graphics import Color, InstructionGroup
from kivy.graphics import Line as Stroke
from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.gridlayout import GridLayout
from kivy.uix.label import Label

from bench.screens.parts.band import hatch
from bench.screens.parts.even import Even
from bench.screens.parts.fitting import held_together
from bench.screens.parts.glyphs import drawable
from bench.screens.theme import theme

KINDS = ("text", "bold", "head", "small", "snug")


class BareWords(Label):
    """Text that wraps to its width and is as high as it needs; colour and size are set where it is used.

    kv binds for good: what a class rule sets, a later rule cannot take over without both pulling at it
    when the theme changes. Hence the bare one for acts, and `kind` instead of sizes. Lines end where a
    reader would end them (see `held_together`). Without a text it takes no room, nor the gap beside it.
    """

    test_name = StringProperty("")
    gap_px = NumericProperty(0)  # what the box it stands in leaves between its parts

    def __init__(self, **kwargs: Any) -> None:
        self._box: Any = None
        super().__init__(**kwargs)

    def on_parent(self, _words: object, parent: Any) -> None:
        if self._box is not None:
            self._box.unbind(spacing=self._follow_gap, orientation=self._follow_gap)
        self._box = parent if isinstance(parent, BoxLayout) else None
        if self._box is not None:
            self._box.bind(spacing=self._follow_gap, orientation=self._follow_gap)
        self._follow_gap()

    def _follow_gap(self, *_: object) -> None:
        box = self._box
        self.gap_px = box.spacing if box is not None and box.orientation == "vertical" else 0

    def texture_update(self, *args: Any) -> None:
        width_px, text = self.text_size[0], drawable(self.text)
        if width_px and not (self.markup or self.shorten):
            self._label.text = held_together(text, self.font_size, width_px, bold=self.bold)
        elif text is not self.text:
            self._label.text = text
        super().texture_update(*args)


class Words(BareWords):
    """Text in ink on a plate.

    kind: 'text' at reading size, 'bold' the same, 'head' larger, 'small' not for the bench, 'snug' where a
    screen of the bench has no room for larger type: never below the usual reading size.
    """

    kind = OptionProperty("text", options=KINDS)


class HeadWords(Words):
    """What a plate is about."""

    kind = OptionProperty("head", options=KINDS)


class SmallWords(Words):
    """Lesser text, for what is read close by; never on Cup and Glue-up."""

    kind = OptionProperty("small", options=KINDS)


class Plate(BoxLayout):
    """A near-white or near-black sheet with rounded corners that fills the place it is given."""

    test_name = StringProperty("")


class Card(Plate):
    """A plate that is only as high as what lies on it."""


class Notice(Card):
    """A card in place, in the flow of the screen: it never covers anything, least of all a countdown.

    `care` draws a hatched bar down its side, for what can hurt or spoil. With `act_text` it carries one
    act, which fires `on_act`; on a low window, or where the card is wide, it stands beside the words.
    """

    title = StringProperty("")
    text = StringProperty("")
    act_text = StringProperty("")
    care = BooleanProperty(False)
    low = BooleanProperty(False)

    __events__ = ("on_act",)

    def __init__(self, **kwargs: Any) -> None:
        self._bar = InstructionGroup()
        super().__init__(**kwargs)
        self.bind(pos=self._draw_bar, size=self._draw_bar, care=self._draw_bar)
        theme.bind(ink=self._draw_bar, border=self._draw_bar)

    def on_kv_post(self, _base: Any) -> None:
        self.canvas.before.add(self._bar)  # after the plate, which the kv rule has just drawn
        self._offer()
        self._draw_bar()

    def on_act(self) -> None:
        """Say what its act does: bound by the screen."""

    def on_act_text(self, *_: object) -> None:
        self._offer()

    def _offer(self) -> None:
        """Have the act on the card only while it has a name."""
        act = self.ids.get("act")
        if act is None or bool(self.act_text) == (act.parent is not None):
            return
        if self.act_text:
            self.ids.told.add_widget(act)
        else:
            self.ids.told.remove_widget(act)

    def _draw_bar(self, *_: object) -> None:
        self._bar.clear()
        if not self.care or self.height < 2 * theme.radius:
            return
        low = self.y + theme.radius
        high = self.y + self.height - theme.radius  # not `top`, which may not have followed yet
        box = (self.x + theme.gap / 2, low, theme.border / 2, high - low)
        self._bar.add(Color(*theme.ink))
        for ends in hatch(box, theme.gap / 2):
            self._bar.add(Stroke(points=ends, width=theme.line / 2))


class Rows(Even, BoxLayout):
    """Children one below the other, or side by side, a gap apart; targets side by side are equally high.

    most_px: how high they may become together, for what can take less.
    """

    test_name = StringProperty("")
    most_px = NumericProperty(math.inf)


class Atop(Rows):
    """A card and a Widget below it: the card at the top of the room that is left, one gap above the acts.

    Where it is used it must be told the card's height as its `size_hint_min_y`: by its own minimum a layout
    would settle a step later.
    """


class Grid(Even, GridLayout):
    """Targets in columns, a gap apart; those of a line are equally high, a short last line fills up."""

    def _iterate_layout(self, count: int) -> Iterator[tuple[int, float, float, float, float]]:
        """Yield (child, x, y, width, height) as Kivy's own grid does, the last line's shared out anew."""
        last, (left, _top, right, _foot), gap = count % (self.cols or 1), self.padding, self.spacing[0]
        share = (self.width - left - right - (last - 1) * gap) / max(1, last)
        for child, x, y, wide, high in super()._iterate_layout(count):
            if child < last:
                x, wide = self.x + left + (last - 1 - child) * (share + gap), share
            yield child, x, y, wide, high


class Row(Rows):
    """Children side by side, as high as the highest needs."""


class Pane(Rows):
    """Rows that turn with the screen: side by side when it is wide, one below the other when it is tall."""

    lie = OptionProperty("wide", options=("wide", "tall"))

    def on_size(self, _pane: object, size: tuple[float, float]) -> None:
        self.lie = "wide" if size[0] >= size[1] else "tall"
        self.orientation = "horizontal" if self.lie == "wide" else "vertical"
