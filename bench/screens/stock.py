"""Stock: the workshop's bottles, what is left in each, and how far it lasts for this panel."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

from kivy.clock import Clock
from kivy.properties import NumericProperty, StringProperty
from kivy.uix.widget import Widget

from bench.fault import Fault
from bench.job.acts import stock
from bench.job.calendar import calendar
from bench.job.stock import Bottle, stock_of
from bench.job.stock_need import today_of
from bench.job.stock_words import bottle_lines, bottle_name, left_words
from bench.job.words import words
from bench.screens.parts.choice import short
from bench.screens.parts.lot_pad import LotPad  # noqa: F401 - named by the kv file
from bench.screens.parts.paged import Offer, Paged  # noqa: F401 - the second is named by the kv file
from bench.screens.parts.pages import pages_of, text_height_px
from bench.screens.parts.told import Told  # noqa: F401 - named by the kv file
from bench.screens.screen import Screen
from bench.screens.section_words import lasting_lines
from bench.screens.stocking.adding import Adding, Answer
from bench.screens.stocking.bottle import BottlePart, BottleRow  # noqa: F401 - the part is named by the kv file
from bench.screens.theme import theme
from bench.speech import say


class StockScreen(Screen):
    """Show the bottles in use; a tap opens one. Everything can be taken back."""

    page = NumericProperty(0)
    last_page = NumericProperty(0)
    page_text = StringProperty("")
    lasts = StringProperty("")
    undo_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._bottles: list[Bottle] = []
        self._opened = 0
        self._use_lot: Callable[[str], object] = bool
        self._adding = Adding(self)
        super().__init__(**kwargs)
        self._listing = self.ids.listing.__self__
        self._parts = self.hold("ask", "choices", "lot", "bottle", "turning")
        self.ids.rows.bind(size=Clock.create_trigger(lambda _dt: self._lay(), -1))  # not while it is laid out

    # -- following the book ------------------------------------------------------------------------------

    def arrive(self) -> None:
        self.page = 0
        self.back()

    def refresh(self) -> None:
        found = stock_of(self.job.store)
        in_use = [b for b in found.bottles.values() if not b.emptied]
        self._bottles = sorted(in_use, key=_place)
        newest = stock.newest_stock_act(self.job)
        self.undo_text = short(words(newest), 60) if newest is not None else ""
        self.lasts = self._how_far()
        if self._opened:
            self._show_bottle(self._opened)
        self._lay()

    def _how_far(self) -> str:
        if not self._bottles:
            return say(
                "No bottle is entered yet. Add those in use, and what is left is worked out from your mixes."
            )
        try:
            told = lasting_lines(self.job, calendar(self.job))
        except Fault as fault:
            return fault.what
        return " ".join(told) or say("All that is left of this panel can be set from these bottles.")

    def _lay(self) -> None:
        """Lay out the page: as many bottles as there is room for."""
        rows, today = self.ids.rows, today_of(self.job)
        width_px = int(rows.width - 2 * theme.pad)
        heights = [self._row_height_px(bottle, width_px) for bottle in self._bottles]
        pages = pages_of(heights, rows.height - theme.gap, theme.gap)
        self.last_page = len(pages) - 1
        self.page = min(self.page, self.last_page)
        self.page_text = say("{page} of {pages}", page=int(self.page) + 1, pages=len(pages))
        self._offer_turning(len(pages) > 1)
        rows.clear_widgets()
        for k in pages[int(self.page)]:
            bottle = self._bottles[k]
            row = BottleRow(
                text=bottle_name(bottle),
                says=left_words(bottle, today),
                share=min(1.0, bottle.left_g / bottle.net_g),
                height=heights[k],
            )
            row.test_name = f"bottle_{bottle.number}"
            row.bind(on_act=lambda _row, n=bottle.number: self._open(n))
            rows.add_widget(row)
        rows.add_widget(Widget())  # the rest of the page

    def _row_height_px(self, bottle: Bottle, width_px: int) -> float:
        name = text_height_px(bottle_name(bottle), width_px, int(theme.text), bold=True)
        says = text_height_px(left_words(bottle, today_of(self.job)), width_px, int(theme.small))
        return max(theme.target, name + says + 3 * theme.gap)

    def _offer_turning(self, wanted: bool) -> None:
        turning = self._parts["turning"]
        if wanted and turning.parent is None:
            self._listing.add_widget(turning)
        elif not wanted and turning.parent is not None:
            self._listing.remove_widget(turning)

    def turn(self, pages: int) -> None:
        """Turn on or back by so many pages."""
        self.page = min(max(0, self.page + pages), self.last_page)
        self._lay()

    # -- what has the room -------------------------------------------------------------------------------

    def back(self) -> None:
        """Show the bottles again."""
        self._opened = 0
        self._put(self._listing)

    def _put(self, part: Any) -> None:
        self.ids.split.alone = part is not self._listing
        self.ids.split.put_main(part)

    def ask_which(self, head: str, answers: Sequence[Answer]) -> None:
        """Ask something that has few answers."""
        self.ids.question.text = head
        self.ids.answers.offer([Offer(a.text, a.says, f"answer_{k}", a.act) for k, a in enumerate(answers)])
        self._put(self._parts["choices"])

    def ask_number(self, title: str, use: Callable[[float], object], **how: Any) -> None:
        """Ask for a number."""
        self._parts["ask"].ask(title, use, **how)
        self._put(self._parts["ask"])

    def ask_lot(self, title: str, use: Callable[[str], object]) -> None:
        """Ask for letters and digits."""
        self._use_lot = use
        self._parts["lot"].begin(title)
        self._put(self._parts["lot"])

    def use_lot(self, text: str) -> None:
        self._use_lot(text)

    # -- bottles -----------------------------------------------------------------------------------------

    def add(self) -> None:
        """Tell of a bottle."""
        self._adding.begin()

    def undo(self) -> None:
        """Take back what was told of the bottles last."""
        self.desk.attempt(stock.undo_stock)

    def _open(self, number: int) -> None:
        self._opened = number
        self._show_bottle(number)

    def _show_bottle(self, number: int) -> None:
        bottle = next((b for b in self._bottles if b.number == number), None)
        if bottle is None:
            self.back()
            return
        lines = "\n".join(bottle_lines(bottle, today_of(self.job)))
        self._parts["bottle"].show(
            bottle_name(bottle),
            lines,
            can_take=stock.can_take(self.job, bottle),
            sealed=bottle.is_sealed,
        )
        self._put(self._parts["bottle"])

    def take(self) -> None:
        """Let the mix at the cup come out of the open bottle; one past its date is asked about there."""
        mix, number = self.job.state.mix_at_cup, self._opened
        if mix is not None:
            done, _ = self.desk.attempt(stock.take_from, mix.number, number)
            if done:
                self.desk.go("cup")

    def open_or_weigh(self) -> None:
        """Open a bottle that stands ready, with one tap; weigh one that is open."""
        number = self._opened
        if next(b for b in self._bottles if b.number == number).is_sealed:
            self.desk.attempt(stock.unseal_bottle, number)
        else:
            self.weigh()

    def weigh(self) -> None:
        """Ask what the scale says is left in the bottle that is open."""
        number = self._opened
        bottle = next(b for b in self._bottles if b.number == number)
        self.ask_number(
            say("Grams left in it, without the bottle itself"),
            lambda grams: self.desk.attempt(stock.weigh_bottle, number, grams),
            unit="g",
            decimals=1,
            least=0.0,
            most=round(stock.MOST_OVER_NET * bottle.net_g, 1),
        )

    def empty(self) -> None:
        """Say that the open bottle is empty."""
        number = self._opened
        self.back()
        self.desk.attempt(stock.empty_bottle, number)


def _place(bottle: Bottle) -> tuple[object, ...]:
    """Return where a bottle stands in the list: by product and part, open ones before unopened."""
    opened = bottle.opened or date.max
    return bottle.product, bottle.part != "resin", bottle.is_sealed, opened, bottle.number
