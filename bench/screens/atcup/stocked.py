"""A bottle is past its date, or holds too little for this mix: said before anything is opened."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from bench.job.acts import cup, stock
from bench.job.cup_sheet import CupSheet
from bench.job.stock_need import Drawn, today_of
from bench.job.stock_words import bottle_name, left_words, past_words, short_words
from bench.screens.atcup.step import CupStep
from bench.screens.widgets import Choice
from bench.speech import say

MOST_OTHERS = 3


def stock_owed(shown: CupSheet, *, seen: bool) -> list[Drawn]:
    """Return what is wrong with the bottles of a mix: past their date unknown, or short and not yet seen."""
    return [d for d in shown.drawn if (d.past and not d.knowing) or (d.short is not None and not seen)]


class CupStock(CupStep):
    """Take another bottle, put the cup away, or go on knowingly."""

    head_text = StringProperty("")
    text = StringProperty("")

    def refresh(self) -> None:
        shown = cup.sheet(self.desk.job, self.desk.mix)
        self.section = shown.section
        self._owed = stock_owed(shown, seen=False)
        past = [d for d in self._owed if d.past and d.bottle is not None]
        closed = all(d.short is not None and d.short.none_open for d in self._owed)
        if past:
            self.head_text = say("Past its date")
        elif closed:
            self.head_text = say("None is open")
        else:
            self.head_text = say("Too little for section {section}", section=shown.section)
        told = [past_words(d.bottle) for d in past if d.bottle is not None]
        told += [short_words(d.short) for d in self._owed if d.short is not None]
        if past:
            told.append(
                say("Old adhesive may gel early, stay soft or let go: take a fresh one, or try it first.")
            )
        self.text = " ".join(told)
        self._offer([b for d in self._owed for b in d.others])

    def _offer(self, others: list[Any]) -> None:
        """Have the bottles that could be taken instead."""
        grid, today = self.ids.others, today_of(self.desk.job)
        grid.clear_widgets()
        for bottle in others[:MOST_OTHERS]:
            name = bottle_name(bottle, within=True)
            act = say("Open {bottle}", bottle=name) if bottle.is_sealed else say("Take {bottle}", bottle=name)
            row = Choice(
                text=act,
                says=left_words(bottle, today),
                lines=2,
                test_name=f"take_{bottle.number}",
            )
            row.bind(on_act=lambda _row, n=bottle.number: self.take(n))
            grid.add_widget(row)

    def take(self, bottle: int) -> None:
        """Take another bottle for this mix, and open it where it stood unopened."""
        self.desk.attempt(stock.take_from, self.desk.mix, bottle)

    def go_on(self) -> None:
        """Keep to these bottles; the book keeps that a date was known to be past."""
        for drawn in self._owed:
            if drawn.bottle is not None and drawn.past and not drawn.knowing:
                done, _ = self.desk.attempt(stock.take_from, self.desk.mix, drawn.bottle.number, knowing=True)
                if not done:
                    return
        self.turn("stocked")

    def to_stock(self) -> None:
        """Go to the bottles, to weigh one or to add one; the cup stays as it is."""
        self.desk.go("stock")
