"""A photo attached to an entry of the book: how a section looked, a label, a mistake to remember."""

from __future__ import annotations

import hashlib

from bench.book.events import ActUndone, Event, PhotoAttached
from bench.drawing.dry import as_kept
from bench.drawing.photo import Picture
from bench.job.faults import NotAttachable
from bench.job.fold import undone_acts
from bench.job.job import Job


def may_have_photo(event: Event) -> bool:
    """Tell whether a photo may be attached to such an entry."""
    return not isinstance(event, PhotoAttached | ActUndone)


def attach_photo(job: Job, about: int, picture: Picture) -> None:
    """Attach a photo to an entry of this panel, named by its number; an entry may have several.

    It is kept as a file of the book, its pixels alone and at most six megapixels of them. Raises
    NotAttachable for an entry that is not there, was taken back, or is no more than a photo.
    """
    entries = job.store.events(job.panel_id)
    entry = next((x for x in entries if x.seq == about), None)
    if entry is None or not may_have_photo(entry.event):
        raise NotAttachable(about)
    if entry.act_id in undone_acts(entries):
        raise NotAttachable(about, taken_back=True)
    data = as_kept(picture)
    photo = hashlib.sha256(data).hexdigest()
    job.write(PhotoAttached(about=about, photo=photo), files=[(data, "image/jpeg")])
