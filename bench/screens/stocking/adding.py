"""Tell of a new bottle, one question at a time: what it holds, how much, its lot, and how long it is good."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Protocol

from bench.adhesive import Product
from bench.book.events import Part
from bench.job.acts import stock
from bench.job.job import Job
from bench.job.stock import months_after
from bench.job.stock_need import today_of

FAR_YEARS = 20
AGES = ((0, "Today"), (3, "About 3 months ago"), (6, "About 6 months ago"), (12, "About a year ago"))
MORE_AGES = ((24, "About 2 years ago"),)


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
            Answer(_part_name(product, part), lambda p=product, q=part: self._holds(p, q), product.name)
            for product in products_of_panel(self._screen.job)
            for part in parts_of(product)
        ]
        self._screen.ask_which("What does it hold?", answers)

    def _holds(self, product: Product, part: Part) -> None:
        self._product, self._part = product, part
        answers = [
            Answer("It is open", lambda: self._grams(sealed=False), "In use from today on"),
            Answer("It is unopened", lambda: self._grams(sealed=True), "It stands ready; a tap opens it"),
        ]
        self._screen.ask_which("Is it open?", answers)

    def _grams(self, *, sealed: bool) -> None:
        self._sealed = sealed
        self._screen.ask_number(
            "Grams in it, as its label says",
            self._net,
            unit="g",
            decimals=1,
            least=1.0,
            most=stock.MOST_NET_G,
        )

    def _net(self, grams: float) -> None:
        self._net_g = grams
        self._screen.ask_lot("Lot on the bottle", self._of_lot)

    def _of_lot(self, lot: str) -> None:
        self._lot = lot
        assert self._product is not None
        made = [Answer("When it was made", self._made, "A month and year, as printed")]
        answers = [
            Answer("Best before", self._month, "A month and year, as printed"),
            *(made if self._product.shelf_life_months is not None else []),
            Answer("Nothing is printed", self._undated),
        ]
        self._screen.ask_which("How long is it good?", answers)

    def _month(self) -> None:
        self._month_of("Best before", FAR_YEARS, lambda y, m: self._keep(best_before=last_of_month(y, m)))

    def _made(self) -> None:
        self._month_of("Made", 0, lambda y, m: self._keep(made=date(y, m, 1)))

    def _month_of(self, what: str, ahead_years: int, use: Callable[[int, int], object]) -> None:
        """Ask for a month, then for its year, up to so many years ahead."""
        year = today_of(self._screen.job).year
        self._screen.ask_number(
            f"{what}: which month, 1 to 12?",
            lambda month: self._screen.ask_number(
                f"{what}: which year?",
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
        answers = [
            Answer(text, lambda n=ago: self._bought(n))
            for ago, text in (*AGES, *(MORE_AGES if months > AGES[-1][0] else ()))
        ]
        answers.append(Answer("I do not know", self._keep))
        self._screen.ask_which("When was it bought?", answers)

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
    return part[:1].upper() + part[1:] if product.is_two_part else "Adhesive, ready"
