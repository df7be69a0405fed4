"""Hours, prices and what the panel is sold for: none is needed, and none goes to a client."""

from __future__ import annotations

from collections.abc import Sequence

from bench.finish import WORK, Amount, Money
from bench.finish.money import MOST_HOURS
from bench.job import costs
from bench.job.job import Job
from bench.screens.finishing.figures import FiguresPart
from bench.screens.finishing.weight import NOT_TOLD
from bench.screens.parts.listing import Offer

FOR_WHOM = "For you alone: nothing of this is in the client's paper."


class CostsPart(FiguresPart):
    """Rows of work, materials and the price; a tap asks for hours or money."""

    title = "Cost and hours"

    def offers(self) -> Sequence[Offer]:
        money = costs.money_of(self.screen.job)
        sold = NOT_TOLD if money.sold is None else f"{money.sold:g}"
        offers = [Offer("Sold for", sold, "sold", self.ask("What is it sold for?", costs.set_sold, ""))]
        hours = {one.kind: one for one in money.hours}
        for kind in WORK:
            says = costs.long_words(hours[kind]) if kind in hours else NOT_TOLD
            offers.append(Offer(f"Hours: {kind}", says, f"hours_{kind}", self._ask_hours(kind)))
        offers += [
            Offer(f"Price: {one.material}", _price(one), f"price_{k}", self._ask_price(one))
            for k, one in enumerate(money.amounts)
        ]
        return offers

    def sums(self) -> tuple[str, str]:
        money = costs.money_of(self.screen.job)
        return f"{money.total_h:.1f} hours", " ".join((*_earned(money), FOR_WHOM))

    def all_lines(self) -> list[str]:
        return [*costs.money_lines(costs.money_of(self.screen.job)), FOR_WHOM]

    def _ask_hours(self, kind: str):
        def keep(job: Job, hours: float) -> None:
            costs.set_hours(job, kind, hours)

        return self.ask(f"Hours of {kind}", keep, "h", most=MOST_HOURS)

    def _ask_price(self, one: Amount):
        def keep(job: Job, price: float) -> None:
            costs.set_price(job, one.material, price)

        return self.ask(f"Price of one {one.unit} of {one.material}", keep, "", decimals=2)


def _price(one: Amount) -> str:
    return NOT_TOLD if one.price is None else f"{one.price:g} for one {one.unit}"


def _earned(money: Money) -> list[str]:
    said = [f"Materials {money.cost:.2f}."] if any(a.price is not None for a in money.amounts) else []
    if money.hourly is not None:
        said.append(f"An hour earned {money.hourly:.2f}.")
    return said
