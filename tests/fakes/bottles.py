"""Bottles of the usual adhesive, and what is left in them."""

from bench.job.job import Job
from bench.job.stock import stock_of

PASTE = "White paste, typical"


def left_g(job: Job, number: int) -> float:
    """Return what the book says is left in a bottle. [g]"""
    return stock_of(job.store).bottles[number].left_g
