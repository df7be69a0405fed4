"""Photograph a dry lay: choose the photo, set its corners, correct the pieces found, and count them.

Nothing is in the book until the count is said; then the photo is, with every word said of it. A section that
was photographed before is gone on with where its count was said.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from kivy.properties import StringProperty

from bench.drawing.dry import Correction, Found, as_kept
from bench.drawing.load import file_bytes
from bench.drawing.photo import Picture, Quad, inset, read_picture
from bench.fault import Fault
from bench.job.acts import dry_photo
from bench.job.acts.dry_photo import MARGIN_MM, Task
from bench.screens.aside import Aside, Progress
from bench.screens.drawings import PICTURES, drawing_files, folder_words, name_words, usual_folders
from bench.screens.drying import camera
from bench.screens.drying.film_corners import FilmCorners
from bench.screens.drying.laid_pieces import LaidPieces
from bench.screens.keys import Keyed
from bench.screens.parts.busy import BusyPart
from bench.screens.parts.listing import Offer
from bench.screens.screen import Screen
from bench.screens.stack import stack
from bench.speech import say

Seen = tuple[Picture, bytes, Quad, Picture, Found]  # the photo as kept, its file, corners, squared up, found


class PhotographScreen(Keyed, Screen):
    """Hold one photo of one section until its pieces are counted.

    raw: the photo as it was read; quarters: how it is turned; corner_px: in the turned one. task: what to
    look for, None before a section is at hand. flat: what lies between the corners.
    """

    says = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self.aside = Aside()
        self.number = 0
        self.raw: Picture | None = None
        self.flat: Picture | None = None
        self.quarters = 0
        self.corner_px: Quad = inset((1, 1))
        self.margin_mm: float | None = MARGIN_MM
        self.task: Task | None = None
        self._file: bytes | None = None  # as the book keeps it, while nothing was turned
        self._step: Any = None
        self._of: Any = None
        self._live: camera.LiveCamera | None = None
        super().__init__(**kwargs)
        self._choose = self.ids.choose.__self__
        self._busy = BusyPart(aside=self.aside)
        self._busy.bind(on_stop=lambda _part: self._stop())
        self.desk.bind(screen=self._elsewhere)
        self._corners, self._pieces = FilmCorners(flow=self), LaidPieces(flow=self)

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

    def _forget(self) -> None:
        self.aside.drop()
        self.raw = self.flat = self._file = self.task = None
        self.quarters = 0

    def _stop(self) -> None:
        self.aside.drop()
        self._put(self._corners if self.raw is not None else self._choose)

    def leave(self) -> None:
        """Go back to the section; a photo not counted is let go."""
        self._forget()
        self.desk.go("dry", section=self.number)

    def _put(self, part: Any) -> None:
        if self._live is not None and part is not self._live:
            self._live.end()
        self._step = part
        stack(self.ids.place, [part])

    # -- choosing ----------------------------------------------------------------------------------------

    def choose(self) -> None:
        """List the pictures there are, the newest first."""
        files = drawing_files(usual_folders(), PICTURES)
        offers = [
            Offer(name_words(p.name), folder_words(p), f"photo_{p.stem}", lambda path=p: self._read(path))
            for p in files
        ]
        if camera.camera_class() is not None:
            text, says = say("Take it now"), say("With this camera")
            offers.insert(0, Offer(text, says, "photo_now", self._look_through_camera))
        self.ids.listing.offer(offers)
        self.says = "" if files else say("There is no picture in the usual folders yet.")
        self._put(self._choose)

    def _look_through_camera(self) -> None:
        """Show what the camera sees; it is stopped when anything else is looked at."""
        if self._live is None:
            self._live = camera.LiveCamera()
            self._live.bind(on_taken=lambda _live, picture: self._take(picture))
            self._live.bind(on_left=lambda _live: self.choose())
        try:
            self._live.begin()
        except Fault as fault:
            self.desk.tell(fault)
            return
        self._put(self._live)

    def _elsewhere(self, *_: object) -> None:
        if self._live is not None and self.desk.screen != "photograph":
            self._live.end()
            if self._step is self._live:
                self.choose()

    def _read(self, path: Path) -> None:
        def work(_progress: Progress) -> Picture:
            return read_picture(file_bytes(path), path.name)

        self._begin(say("Reading {name} …", name=path.name), work, self._take, self.choose)

    def _take(self, picture: Picture) -> None:
        self.raw, self.flat, self._file, self.quarters = picture, None, None, 0
        self.corner_px = inset((picture.pixels.shape[1], picture.pixels.shape[0]))
        self.turn_to_corners()

    def _begin(
        self, words: str, work: Callable[[Progress], Any], use: Callable[[Any], object], else_: Any
    ) -> None:
        """Do long work aside; what is wrong is told by the card, and `else_` shows where it can be mended."""

        def told(fault: Fault) -> None:
            else_()
            self.desk.tell(fault)

        self._put(self._busy)
        self.aside.begin(words, work, use, told)

    # -- corners -----------------------------------------------------------------------------------------

    def turn_to_corners(self) -> None:
        """Show the photo with its corners."""
        self._put(self._corners)
        self._corners.arrive()

    def take_margin(self, margin_mm: float | None) -> None:
        """Take another rectangle around the section; None is the whole panel."""
        self.margin_mm = margin_mm
        self.task = dry_photo.task_for(self.job, self.number, margin_mm)

    # -- pieces ------------------------------------------------------------------------------------------

    def look(self, corrections: tuple[Correction, ...] = ()) -> None:
        """Square the photo up and look for the pieces in it, as it will be kept."""
        raw, file, quarters, corners, task = self.raw, self._file, self.quarters, self.corner_px, self.task
        assert raw is not None
        assert task is not None

        def work(progress: Progress) -> Seen:
            kept_file = as_kept(raw, quarters) if file is None or quarters else file
            kept = read_picture(kept_file, raw.name)
            odd = quarters % 2
            size = raw.pixels.shape[odd], raw.pixels.shape[1 - odd]
            by_y, by_x = kept.pixels.shape[0] / size[0], kept.pixels.shape[1] / size[1]
            a, b, c, d = ((x * by_x, y * by_y) for x, y in corners)
            progress(0.2)
            flat = dry_photo.squared(kept, (a, b, c, d), task.frame)
            progress(0.4)
            return kept, kept_file, (a, b, c, d), flat, dry_photo.look(flat, task)

        def use(seen: Seen) -> None:
            self.raw, self._file, self.corner_px, self.flat, found = seen
            self.quarters = 0
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

    def on_key(self, name: str) -> bool:
        if name in ("enter", "numpadenter") and hasattr(self._step, "act_on_key"):
            self._step.act_on_key()
            return True
        if name == "escape":
            self.leave()
            return True
        return False
