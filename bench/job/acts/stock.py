"""The workshop's bottles: buy and open them, weigh them, say that one is empty, take one for a mix, undo.

Bottles belong to no panel, so these acts are written in the workshop's own book, and undone there; only
which bottle a mix comes out of is written in the panel's.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date

from bench.book import WORKSHOP
from bench.book.events import (
    ActUndone,
    BottleBought,
    BottleEmptied,
    BottleOpened,
    BottleTaken,
    BottleUnsealed,
    BottleWeighed,
    Event,
    Part,
)
from bench.job.cup_faults import AlreadyStarted, NotRunning
from bench.job.faults import NothingToUndo
from bench.job.fold import undone_acts
from bench.job.job import Job
from bench.job.lots import check_lot
from bench.job.stock import Bottle, Stock, stock_of
from bench.job.stock_faults import (
    AlreadyOpen,
    BottleGrams,
    BottleInUse,
    DayOutOfRange,
    NoSuchBottle,
    NotOpen,
    OtherProduct,
)
from bench.job.stock_need import today_of
from bench.speech import say

MOST_NET_G = 25_000.0
MOST_OVER_NET = 1.05  # a bottle may hold a little more than its label says
FIRST_DAY, LAST_DAY = date(1990, 1, 1), date(2199, 12, 31)


def open_bottle(
    job: Job,
    product: str,
    part: Part,
    *,
    net_g: float,
    lot: str = "",
    opened: date | None = None,
    bought: date | None = None,
    made: date | None = None,
    best_before: date | None = None,
    shelf_life_months: int | None = None,
) -> int:
    """Tell of a bottle that is in use from now on; return its number.

    product: the name on its label. opened: today if None. A best-before date that is past is kept, and
    named before mixing.
    """
    opened = today_of(job) if opened is None else opened
    _check_bottle(job, net_g, best_before, opened=opened, bought=bought, made=made)
    number = stock_of(job.store).newest_number + 1
    event = BottleOpened(
        bottle=number,
        product=product,
        part=part,
        lot=_lot(lot),
        net_g=net_g,
        opened=opened,
        bought=bought,
        made=made,
        best_before=best_before,
        shelf_life_months=shelf_life_months,
    )
    _write(job, event)
    return number


def buy_bottle(
    job: Job,
    product: str,
    part: Part,
    *,
    net_g: float,
    lot: str = "",
    bought: date | None = None,
    made: date | None = None,
    best_before: date | None = None,
    shelf_life_months: int | None = None,
) -> int:
    """Tell of a bottle that stands unopened; return its number. It counts for what is left."""
    _check_bottle(job, net_g, best_before, bought=bought, made=made)
    number = stock_of(job.store).newest_number + 1
    event = BottleBought(
        bottle=number,
        product=product,
        part=part,
        lot=_lot(lot),
        net_g=net_g,
        bought=bought,
        made=made,
        best_before=best_before,
        shelf_life_months=shelf_life_months,
    )
    _write(job, event)
    return number


def unseal_bottle(job: Job, number: int) -> None:
    """Open a bottle that stood ready: it is in use from today on."""
    bottle = bottle_in_use(stock_of(job.store), number, sealed=True)
    if bottle.opened is not None:
        raise AlreadyOpen(number, bottle.opened)
    _write(job, BottleUnsealed(bottle=number, opened=today_of(job)))


def _check_bottle(job: Job, net_g: float, best_before: date | None, **days: date | None) -> None:
    """Raise what cannot be of a bottle: its grams, or a day."""
    today = today_of(job)
    _grams(say("what is in the bottle"), net_g, 0.0, MOST_NET_G, nothing=False)
    for what, day in days.items():
        if day is not None and not FIRST_DAY <= day <= today:
            raise DayOutOfRange(what, day, FIRST_DAY, today)
    if best_before is not None and not FIRST_DAY <= best_before <= LAST_DAY:
        raise DayOutOfRange("best_before", best_before, FIRST_DAY, LAST_DAY)


def _lot(text: str) -> str:
    lot = " ".join(text.split())
    check_lot(lot)
    return lot


def _grams(what: str, grams: float, least_g: float, most_g: float, *, nothing: bool) -> None:
    above = grams >= least_g if nothing else grams > least_g
    if not (math.isfinite(grams) and above and grams <= most_g):
        raise BottleGrams(what, grams, most_g, nothing=nothing)


def weigh_bottle(job: Job, number: int, left_g: float) -> None:
    """Tell what is left in a bottle by the scale, without the bottle; what was reckoned gives way to it."""
    bottle = bottle_in_use(stock_of(job.store), number)
    what = say("what is left of {net_g:g} g", net_g=bottle.net_g)
    _grams(what, left_g, 0.0, MOST_OVER_NET * bottle.net_g, nothing=True)
    _write(job, BottleWeighed(bottle=number, left_g=left_g))


def empty_bottle(job: Job, number: int) -> None:
    """Say that a bottle is empty, or is no longer used, opened or not."""
    bottle_in_use(stock_of(job.store), number, sealed=True)
    _write(job, BottleEmptied(bottle=number))


def bottle_in_use(stock: Stock, number: int, *, sealed: bool = False) -> Bottle:
    """Return a bottle that is not empty, or raise NoSuchBottle; NotOpen for one that is not yet opened.

    sealed: an unopened one will do.
    """
    bottle = stock.bottles.get(number)
    if bottle is None or bottle.emptied:
        raise NoSuchBottle(number, emptied=bottle is not None)
    if bottle.is_sealed and not sealed:
        raise NotOpen(number)
    return bottle


def take_from(job: Job, mix_number: int, bottle_number: int, *, knowing: bool = False) -> None:
    """Say which bottle a mix at the cup comes out of; knowing: although it is past its date.

    One that stood unopened is opened by it, in one act of the book.
    """
    mix = job.mix(mix_number)
    if mix.contact_utc is not None:
        raise AlreadyStarted(mix_number)
    if mix.put_away:
        raise NotRunning(mix_number)
    bottle = bottle_in_use(stock_of(job.store), bottle_number, sealed=True)
    product = job.product(job.section(mix.section).adhesive)
    parts: Sequence[Part] = ("resin", "hardener") if product.is_two_part else ("adhesive",)
    if bottle.product != product.name or bottle.part not in parts:
        raise OtherProduct(bottle_number, bottle.product, product.name)
    with job.together():
        if bottle.is_sealed:
            unseal_bottle(job, bottle_number)
        job.write(taken(mix_number, bottle, knowing=knowing))


def can_take(job: Job, bottle: Bottle) -> bool:
    """Tell whether the mix at the cup could come out of a bottle, and does not yet."""
    mix = job.state.mix_at_cup
    if mix is None or bottle.emptied:
        return False
    product = job.product(job.section(mix.section).adhesive)
    now = mix.taken.get(bottle.part)
    fits = bottle.product == product.name and (bottle.part != "adhesive") == product.is_two_part
    return fits and (now is None or now.bottle != bottle.number)


def taken(mix_number: int, bottle: Bottle, *, knowing: bool = False) -> BottleTaken:
    """Return the event that a mix comes out of a bottle."""
    return BottleTaken(
        mix=mix_number, part=bottle.part, bottle=bottle.number, lot=bottle.lot, knowing=knowing
    )


def newest_stock_act(job: Job) -> Event | None:
    """Return the first event of the act that `undo_stock` would take back, None where there is none."""
    living = _living(job)
    return next((x for act, x in living if act == living[-1][0]), None) if living else None


def undo_stock(job: Job) -> Event:
    """Take back the newest act on the bottles that still counts; return its first event.

    A bottle that a mix came out of stays: its grams and its lot are in a panel's book.
    """
    living = _living(job)
    if not living:
        raise NothingToUndo(say("nothing has been done to the bottles yet"))
    act_id, events = living[-1][0], [x for act, x in living if act == living[-1][0]]
    opened = {x.bottle for x in events if isinstance(x, BottleOpened | BottleBought | BottleUnsealed)}
    used = {n for draw in stock_of(job.store).draws.values() for n in draw.bottles.values()}
    if opened & used:
        raise BottleInUse(min(opened & used))
    _write(job, ActUndone(undone_act_id=act_id))
    return events[0]


def _living(job: Job) -> list[tuple[str, Event]]:
    entries = job.store.events(WORKSHOP)
    undone = undone_acts(entries)
    return [
        (x.act_id, x.event) for x in entries if x.act_id not in undone and not isinstance(x.event, ActUndone)
    ]


def _write(job: Job, *events: Event) -> None:
    job.store.append(WORKSHOP, events, at_utc=job.clock.utc())
