"""The book itself: take back the newest act, add a note."""

from __future__ import annotations

from bench.book.events import ActUndone, ContactCorrected, ContactMade, Envelope, NoteWritten, PanelOpened
from bench.job.faults import NothingToUndo
from bench.job.fold import undone_acts
from bench.job.job import Job

# Entries: the newest act is nearly always among them, and reading all takes long in a long book.
_RECENT = 300


def newest_act(job: Job) -> Envelope | None:
    """Return the first entry of the act that `undo` would take back, None where nothing may be undone."""
    if not job.state.act_ids:
        return None
    newest = job.state.act_ids[-1]
    recent = job.store.events(job.panel_id, after_seq=max(0, job.store.last_seq(job.panel_id) - _RECENT))
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
        raise NothingToUndo("nothing has been done yet")
    act = [x for x in living if x.act_id == living[-1].act_id]
    if any(isinstance(x.event, PanelOpened) for x in act):
        raise NothingToUndo("the opening of the panel is all there is")
    if any(isinstance(x.event, ContactMade | ContactCorrected) for x in act):
        raise NothingToUndo("resin has met hardener, which nobody can take back")
    job.write(ActUndone(undone_act_id=act[0].act_id))
    job.refold()
    job.forget_products()
    return act[0]


def note(job: Job, text: str) -> None:
    """Keep the maker's own words in the book; blank text is refused."""
    words = text.strip()
    if not words:
        raise NothingToUndo("there is nothing to write")
    job.write(NoteWritten(text=words[:4000]))
