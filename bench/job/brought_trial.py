"""Try a panel that was brought: what could not be folded, drawn, learned from or read out is not kept."""

from __future__ import annotations

from bench.book import WORKSHOP, Clock, Store
from bench.book import events as e
from bench.book.bundle.faults import BundleBroken
from bench.drawing.svg import read_drawing
from bench.fault import Fault
from bench.job.advice import advise
from bench.job.fold import fold
from bench.job.job import Job
from bench.job.learning import Stated, learn
from bench.job.measuring import sizer
from bench.job.stock import bottles_elsewhere, stock_of
from bench.job.taught import allowed_of, glue_ups_of, spells_of, weighings_of
from bench.job.words import book_lines
from bench.speech import say

# what a fold, a table or a sum says of entries that do not follow from one another
_ODD = (ArithmeticError, AssertionError, AttributeError, LookupError, RecursionError, TypeError, ValueError)


def try_out(store: Store, clock: Clock, panel_id: int, path: str) -> Job:
    """Return the panel as it is after its bundle was written, once it has been looked at from all sides.

    path: of the bundle. Raises BundleBroken for entries that do not follow from one another, and every
    fault of its drawing and its adhesives.
    """
    try:
        state = fold(store.events(panel_id))
        size = {"width_mm": state.width_mm, "height_mm": state.height_mm}
        panel = read_drawing(store.blob(state.drawing_sha256), state.drawing_name, **size)
        job = Job(store, clock, panel_id, panel)
        _refuse_odd_ground(job, path)
        _look(job)
    except Fault:
        raise
    except _ODD as error:
        why = say("its entries do not follow from one another, {error}", error=_word(error))
        raise BundleBroken(path, why) from error
    return job


def _word(error: Exception) -> str:
    return " ".join(f"{type(error).__name__} {error}".split())[:80]


def _refuse_odd_ground(job: Job, path: str) -> None:
    """Raise where a section names pieces that the drawing does not have, or that another has too."""
    members = [t for s in job.state.sections.values() for t in s.tesserae]
    if len(set(members)) != len(members):
        raise BundleBroken(path, say("a piece lies in two sections"))
    if members and not 0 <= min(members) <= max(members) < job.panel.tessera_count:
        raise BundleBroken(path, say("a section has pieces that the drawing has not"))
    if not job.state.sections and not job.state.mixes:
        raise BundleBroken(path, say("its panel was never divided"))


def _look(job: Job) -> None:
    """Do what every screen will do, learning included, whether or not it is learned from."""
    store, clock = job.store, job.clock
    entries = store.events(job.panel_id)
    glue_ups = glue_ups_of(entries)
    for entry in entries:
        if isinstance(entry.event, e.MixClosed) and entry.event.contact_utc.tzinfo is None:
            raise ValueError(say("a first contact has no time zone"))
    learn(
        glue_ups,
        stated=Stated(),
        now_utc=clock.utc(),
        weighings=weighings_of(entries),
        spells=spells_of(entries),
        allowed=allowed_of(entries),
    )
    sizer(job)
    advise(job)
    book_lines(job)
    book_lines(job, panel_id=WORKSHOP)
    stock_of(store)
    bottles_elsewhere(store)
    for number in job.state.sections:
        job.life(number)
        job.firm_utc(number)
    for mix in job.state.running_mixes:
        job.reading(mix.number)
