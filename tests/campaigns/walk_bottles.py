"""Bottles that the maker who works by chance has, weighs, empties and takes back."""

from __future__ import annotations

import random
from datetime import timedelta

from bench.job.acts import stock
from bench.job.job import Job
from bench.job.stock import stock_of


def tell_of_bottle(job: Job, rng: random.Random) -> None:
    """Tell of a new bottle, open or not."""
    name = job.product(job.state.bench.adhesive).name
    part = rng.choice(["resin", "hardener"])
    good = job.clock.utc().date() + timedelta(days=400)
    tell = rng.choice([stock.open_bottle, stock.buy_bottle])
    tell(job, name, part, net_g=40.0, best_before=good)


def go_on_with_bottle(job: Job, rng: random.Random) -> None:
    """Tell of one bottle or another; now and then take the last word of that back."""
    bottles = [b for b in stock_of(job.store).bottles.values() if not b.emptied]
    sealed = [b.number for b in bottles if b.is_sealed]
    number = rng.choice([b.number for b in bottles if not b.is_sealed] or [1])
    way = rng.random()
    if sealed and way < 0.3:
        stock.unseal_bottle(job, sealed[-1])
    elif way < 0.4:
        stock.weigh_bottle(job, number, 12.5)
    elif way < 0.6:
        stock.empty_bottle(job, number)
    else:
        stock.undo_stock(job)
