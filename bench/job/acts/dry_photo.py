"""Photograph a section that lies dry: its pieces found, corrected and counted, and the photo kept.

The way: `frame_for` says which rectangle the corners are of; `look` finds the pieces in a photo (no book is
touched, so it may run on any thread); `photograph` writes the count and the photo as one act.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass

from bench.book.events import DryPhotographed, PhotoCorrection, PhotoFrame
from bench.drawing.dry import Correction, Found, Frame, corrected, found_pieces, frame_around, of_section
from bench.drawing.panel import Panel
from bench.drawing.photo import Corners, Picture, Quad, read_picture, square_up
from bench.fault import Fault
from bench.job.acts.dry import laid
from bench.job.job import Job
from bench.speech import say

MARGIN_MM = 10.0  # around the section, where the maker says nothing else
AROUND_MM = 5.0  # where a section is shown alone
MEDIA = "image/jpeg"


@dataclass(frozen=True)
class Task:
    """What to look for: a section of a panel, beside others that lie dry, in a rectangle of it."""

    panel: Panel
    tesserae: tuple[int, ...]
    others: tuple[int, ...]
    frame: Frame


def task_for(job: Job, number: int, margin_mm: float | None = MARGIN_MM) -> Task:
    """Return what to look for in a photo of a section; margin_mm: None for the whole panel.

    On a mirrored cartoon all lies mirrored, the photo too.
    """
    section = job.section(number)
    mirrored = job.state.bench.transfer == "face-down"
    frame = frame_around(job.panel, section.tesserae, margin_mm, mirrored=mirrored)
    beside = [s.tesserae for s in job.state.with_stage("dry") if s.number != number]
    return Task(job.panel, section.tesserae, tuple(t for members in beside for t in members), frame)


def squared(picture: Picture, corner_px: Quad, frame: Frame) -> Picture:
    """Return the rectangle of the photo, seen from above. Raises CornersCross or SizeOutOfRange."""
    return square_up(
        picture, Corners(corner_px=corner_px, width_mm=frame.width_mm, height_mm=frame.height_mm)
    )


def look(flat: Picture, task: Task) -> Found:
    """Return the section's pieces in a photo that was squared up. Raises PhotoTooCoarse."""
    return of_section(found_pieces(flat), task.panel, task.tesserae, task.others, task.frame)


def photograph(
    job: Job,
    number: int,
    data: bytes,
    *,
    corner_px: Quad,
    frame: Frame,
    corrections: Sequence[Correction],
    found: int,
    said: int,
) -> None:
    """Say that a section lies dry with so many pieces, and keep the photo that shows them: both or neither.

    data: the photo as it is kept (`as_kept`). found: pieces proposed in it. Raises as `dry.lay` does.
    """
    event = DryPhotographed(
        section=number,
        photo=hashlib.sha256(data).hexdigest(),
        corner_px=corner_px,
        frame=PhotoFrame.model_validate(frame.model_dump()),
        corrections=tuple(PhotoCorrection.model_validate(one.model_dump()) for one in corrections),
        found=found,
        said=max(1, said),
    )
    job.write(laid(job, number, said), event, files=[(data, MEDIA)])


def frame_of(event: DryPhotographed) -> Frame:
    return Frame.model_validate(event.frame.model_dump())


def corrections_of(event: DryPhotographed) -> tuple[Correction, ...]:
    return tuple(Correction.model_validate(one.model_dump()) for one in event.corrections)


def said_again(found: Found, corrections: Sequence[Correction]) -> tuple[Found, tuple[Correction, ...]]:
    """Return what was found as it was corrected before, and which words of that still hold.

    What finds the pieces may have changed since; a word that no longer fits is passed over.
    """
    held: list[Correction] = []
    for one in corrections:
        try:
            found = corrected(found, [one])
        except Fault:
            continue
        held.append(one)
    return found, tuple(held)


def of_section_alone(
    photo: Picture, event: DryPhotographed, panel: Panel, tesserae: Sequence[int]
) -> Picture:
    """Return the part of a photo as `shown` that a section lies in, with a little around it."""
    assert photo.mm_per_px is not None
    frame, box = event.frame, frame_around(panel, tesserae, AROUND_MM)
    x, y = (box.x_mm - frame.x_mm) / photo.mm_per_px, (box.y_mm - frame.y_mm) / photo.mm_per_px
    left, top = max(0, int(x)), max(0, int(y))
    right, low = int(x + box.width_mm / photo.mm_per_px) + 1, int(y + box.height_mm / photo.mm_per_px) + 1
    part = photo.pixels[top : max(low, 0), left : max(right, 0)]
    return Picture(part, photo.mm_per_px, photo.name) if part.size else photo


def shown(data: bytes, event: DryPhotographed) -> Picture:
    """Return the photo of an entry as the panel lies: squared up, and turned round where it was mirrored."""
    name = say("photo of section {section}", section=event.section)
    flat = squared(read_picture(data, name), event.corner_px, frame_of(event))
    if not event.frame.mirrored:
        return flat
    return Picture(flat.pixels[:, ::-1], flat.mm_per_px, flat.name)
