"""Tell of a new bottle, one question at a time: what it holds, how much, its lot, and how long it is good."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Protocol

from bench.adhesive.part_words import part_name
from bench.adhesive.product import Product
from bench.book.events import Part
from bench.job.acts import stock
from bench.job.job import Job
from bench.job.stock import months_after
from bench.job.stock_need import today_of
from bench.speech import said, say

FAR_YEARS = 20
YEAR = 12  # months


@dataclass(frozen=True)
class Answer:
    """One answer to tap: what it says, and what is done then."""

    text: str
    act: Callable[[], object]
    says: str = ""


class Asks(Protocol):
    """What the screen can ask with."""

    desk: Any

    @property
    def job(self) -> Job: ...

    def ask_which(self, head: str, answers: Sequence[Answer]) -> None: ...

    def ask_number(self, title: str, use: Callable[[float], object], **how: Any) -> None: ...

    def ask_lot(self, title: str, use: Callable[[str], object]) -> None: ...

    def back(self) -> None: ...


class Adding:
    """The questions in their order; whatever is left unanswered leaves nothing behind."""

    def __init__(self, screen: Asks) -> None:
        self._screen = screen
        self._product: Product | None = None
        self._part: Part = "adhesive"
        self._sealed, self._net_g, self._lot = False, 0.0, ""

    def begin(self) -> None:
        """Ask what the bottle holds: a part of one of the panel's adhesives."""
        answers = [
            Answer(_part_name(product, part), lambda p=product, q=part: self._holds(p, q), said(product.name))
            for product in products_of_panel(self._screen.job)
            for part in parts_of(product)
        ]
        self._screen.ask_which(say("What does it hold?"), answers)

    def _holds(self, product: Product, part: Part) -> None:
        self._product, self._part = product, part
        answers = [
            Answer(say("It is open"), lambda: self._grams(sealed=False), say("In use from today on")),
            Answer(
                say("It is unopened"),
                lambda: self._grams(sealed=True),
                say("It stands ready; a tap opens it"),
            ),
        ]
        self._screen.ask_which(say("Is it open?"), answers)

    def _grams(self, *, sealed: bool) -> None:
        self._sealed = sealed
        self._screen.ask_number(
            say("Grams in it, as its label says"),
            self._net,
            unit="g",
            decimals=1,
            least=1.0,
            most=stock.MOST_NET_G,
        )

    def _net(self, grams: float) -> None:
        self._net_g = grams
        self._screen.ask_lot(say("Lot on the bottle"), self._of_lot)

    def _of_lot(self, lot: str) -> None:
        self._lot = lot
        assert self._product is not None
        printed = say("A month and year, as printed")
        made = [Answer(say("When it was made"), self._made, printed)]
        answers = [
            Answer(say("Best before"), self._month, printed),
            *(made if self._product.shelf_life_months is not None else []),
            Answer(say("Nothing is printed"), self._undated),
        ]
        self._screen.ask_which(say("How long is it good?"), answers)

    def _month(self) -> None:
        titles = say("Best before: which month, 1 to 12?"), say("Best before: which year?")
        self._month_of(titles, FAR_YEARS, lambda y, m: self._keep(best_before=last_of_month(y, m)))

    def _made(self) -> None:
        titles = say("Made: which month, 1 to 12?"), say("Made: which year?")
        self._month_of(titles, 0, lambda y, m: self._keep(made=date(y, m, 1)))

    def _month_of(self, titles: tuple[str, str], ahead_years: int, use: Callable[[int, int], object]) -> None:
        """Ask for a month, then for its year, up to so many years ahead. titles: of both questions."""
        of_month, of_year = titles
        year = today_of(self._screen.job).year
        self._screen.ask_number(
            of_month,
            lambda month: self._screen.ask_number(
                of_year,
                lambda y: use(int(y), int(month)),
                least=year - FAR_YEARS,
                most=year + ahead_years,
            ),
            least=1,
            most=12,
        )

    def _undated(self) -> None:
        """Ask when it was bought, where the adhesive's file knows how long it keeps."""
        assert self._product is not None
        months = self._product.shelf_life_months
        if months is None:
            self._keep()
            return
        answers = [Answer(text, lambda n=ago: self._bought(n)) for ago, text in _ages(long=months > YEAR)]
        answers.append(Answer(say("I do not know"), self._keep))
        self._screen.ask_which(say("When was it bought?"), answers)

    def _bought(self, months_ago: int) -> None:
        self._keep(bought=months_after(today_of(self._screen.job), -months_ago))

    def _keep(
        self, *, bought: date | None = None, made: date | None = None, best_before: date | None = None
    ) -> None:
        assert self._product is not None
        self._screen.back()
        self._screen.desk.attempt(
            stock.buy_bottle if self._sealed else stock.open_bottle,
            self._product.name,
            self._part,
            net_g=self._net_g,
            lot=self._lot,
            bought=bought,
            made=made,
            best_before=best_before,
            shelf_life_months=self._product.shelf_life_months,
        )


def last_of_month(year: int, month: int) -> date:
    """Return the last day of a month: what is best before a month is good until its end."""
    return months_after(date(year, month, 1), 1) - timedelta(days=1)


def products_of_panel(job: Job) -> list[Product]:
    """Return the adhesives that the panel takes, the bench's own first, each once."""
    bench = job.state.bench
    names = [bench.adhesive, *(s.adhesive for s in job.state.sections.values())]
    return list({job.product(n).name: job.product(n) for n in dict.fromkeys(names)}.values())


def parts_of(product: Product) -> tuple[Part, ...]:
    return ("resin", "hardener") if product.is_two_part else ("adhesive",)


def _part_name(product: Product, part: Part) -> str:
    return part_name(part) if product.is_two_part else say("Adhesive, ready")


def _ages(*, long: bool) -> tuple[tuple[int, str], ...]:
    """Return about how long ago a bottle may have been bought, in months and in words.

    long: it keeps for more than a year.
    """
    more = ((24, say("About 2 years ago")),) if long else ()
    return (
        (0, say("Today")),
        (3, say("About 3 months ago")),
        (6, say("About 6 months ago")),
        (12, say("About a year ago")),
        *more,
    )
