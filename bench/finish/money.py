"""What a panel cost and what an hour of it earned. None of it is needed, and none of it goes to a client."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from bench.fault import Fault
from bench.speech import say
from bench.table import BadTable, number_in, quoted, read_table

# The kinds of work of a panel, in their order; those that the book times are mixing, setting and cleaning.
WORK = ("drawing", "laying", "mixing", "setting", "cleaning", "grouting", "finishing")
TIMED = ("mixing", "setting", "cleaning")
MOST_HOURS = 10_000.0
MOST_PRICE = 1e9
PRICE_COLUMNS = ("material", "unit", "price")


class NoSuchWork(Fault):
    def __init__(self, kind: str) -> None:
        self.kind = kind
        super().__init__(
            say("'{kind}' is no kind of work", kind=kind[:30]),
            where=say("hours"),
            todo=say("give one of {names}", names=", ".join(WORK)),
        )


class BadPrice(Fault):
    def __init__(self, what: str, value: float) -> None:
        self.what_for, self.value = what, value
        super().__init__(
            say("{value:g} is no price", value=value),
            where=what[:60],
            todo=say("give an amount, 0 or more, or leave it out"),
        )


class BadHours(Fault):
    def __init__(self, kind: str, hours: float) -> None:
        self.kind, self.hours = kind, hours
        todo = say("give hours from 0 to {most:g}, or leave them out", most=MOST_HOURS)
        super().__init__(say("{hours:g} hours cannot be", hours=hours), where=work_said(kind), todo=todo)


def work_said(kind: str) -> str:
    """Say a kind of work, one of WORK."""
    return {
        "drawing": say("drawing"),
        "laying": say("laying"),
        "mixing": say("mixing"),
        "setting": say("setting"),
        "cleaning": say("cleaning"),
        "grouting": say("grouting"),
        "finishing": say("finishing"),
    }[kind]


@dataclass(frozen=True)
class Amount:
    """One material: what was used up and is still needed, in its unit. price: of one, None: not told."""

    material: str
    unit: str
    used: float
    needed: float
    price: float | None = None

    @property
    def cost(self) -> float | None:
        """What both together cost; None without a price."""
        return None if self.price is None else (self.used + self.needed) * self.price


@dataclass(frozen=True)
class Hours:
    """Hours of one kind of work; timed: by the book, else as they were told."""

    kind: str
    hours: float
    timed: bool = False


@dataclass(frozen=True)
class Money:
    """Materials, hours, and what the panel is sold for, None: not told; in whatever money the maker uses."""

    amounts: tuple[Amount, ...]
    hours: tuple[Hours, ...]
    sold: float | None = None

    @property
    def total_h(self) -> float:
        return sum(one.hours for one in self.hours)

    @property
    def cost(self) -> float:
        """What all materials with a price cost, used up and still needed."""
        return sum(one.cost for one in self.amounts if one.cost is not None)

    @property
    def unpriced(self) -> tuple[str, ...]:
        """The materials that have no price, and are not in the cost."""
        return tuple(one.material for one in self.amounts if one.price is None and one.used + one.needed > 0)

    @property
    def hourly(self) -> float | None:
        """(sold − cost) ÷ hours; None where nothing was sold or no hour is known."""
        if self.sold is None or self.total_h <= 0:
            return None
        return (self.sold - self.cost) / self.total_h


def hours_of(timed_h: Mapping[str, float], told_h: Mapping[str, float]) -> tuple[Hours, ...]:
    """Return the hours by kind of work, in the order of WORK; told ones replace timed ones, 0 is left out.

    Raises NoSuchWork or BadHours.
    """
    for kind, hours in told_h.items():
        require_hours(kind, hours)
    both = {**{kind: (h, True) for kind, h in timed_h.items()}, **{k: (h, False) for k, h in told_h.items()}}
    return tuple(Hours(kind, *both[kind]) for kind in WORK if kind in both and both[kind][0] > 0)


def require_hours(kind: str, hours: float) -> None:
    """Raise NoSuchWork or BadHours for hours that cannot be."""
    if kind not in WORK:
        raise NoSuchWork(kind)
    if not (math.isfinite(hours) and 0 <= hours <= MOST_HOURS):
        raise BadHours(kind, hours)


def require_price(what: str, price: float) -> None:
    """Raise BadPrice for a price that cannot be."""
    if not (math.isfinite(price) and 0 <= price <= MOST_PRICE):
        raise BadPrice(what, price)


def priced(amounts: Sequence[Amount], prices: Mapping[str, float]) -> tuple[Amount, ...]:
    """Return the amounts with their prices, by the material's name; whose name has none stays without."""
    return tuple(
        Amount(one.material, one.unit, one.used, one.needed, prices.get(one.material, one.price))
        for one in amounts
    )


def read_prices(path: Path, units: Mapping[str, str]) -> dict[str, float]:
    """Read a table of prices: material, unit and the price of one unit; units: what is asked for.

    A material that is not asked for is passed over, so that one table serves all panels. Raises BadTable for
    a missing price, another unit, or a material that is given twice.
    """
    found: dict[str, float] = {}
    for line, cell in read_table(path, PRICE_COLUMNS, of=say("prices")):
        name, unit, price = cell["material"], cell["unit"], number_in(cell["price"])
        if not (math.isfinite(price) and 0 <= price <= MOST_PRICE):
            what = say("no price for {name}", name=quoted(name))
            if cell["price"]:
                what = say("{cell} is no price", cell=quoted(cell["price"]))
            todo = say("write the price of one unit, e.g. 12.50, or take the line out")
            raise BadTable(what, path=path, line=line, column="price", todo=todo)
        if name in units and unit != units[name]:
            what = say(
                "{name} is reckoned by the {unit}, not by {given}",
                name=quoted(name),
                unit=units[name],
                given=quoted(unit),
            )
            todo = say("give the price of one {unit}", unit=units[name])
            raise BadTable(what, path=path, line=line, column="unit", todo=todo)
        if name in found:
            what = say("{name} is given twice", name=quoted(name))
            raise BadTable(what, path=path, line=line, todo=say("keep one line"))
        found[name] = price
    return {name: price for name, price in found.items() if name in units}
