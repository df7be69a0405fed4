"""Hours, prices and what the panel is sold for: none is needed, and none goes to a client."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.finish.money import MOST_HOURS, WORK, Amount, Money, work_said
from bench.finish.money_words import long_words, material_said, money_lines
from bench.job import costs
from bench.job.job import Job
from bench.screens.finishing.figures import FiguresPart
from bench.screens.finishing.weight import not_told
from bench.screens.parts.listing import Offer
from bench.speech import say


def for_whom() -> str:
    """Say who may read of it."""
    return say("For you alone: nothing of this is in the client's paper.")


class CostsPart(FiguresPart):
    """Rows of work, materials and the price; a tap asks for hours or money."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.title = say("Cost and hours")

    def offers(self) -> Sequence[Offer]:
        money = costs.money_of(self.screen.job)
        sold = not_told() if money.sold is None else say("{amount:g}", amount=money.sold)
        ask_sold = self.ask(say("What is it sold for?"), costs.set_sold, "")
        offers = [Offer(say("Sold for"), sold, "sold", ask_sold)]
        hours = {one.kind: one for one in money.hours}
        for kind in WORK:
            says = long_words(hours[kind]) if kind in hours else not_told()
            text = say("Hours: {work}", work=work_said(kind))
            offers.append(Offer(text, says, f"hours_{kind}", self._ask_hours(kind)))
        for k, one in enumerate(money.amounts):
            text = say("Price: {material}", material=material_said(one.material))
            offers.append(Offer(text, _price(one), f"price_{k}", self._ask_price(one)))
        return offers

    def sums(self) -> tuple[str, str]:
        money = costs.money_of(self.screen.job)
        head = say("{hours:.1f} hours", hours=money.total_h)
        return head, " ".join((*_earned(money), for_whom()))

    def all_lines(self) -> list[str]:
        return [*money_lines(costs.money_of(self.screen.job)), for_whom()]

    def _ask_hours(self, kind: str):
        def keep(job: Job, hours: float) -> None:
            costs.set_hours(job, kind, hours)

        return self.ask(say("Hours of {work}", work=work_said(kind)), keep, "h", most=MOST_HOURS)

    def _ask_price(self, one: Amount):
        def keep(job: Job, price: float) -> None:
            costs.set_price(job, one.material, price)

        title = say(
            "Price of one {unit} of {material}", unit=one.unit, material=material_said(one.material)
        )
        return self.ask(title, keep, "", decimals=2)


def _price(one: Amount) -> str:
    if one.price is None:
        return not_told()
    return say("{price:g} for one {unit}", price=one.price, unit=one.unit)


def _earned(money: Money) -> list[str]:
    """Say the sums that stand beside the list: shorter than in the lines that are read."""
    told = []
    if any(one.price is not None for one in money.amounts):
        told.append(say("Materials {cost:.2f}.", cost=money.cost))
    if money.hourly is not None:
        told.append(say("An hour earned {hourly:.2f}.", hourly=money.hourly))
    return told
