"""What is in the bottles of the workshop: a fold over its own book and what mixes of all panels took.

Bottles belong to the workshop and to no panel, so their events stand in a book of their own (WORKSHOP);
which bottle a mix came out of, and the grams, stand in the panel's book. Both are folded together in the
order in which they were written. A bottle is charged when hardener meets resin, or when resin that was
poured is put away, and corrected when both readings are told; never below nothing: the rest comes out of
the other bottles of that part, and what none of them was reckoned to hold is kept as `overdrawn_g` until
the bottle is weighed again. Acts that were undone do not count, on either side.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from bench.book import WORKSHOP, Store
from bench.book import events as e
from bench.book.events import Envelope, Part
from bench.job.fold import undone_acts

STOCK_KINDS = (
    "bottle_bought",
    "bottle_opened",
    "bottle_unsealed",
    "bottle_weighed",
    "bottle_emptied",
    "bottle_taken",
    "batch_prescribed",
    "resin_poured",
    "hardener_poured",
    "contact_made",
    "mix_put_away",
    "act_undone",
)
_OF_THE_WORKSHOP = (e.BottleBought, e.BottleOpened, e.BottleUnsealed, e.BottleWeighed, e.BottleEmptied)
_NAMES_A_BOTTLE = (*_OF_THE_WORKSHOP, e.BottleTaken)
PARTS_OF_TWO: tuple[Part, Part] = ("resin", "hardener")


@dataclass(slots=True)
class Bottle:
    """One bottle. net_g + corrected_g − taken_g is left_g, always. [g]

    opened: None while it stands unopened. made: when it was filled, as its label says. corrected_g: what
    weighing and emptying changed. overdrawn_g: poured beyond what was reckoned to be in it.
    """

    number: int
    product: str
    part: Part
    lot: str
    net_g: float
    opened: date | None
    bought: date | None
    made: date | None
    best_before: date | None
    shelf_life_months: int | None
    left_g: float
    taken_g: float = 0.0
    corrected_g: float = 0.0
    overdrawn_g: float = 0.0
    emptied: bool = False

    @property
    def last_day(self) -> date | None:
        """The last day on which it is good, the earlier of label and shelf life; None: unknown.

        A shelf life counts from the day it was made, from the purchase where that is not known.
        """
        days = [] if self.best_before is None else [self.best_before]
        since = self.bought if self.made is None else self.made
        if since is not None and self.shelf_life_months is not None:
            days.append(months_after(since, self.shelf_life_months))
        return min(days, default=None)

    @property
    def is_sealed(self) -> bool:
        return self.opened is None

    def is_past(self, today: date) -> bool:
        """Tell whether it is past its date."""
        return self.last_day is not None and self.last_day < today

    def take(self, grams: float) -> float:
        """Take so much, as far as it goes; return what it lacks. [g]"""
        drawn_g = min(self.left_g, grams)
        self.left_g -= drawn_g
        self.taken_g += drawn_g
        return grams - drawn_g

    def give_back(self, grams: float) -> None:
        """Hold again what was charged and not poured: first what was poured beyond its reckoning. [g]"""
        overdrawn_g = min(self.overdrawn_g, grams)
        self.overdrawn_g -= overdrawn_g
        self.left_g += grams - overdrawn_g
        self.taken_g -= grams - overdrawn_g

    def correct(self, left_g: float) -> None:
        self.corrected_g += left_g - self.left_g
        self.left_g, self.overdrawn_g = left_g, 0.0


@dataclass(slots=True)
class _Draw:
    """What a mix will take, until it has taken it."""

    bottles: dict[Part, int] = field(default_factory=dict)
    resin_g: float = 0.0
    hardener_g: float = 0.0
    poured: bool = False
    done: bool = False


@dataclass(slots=True)
class Stock:
    """All bottles by number, and what mixes are about to take."""

    bottles: dict[int, Bottle] = field(default_factory=dict)
    draws: dict[tuple[int, int], _Draw] = field(default_factory=dict)
    newest_number: int = 0  # ever given, undone or not: a number is used once
    act_ids: list[str] = field(default_factory=list)  # of the workshop's own book, oldest first

    def in_use(self, product: str, part: Part) -> list[Bottle]:
        """Return the open bottles of a part that are not empty, the one opened first before the others."""
        found = [b for b in self._of(product, part) if b.opened is not None and not b.emptied]
        return sorted(found, key=lambda b: (b.opened or date.max, b.number))

    def sealed(self, product: str, part: Part) -> list[Bottle]:
        """Return the unopened bottles of a part, the one that is good for the shortest first."""
        found = [b for b in self._of(product, part) if b.is_sealed and not b.emptied]
        return sorted(found, key=lambda b: (b.last_day or date.max, b.number))

    def _of(self, product: str, part: Part) -> list[Bottle]:
        return [b for b in self.bottles.values() if (b.product, b.part) == (product, part)]

    def left_g(self, product: str, part: Part) -> float | None:
        """Return what is left of a part, unopened bottles too; None where nobody ever told of one. [g]"""
        known = self._of(product, part)
        return sum(b.left_g for b in known) if known else None

    def bottle_for(self, product: str, part: Part, needed_g: float, today: date) -> Bottle | None:
        """Return the bottle that a mix comes out of unless the maker says otherwise, None where none is.

        Of the open ones: the one opened first that is within its date and holds enough; else the fullest
        within its date; else the fullest. An unopened one is opened by the maker's word alone.
        """
        bottles = self.in_use(product, part)
        good = [b for b in bottles if not b.is_past(today)]
        enough = [b for b in good if b.left_g >= needed_g]
        return enough[0] if enough else max(good or bottles, key=lambda b: b.left_g, default=None)

    def lot_now(self, product: str, two_part: bool, today: date) -> str | None:
        """Return the lots that the next mix comes out of, as one; None where no lot is known."""
        parts: tuple[Part, ...] = PARTS_OF_TWO if two_part else ("adhesive",)
        bottles = {part: self.bottle_for(product, part, 0.0, today) for part in parts}
        return joined_lot({part: b.lot for part, b in bottles.items() if b is not None})


def joined_lot(lots: Mapping[Part, str]) -> str | None:
    """Return the lots of a mix's parts as one text; None where none is told.

    Life hangs on both parts, so a new lot of either is a new lot.
    """
    told = [f"{part} {lot}" for part, lot in sorted(lots.items()) if lot]
    return ", ".join(told) or None


def months_after(day: date, months: int) -> date:
    """Return the same day so many months later, or the last day of that month where it has none."""
    month = day.month - 1 + months
    year, month = day.year + month // 12, month % 12 + 1
    following = date(year + month // 12, month % 12 + 1, 1)
    last = (following - date(year, month, 1)).days
    return date(year, month, min(day.day, last))


def fold_stock(entries: Iterable[Envelope], book: str = "") -> Stock:
    """Return the stock after these events of the workshop and of all panels, in the book's order.

    book: whose bottles; "" for this book's own. Another tablet counts its bottles from 1 too: what is said
    of them here says nothing of ours, and a mix takes only out of the bottles of the book that named them.
    """
    told = list(entries)
    undone = undone_acts(told)
    stock = Stock()
    for entry in told:
        if entry.book != book and isinstance(entry.event, _NAMES_A_BOTTLE):
            continue
        if isinstance(entry.event, e.BottleOpened | e.BottleBought):
            stock.newest_number = max(stock.newest_number, entry.event.bottle)
        if entry.act_id not in undone:
            apply_stock(stock, entry)
    return stock


def apply_stock(stock: Stock, entry: Envelope) -> None:
    """Bring the stock forward by one event that counts; what does not concern it changes nothing."""
    event = entry.event
    if isinstance(event, _OF_THE_WORKSHOP):
        if not stock.act_ids or stock.act_ids[-1] != entry.act_id:
            stock.act_ids.append(entry.act_id)
        _of_the_workshop(stock, event)
    elif isinstance(event, e.HardenerPoured):
        _as_weighed(stock, stock.draws.setdefault((entry.panel_id, event.mix), _Draw()), event)
    elif isinstance(
        event, e.BottleTaken | e.BatchPrescribed | e.ResinPoured | e.ContactMade | e.MixPutAway
    ):
        draw = stock.draws.setdefault((entry.panel_id, event.mix), _Draw())
        if not draw.done:
            _of_a_mix(stock, draw, event)


def _of_the_workshop(stock: Stock, event: Any) -> None:
    if isinstance(event, e.BottleOpened | e.BottleBought):
        stock.newest_number = max(stock.newest_number, event.bottle)
        stock.bottles[event.bottle] = Bottle(
            number=event.bottle,
            product=event.product,
            part=event.part,
            lot=event.lot,
            net_g=event.net_g,
            opened=event.opened if isinstance(event, e.BottleOpened) else None,
            bought=event.bought,
            made=event.made,
            best_before=event.best_before,
            shelf_life_months=event.shelf_life_months,
            left_g=event.net_g,
        )
        return
    bottle = stock.bottles[event.bottle]
    if isinstance(event, e.BottleUnsealed):
        bottle.opened = event.opened
        return
    bottle.correct(event.left_g if isinstance(event, e.BottleWeighed) else 0.0)
    bottle.emptied = isinstance(event, e.BottleEmptied)


def _of_a_mix(
    stock: Stock,
    draw: _Draw,
    event: e.BottleTaken | e.BatchPrescribed | e.ResinPoured | e.ContactMade | e.MixPutAway,
) -> None:
    if isinstance(event, e.BottleTaken):
        draw.bottles[event.part] = event.bottle
    elif isinstance(event, e.BatchPrescribed):
        draw.resin_g, draw.hardener_g = event.resin_g, event.hardener_g
    elif isinstance(event, e.ResinPoured):
        draw.resin_g, draw.hardener_g, draw.poured = event.resin_g, event.hardener_target_g, True
    else:
        draw.done = True
        met = isinstance(event, e.ContactMade)
        for part, number in draw.bottles.items():
            grams = draw.hardener_g if part == "hardener" else draw.resin_g
            bottle = stock.bottles.get(number)
            if bottle is not None and (met or (draw.poured and part != "hardener")):
                _take(stock, bottle, grams)


def _as_weighed(stock: Stock, draw: _Draw, event: e.HardenerPoured) -> None:
    """Charge what is in the cup beyond what was reckoned at first contact, or give back what is not."""
    more_g = {"resin": event.resin_g - draw.resin_g, "hardener": event.hardener_g - draw.hardener_g}
    draw.resin_g, draw.hardener_g = event.resin_g, event.hardener_g
    for part, number in draw.bottles.items():
        bottle = stock.bottles.get(number)
        if bottle is None or part not in more_g:
            continue
        if more_g[part] >= 0:
            _take(stock, bottle, more_g[part])
        elif not bottle.emptied:
            bottle.give_back(-more_g[part])


def _take(stock: Stock, bottle: Bottle, grams: float) -> None:
    lacks_g = bottle.take(grams)
    for other in stock.in_use(bottle.product, bottle.part):
        lacks_g = other.take(lacks_g)
    bottle.overdrawn_g += lacks_g


def stock_of(store: Store) -> Stock:
    """Return the workshop's stock as the book has it now."""
    return fold_stock(store.of_kinds(STOCK_KINDS))


def bottles_elsewhere(store: Store) -> list[Bottle]:
    """Return the bottles of other tablets that brought panels were mixed out of, as far as they were told of.

    What panels that were not brought took out of them is not known here. They are folded by their own
    times: what came in one bundle stands in the order in which it came.
    """
    entries = sorted(store.of_kinds(STOCK_KINDS), key=lambda x: (x.at_utc, x.panel_id != WORKSHOP))
    books = dict.fromkeys(x.book for x in entries if x.book and isinstance(x.event, e.BottleOpened))
    return [b for book in books for _, b in sorted(fold_stock(entries, book).bottles.items())]
