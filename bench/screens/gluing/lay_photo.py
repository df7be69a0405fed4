"""The photo of the dry lay beside the time left: the white adhesive buries the pencil lines."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty

from bench.book.events import DryPhotographed
from bench.drawing.photo import Picture
from bench.fault import Fault
from bench.job.acts import dry_photo
from bench.job.job import Job
from bench.screens.aside import Aside
from bench.screens.parts.photo import Photo
from bench.screens.parts.plates import Rows

BROAD = 1.25  # wider than high by so much: it gains from width


class LayPhoto(Rows):
    """Show one section's photo. ready: it is read; chosen: it stands in the chart's place when it is ready.
    broad: it is far wider than high. It lies on the grey of the window, not on a plate: nothing but grey is
    round glass.

    It is read aside, once for each section; until then, and where it cannot be read, the chart stands: no
    card comes up over a running countdown.
    """

    ready = BooleanProperty(False)
    chosen = BooleanProperty(True)

    def __init__(self, **kwargs: Any) -> None:
        self._aside = Aside()
        self.broad = False
        self._of: tuple[Job, int, DryPhotographed | None] | None = None
        super().__init__(**kwargs)
        self._photo = Photo(test_name="lay_photo")
        self.add_widget(self._photo)

    @property
    def stands(self) -> bool:
        return bool(self.ready and self.chosen)

    def forget(self) -> None:
        """Let go of the photo: another panel is on the desk."""
        self._aside.drop()
        self._of, self.ready, self.chosen = None, False, True

    def follow(self, job: Job, number: int) -> None:
        """Be about a section; nothing happens while it stays the same."""
        section = job.section(number)
        if self._of is not None and self._of[:2] == (job, number) and self._of[2] is section.photo:
            return
        self._aside.drop()
        self._of, self.ready = (job, number, section.photo), False
        if section.photo is not None:
            self._read(job, section.photo, section.tesserae)

    def _read(self, job: Job, event: DryPhotographed, tesserae: tuple[int, ...]) -> None:
        try:
            data = job.store.blob(event.photo)
        except Fault:
            return
        panel = job.panel

        def work(_progress: Any) -> Picture:
            return dry_photo.of_section_alone(dry_photo.shown(data, event), event, panel, tesserae)

        self._aside.begin("", work, self._show, lambda _fault: None)

    def _show(self, picture: Picture) -> None:
        self._photo.show(picture.pixels)
        rows, columns = picture.pixels.shape[:2]
        self.broad = columns > BROAD * rows
        self.ready = True
