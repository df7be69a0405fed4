"""The book itself: take back the newest act, add a note."""

from __future__ import annotations

from bench.book.events import (
    ActUndone,
    ContactCorrected,
    ContactMade,
    Envelope,
    Event,
    NoteWritten,
    PanelOpened,
)
from bench.job.faults import NoSuchEntry, NothingToUndo
from bench.job.fold import undone_acts
from bench.job.job import Job
from bench.speech import say


def newest_act(job: Job) -> Envelope | None:
    """Return the first entry of the act that `undo` would take back, None where nothing may be undone."""
    if not job.state.act_ids:
        return None
    newest = job.state.act_ids[-1]
    recent = job.recent_events()
    act = [x for x in recent if x.act_id == newest]
    act = act or [x for x in job.store.events(job.panel_id) if x.act_id == newest]
    stays = PanelOpened | ContactMade | ContactCorrected
    return None if any(isinstance(x.event, stays) for x in act) else act[0]


def undo(job: Job) -> Envelope:
    """Take back the newest act that still counts; return its first entry, so that it can be named.

    What undo cannot take back stands in the way of older acts too: first contact, since the adhesive
    does not know of it (`cup.correct_contact` corrects it), and the opening of the panel.
    """
    entries = job.store.events(job.panel_id)
    undone = undone_acts(entries)
    living = [x for x in entries if x.act_id not in undone and not isinstance(x.event, ActUndone)]
    if not living:
        raise NothingToUndo(say("nothing has been done yet"))
    act = [x for x in living if x.act_id == living[-1].act_id]
    if any(isinstance(x.event, PanelOpened) for x in act):
        raise NothingToUndo(say("the opening of the panel is all there is"))
    if any(isinstance(x.event, ContactMade | ContactCorrected) for x in act):
        raise NothingToUndo(say("resin has met hardener, which nobody can take back"))
    _take_back(job, act[0].act_id)
    return act[0]


def undo_of_mix(job: Job, mix_number: int) -> None:
    """Take back what was told last of this mix, whatever was told of others since.

    Only while it runs, and only what its own hands told: steps, counts, rests, stringy, what the scale
    showed. First contact cannot be taken back, nor what was told before it was corrected.
    """
    mix = job.mix(mix_number)
    if not (mix.is_running and mix.told_acts):
        raise NothingToUndo(say("nothing was told of this mix that can be taken back"))
    _take_back(job, mix.told_acts[-1])


def _take_back(job: Job, act_id: str) -> None:
    job.write(ActUndone(undone_act_id=act_id))
    job.refold()
    job.forget_products()


def note(job: Job, text: str, *, about: int | None = None) -> None:
    """Keep the maker's own words in the book, on an entry of this panel where one is named by its number.

    Blank text is refused, and so is an entry that is not there, was taken back, or is a note itself.
    """
    words = text.strip()
    if not words:
        raise NothingToUndo(say("there is nothing to write"))
    if about is not None:
        _check_about(job, about)
    job.write(NoteWritten(text=words[:4000], about=about))


def may_be_noted(event: Event) -> bool:
    """Tell whether words may stand on such an entry."""
    return not isinstance(event, NoteWritten | ActUndone)


def _check_about(job: Job, about: int) -> None:
    entries = job.store.events(job.panel_id)
    entry = next((x for x in entries if x.seq == about), None)
    if entry is None or not may_be_noted(entry.event):
        raise NoSuchEntry(about)
    if entry.act_id in undone_acts(entries):
        raise NoSuchEntry(about, taken_back=True)
