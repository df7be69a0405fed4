"""Let an adhesive last as long as the book has shown, beyond its label, or hold it to the label again."""

from __future__ import annotations

from dataclasses import dataclass

from bench.book.events import LifeAllowed
from bench.job.faults import NotLonger, WrongOrder
from bench.job.job import Job
from bench.job.learning import learn_from_book, stated_by
from bench.pace.glueup import GlueUp
from bench.pace.life import EXACT_TO_LENGTHEN, Life, learn_life
from bench.speech import say

WORTH_ASKING = 1.02  # of life over label: less than half a minute of 25 is no gain


@dataclass(frozen=True)
class Lasting:
    """What the book shows of an adhesive's life beyond its label.

    ratio: of the median life to the label's, as it would be read with consent. exact: mixes seen to go
    stringy. allowed: the maker lets it last so long. may_ask: the book shows it, and nobody said yes yet.
    """

    adhesive: str
    ratio: float
    exact: int
    allowed: bool
    may_ask: bool


def lasting(job: Job, adhesive: str) -> Lasting:
    """Return what the book shows; an adhesive never used lasts as its label says."""
    known = learn_from_book(job.store, stated_by(job.state.bench), job.clock.utc())
    freely = _freely(known.glue_ups.get(adhesive, ()))
    allowed = adhesive in known.allowed
    ratio = freely.quantile_s(0.5, 1.0)
    may_ask = not allowed and known.life_of(adhesive).would_lengthen and ratio >= WORTH_ASKING
    return Lasting(adhesive, ratio, freely.exact_count, allowed, may_ask)


def _freely(glue_ups: tuple[GlueUp, ...]) -> Life:
    return learn_life(glue_ups, working_time_s=1.0, may_lengthen=True)


def allow_longer(job: Job, adhesive: str) -> None:
    """Say yes to a life longer than the label's; it needs three mixes seen to go stringy that show it."""
    shown = lasting(job, adhesive)
    if shown.allowed:
        raise WrongOrder(say("it may last longer already"), say("hold it to the label, if it should not"))
    if not shown.may_ask:
        raise NotLonger(adhesive, shown.exact, EXACT_TO_LENGTHEN)
    job.write(_said(shown, longer=True))


def hold_to_label(job: Job, adhesive: str) -> None:
    """Take the consent back: from now on an adhesive lasts no longer than its label allows."""
    shown = lasting(job, adhesive)
    if not shown.allowed:
        raise WrongOrder(say("it already goes by its label"), say("go on"))
    job.write(_said(shown, longer=False))


def _said(shown: Lasting, *, longer: bool) -> LifeAllowed:
    return LifeAllowed(adhesive=shown.adhesive, longer=longer, ratio=shown.ratio, exact=shown.exact)
