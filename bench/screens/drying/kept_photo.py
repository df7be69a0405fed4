"""A photo that the book keeps, looked at again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.properties import StringProperty

from bench.book.events import DryPhotographed
from bench.drawing.photo import Picture
from bench.fault import Fault
from bench.job.acts import dry_photo
from bench.job.job import Job
from bench.screens.aside import Aside
from bench.screens.parts.photo import Photo
from bench.screens.parts.plates import Rows


class KeptPhoto(Rows):
    """Show one photo, as large as it goes, and what was said of it; `on_close` asks to go back."""

    head = StringProperty("")
    __events__ = ("on_close",)

    def __init__(self, **kwargs: Any) -> None:
        self._aside = Aside()
        super().__init__(**kwargs)

    def on_close(self) -> None:
        """Bound by the screen."""

    def begin(self, job: Job, event: DryPhotographed, head: str, told: Callable[[Fault], object]) -> None:
        """Read the photo of a dry lay aside, squared up as it was counted, and show it."""
        self.begin_with(job, event.photo, lambda data: dry_photo.shown(data, event), head, told)

    def begin_with(
        self,
        job: Job,
        photo: str,
        read: Callable[[bytes], Picture],
        head: str,
        told: Callable[[Fault], object],
    ) -> None:
        """Read a photo aside, named by its hash, and show it; what is wrong with it is told."""
        self.head = head
        self.ids.place.clear_widgets()
        try:
            data = job.store.blob(photo)
        except Fault as fault:
            told(fault)
            return
        self._aside.begin("", lambda _progress: read(data), self._show, told)

    def _show(self, picture: Picture) -> None:
        photo = Photo(test_name="kept_photo")
        self.ids.place.add_widget(photo)
        photo.show(picture.pixels)
