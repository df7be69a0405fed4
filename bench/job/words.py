"""The book in plain words, newest first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bench.book import events as e
from bench.book.events import Envelope
from bench.job.event_words import WORDS
from bench.job.fold import undone_acts
from bench.job.job import Job
from bench.speech import say


@dataclass(frozen=True)
class Line:
    """One entry of the book as a person reads it."""

    seq: int
    act_id: str
    at_utc: datetime
    section: int | None
    text: str
    taken_back: bool
    photo: e.DryPhotographed | None = None
    notes: tuple[str, ...] = ()  # the maker's words on it
    may_be_noted: bool = False
    attached: tuple[str, ...] = ()  # the hashes of photos, the newest first
    may_have_photo: bool = False

    @property
    def day(self) -> date:
        """The day at the bench's own place."""
        return self.at_utc.astimezone().date()


def book_lines(
    job: Job, *, section: int | None = None, day: date | None = None, panel_id: int | None = None
) -> list[Line]:
    """Return the book's entries in words, newest first; of one section or one local day only, if asked.

    panel_id: another panel of the book.
    """
    entries = job.store.events(job.panel_id if panel_id is None else panel_id)
    undone = undone_acts(entries)
    of_mix = {x.event.mix: x.event.section for x in entries if isinstance(x.event, e.MixOpened)}
    notes, attached = notes_on(entries), _attached(entries, undone)
    told = {x.seq: x.event for x in entries}
    first = {x.act_id: x for x in reversed(entries)}  # of each act the entry that names it
    lines = [
        Line(
            x.seq,
            x.act_id,
            x.at_utc,
            _section_of(x, of_mix),
            _took_back(x, first, told) or _told(x, told),
            x.act_id in undone,
            x.event if isinstance(x.event, e.DryPhotographed) else None,
            notes.get(x.seq, ()),
            x.act_id not in undone and not isinstance(x.event, e.NoteWritten | e.ActUndone),
            attached.get(x.seq, ()),
            x.act_id not in undone and not isinstance(x.event, e.PhotoAttached | e.ActUndone),
        )
        for x in reversed(entries)
    ]
    return [
        line
        for line in lines
        if (section is None or line.section == section) and (day is None or line.day == day)
    ]


def notes_on(entries: Sequence[Envelope]) -> dict[int, tuple[str, ...]]:
    """Return the words on each entry that has some, oldest first, by the entry's number."""
    undone = undone_acts(entries)
    found: dict[int, tuple[str, ...]] = {}
    for x in entries:
        if isinstance(x.event, e.NoteWritten) and x.event.about is not None and x.act_id not in undone:
            found[x.event.about] = (*found.get(x.event.about, ()), x.event.text)
    return found


def _told(entry: Envelope, told: Mapping[int, e.Event]) -> str:
    return _on_the_other(entry) or _in_place(entry.event, told)


def _took_back(entry: Envelope, first: Mapping[str, Envelope], told: Mapping[int, e.Event]) -> str:
    """Say what an undo took back; "" for all else, and where that act is not in this book."""
    act = first.get(entry.event.undone_act_id) if isinstance(entry.event, e.ActUndone) else None
    return "" if act is None else say("Took back: {entry}", entry=_told(act, told))


def _in_place(event: e.Event, told: Mapping[int, e.Event]) -> str:
    """Say an event; of a note or a photo also what it is on."""
    if isinstance(event, e.PhotoAttached):
        on = told.get(event.about)
        if on is None:
            return words(event)
        return say("{entry} to: {on}", entry=words(event), on=words(on))
    about = told.get(event.about or 0) if isinstance(event, e.NoteWritten) else None
    return words(event) if about is None else say("{note} (on: {on})", note=words(event), on=words(about))


def _attached(entries: Sequence[Envelope], undone: set[str]) -> dict[int, tuple[str, ...]]:
    """Return the photos of each entry that has some; the entry of a photo has that photo."""
    found: dict[int, tuple[str, ...]] = {}
    for x in entries:
        if isinstance(x.event, e.PhotoAttached):
            found[x.seq] = (x.event.photo,)
            if x.act_id not in undone:
                found[x.event.about] = (x.event.photo, *found.get(x.event.about, ()))
    return found


def _section_of(entry: Envelope, of_mix: dict[int, int]) -> int | None:
    number = getattr(entry.event, "section", None)
    return number if number is not None else of_mix.get(getattr(entry.event, "mix", -1))


def _on_the_other(entry: Envelope) -> str:
    """Say of which tablet a bottle is that was named there; "" for all that is said as it is here."""
    if not entry.book or not isinstance(entry.event, e.BottleTaken):
        return ""
    return say("{told}; a bottle of the other tablet", told=words(entry.event))


def words(event: e.Event) -> str:
    """Say an event in one sentence."""
    return WORDS[type(event)](event)
