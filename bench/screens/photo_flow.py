"""Choose a photo, set its corners, and look into it: what the screens that work on photos have in common.

Nothing is in the book until what was seen is said; then the photo is, with every word said of it.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from kivy.properties import StringProperty

from bench.drawing.dry import Frame, as_kept
from bench.drawing.load import file_bytes
from bench.drawing.photo import Picture, Quad, inset, read_picture
from bench.fault import Fault
from bench.job.acts import dry_photo
from bench.screens.aside import Aside, Progress
from bench.screens.drawings import PICTURES, folder_words, name_words
from bench.screens.dropped import TakesFiles
from bench.screens.drying import camera
from bench.screens.drying.film_corners import FilmCorners
from bench.screens.keys import Keyed
from bench.screens.parts.busy import BusyPart
from bench.screens.parts.listing import Offer
from bench.screens.screen import Screen
from bench.screens.shelf import Shelf
from bench.screens.stack import stack
from bench.speech import say

Squared = tuple[Picture, bytes, Quad, Picture]  # the photo as kept, its file, corners, squared up


class PhotoFlow(TakesFiles, Keyed, Screen):
    """Hold one photo until what it shows is said.

    raw: the photo as it was read; quarters: how it is turned; corner_px: in the turned one. task: what to
    look for, with the `frame` of the panel between the corners; None before it is known. flat: what lies
    between the corners. back_text: what leads away from the list of photos.
    """

    place = ""  # the name that the desk knows the screen by
    says = StringProperty("")
    back_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self.aside = Aside()
        self.raw: Picture | None = None
        self.flat: Picture | None = None
        self.quarters = 0
        self.corner_px: Quad = inset((1, 1))
        self.margin_mm: float | None = None
        self.task: Any = None
        self._file: bytes | None = None  # as the book keeps it, while nothing was turned
        self._step: Any = None
        self._live: camera.LiveCamera | None = None
        super().__init__(**kwargs)
        self._choose = self.ids.choose.__self__
        self._shelf = Shelf(
            listing=self.ids.listing,
            endings=PICTURES,
            row=self._row,
            others=self._others,
            after=lambda: camera.none_here("photo_now", self.desk.tell),
        )
        self._busy = BusyPart(aside=self.aside)
        self._busy.bind(on_stop=lambda _part: self._stop())
        self.desk.bind(screen=self._elsewhere)
        self._corners = FilmCorners(flow=self)

    # -- what each screen says for itself ----------------------------------------------------------------

    def leave(self) -> None:
        """Go back to where one came from; a photo not used is let go."""
        raise NotImplementedError

    def take_margin(self, margin_mm: float | None) -> None:
        """Take another rectangle; None is the whole panel."""
        raise NotImplementedError

    def look(self) -> None:
        """Square the photo up and look into it."""
        raise NotImplementedError

    # -- coming and going --------------------------------------------------------------------------------

    def _forget(self) -> None:
        self.aside.drop()
        self.raw = self.flat = self._file = self.task = None
        self.quarters = 0

    def _stop(self) -> None:
        self.aside.drop()
        self._put(self._corners if self.raw is not None else self._choose)

    def _put(self, part: Any) -> None:
        if self._live is not None and part is not self._live:
            self._live.end()
        self._step = part
        stack(self.ids.place, [part])

    # -- choosing ----------------------------------------------------------------------------------------

    def choose(self) -> None:
        """List the pictures there are, the newest first."""
        self._shelf.offer()
        self._put(self._choose)

    def _row(self, path: Path) -> Offer:
        text, says = name_words(path.name), folder_words(path)
        return Offer(text, says, f"photo_{path.stem}", lambda: self._read(path), icon="file")

    def _others(self, count: int, done: bool) -> list[Offer]:
        if done:
            self.says = "" if count else say("There is no picture in the usual folders yet.")
        else:
            self.says = say("Looking into the folders …")
        return camera.here("photo_now", self._look_through_camera)

    def take_file(self, path: Path) -> None:
        """Look at a photo that was dropped on the list of photos."""
        if self._step is self._choose:
            self._read(path)

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
        if self._live is not None and self.desk.screen != self.place:
            self._live.end()
            if self._step is self._live:
                self.choose()

    def _read(self, path: Path) -> None:
        self._shelf.drop()

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

    # -- looking -----------------------------------------------------------------------------------------

    def squared(self, frame: Frame) -> Callable[[Progress], Squared]:
        """Return the work that squares the photo up as it will be kept, to be done aside."""
        raw, file, quarters, corners = self.raw, self._file, self.quarters, self.corner_px
        assert raw is not None

        def work(progress: Progress) -> Squared:
            kept_file = as_kept(raw, quarters) if file is None or quarters else file
            kept = read_picture(kept_file, raw.name)
            odd = quarters % 2
            size = raw.pixels.shape[odd], raw.pixels.shape[1 - odd]
            by_y, by_x = kept.pixels.shape[0] / size[0], kept.pixels.shape[1] / size[1]
            a, b, c, d = ((x * by_x, y * by_y) for x, y in corners)
            progress(0.2)
            return kept, kept_file, (a, b, c, d), dry_photo.squared(kept, (a, b, c, d), frame)

        return work

    def take_squared(self, seen: Squared) -> None:
        """Go on with the photo as it will be kept."""
        self.raw, self._file, self.corner_px, self.flat = seen
        self.quarters = 0

    def on_key(self, name: str) -> bool:
        if name in ("enter", "numpadenter") and hasattr(self._step, "act_on_key"):
            self._step.act_on_key()
            return True
        if name == "escape":
            self.leave()
            return True
        return False
