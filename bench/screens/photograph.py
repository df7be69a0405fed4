"""Photograph a dry lay: choose the photo, set its corners, correct the pieces found, and count them.

Nothing is in the book until the count is said; then the photo is, with every word said of it. A section that
was photographed before is gone on with where its count was said.
"""

from __future__ import annotations

from typing import Any

from bench.drawing.dry import Correction, Found
from bench.drawing.photo import read_picture
from bench.fault import Fault
from bench.job.acts import dry_photo
from bench.job.acts.dry_photo import MARGIN_MM, Task
from bench.screens.aside import Progress
from bench.screens.drying.laid_pieces import LaidPieces
from bench.screens.photo_flow import PhotoFlow, Squared
from bench.speech import say


class PhotographScreen(PhotoFlow):
    """Hold one photo of one section until its pieces are counted. task: a Task of the section."""

    place = "photograph"

    def __init__(self, **kwargs: Any) -> None:
        self.number = 0
        self._of: Any = None
        super().__init__(**kwargs)
        self.back_text = say("Back to the section")
        self.margin_mm = MARGIN_MM
        self._pieces = LaidPieces(flow=self)

    # -- coming and going --------------------------------------------------------------------------------

    def arrive(self) -> None:
        """Go on with the section's photo, or begin one."""
        section = self.job.state.sections.get(int(self.desk.section))
        if section is None or section.stage not in ("drawn", "dry"):
            self.desk.go("dry")
            return
        if (self._of, self.number) == (self.job, section.number) and self.raw is not None:
            return
        self._forget()
        self._of, self.number = self.job, section.number
        self.title = say("Photo of section {section}", section=section.number)
        self.take_margin(MARGIN_MM)
        if section.photo is None:
            self.choose()
        else:
            self._go_on_with(section.photo)

    def leave(self) -> None:
        """Go back to the section; a photo not counted is let go."""
        self._forget()
        self.desk.go("dry", section=self.number)

    def take_margin(self, margin_mm: float | None) -> None:
        """Take another rectangle around the section; None is the whole panel."""
        self.margin_mm = margin_mm
        self.task = dry_photo.task_for(self.job, self.number, margin_mm)

    # -- pieces ------------------------------------------------------------------------------------------

    def look(self, corrections: tuple[Correction, ...] = ()) -> None:
        """Square the photo up and look for the pieces in it, as it will be kept."""
        task = self.task
        assert task is not None
        square = self.squared(task.frame)

        def work(progress: Progress) -> tuple[Squared, Found]:
            seen = square(progress)
            progress(0.4)
            return seen, dry_photo.look(seen[3], task)

        def use(both: tuple[Squared, Found]) -> None:
            seen, found = both
            self.take_squared(seen)
            now, held = dry_photo.said_again(found, corrections)
            self._put(self._pieces)
            self._pieces.arrive(found, now, held)

        self._begin(say("Looking for the pieces …"), work, use, self.turn_to_corners)

    def _go_on_with(self, event: Any) -> None:
        """Show the photo that the book keeps, corrected as it was."""
        frame = dry_photo.frame_of(event)
        try:
            data = self.job.store.blob(event.photo)
            picture = read_picture(data, say("photo of section {section}", section=event.section))
        except Fault as fault:
            self.choose()
            self.desk.tell(fault)
            return
        self.raw, self._file, self.corner_px = picture, data, event.corner_px
        task = dry_photo.task_for(self.job, self.number, None)
        self.margin_mm = None if frame == task.frame else MARGIN_MM
        self.task = Task(task.panel, task.tesserae, task.others, frame)
        self.look(dry_photo.corrections_of(event))

    def count(self) -> None:
        """Say that so many pieces lie there, and keep the photo."""
        pieces = self._pieces
        assert self.task is not None
        done, _ = self.desk.attempt(
            dry_photo.photograph,
            self.number,
            self._file,
            corner_px=self.corner_px,
            frame=self.task.frame,
            corrections=pieces.corrections,
            found=pieces.proposed.count,
            said=pieces.found.count,
        )
        if done:
            self.leave()
