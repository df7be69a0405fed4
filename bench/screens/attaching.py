"""Attach a photo to an entry of the book: choose a picture, or take it here and now."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from bench.drawing.load import file_bytes
from bench.drawing.photo import Picture, read_picture
from bench.fault import Fault
from bench.job.acts.attach import attach_photo
from bench.screens.aside import Aside, Progress
from bench.screens.drawings import PICTURES, folder_words, name_words
from bench.screens.drying import camera
from bench.screens.parts.listing import Offer
from bench.screens.shelf import Shelf
from bench.speech import say


class Attaching:
    """Work beside the Book screen; nothing is written before a picture was read."""

    def __init__(self, *, screen: Any, listing: Any) -> None:
        self.screen, self._listing = screen, listing
        self._shelf = Shelf(
            listing=listing,
            endings=PICTURES,
            row=self._row,
            others=self._others,
            after=lambda: camera.none_here("attach_now", screen.desk.tell),
        )
        self._aside = Aside()
        self._about = 0
        self._live: camera.LiveCamera | None = None
        screen.desk.bind(screen=self._elsewhere)

    def _elsewhere(self, *_: object) -> None:
        if self.screen.desk.screen != "book":
            self.end()

    def begin(self, about: int) -> None:
        """List the pictures there are, the newest first."""
        self._about = about
        self._shelf.offer()
        self.screen.put(self._listing)

    def _row(self, path: Path) -> Offer:
        text, says = name_words(path.name), folder_words(path)
        return Offer(text, says, f"attach_{path.stem}", lambda: self._read(path), icon="file")

    def _others(self, count: int, done: bool) -> list[Offer]:
        none_yet = "" if count else say("There is no picture in the usual folders yet")
        says = none_yet if done else ""
        leave = Offer(say("Leave it"), says, "attach_leave", self.screen.back, icon="leave")
        return [leave, *camera.here("attach_now", self._look_through_camera)]

    def end(self) -> None:
        """Stop what still runs: the screen is left."""
        self._aside.drop()
        self._shelf.drop()
        if self._live is not None:
            self._live.end()

    def _look_through_camera(self) -> None:
        if self._live is None:
            self._live = camera.LiveCamera()
            self._live.bind(on_taken=lambda _live, picture: self._keep(picture))
            self._live.bind(on_left=lambda _live: self.screen.back())
        try:
            self._live.begin()
        except Fault as fault:
            self.screen.desk.tell(fault)
            return
        self.screen.put(self._live)

    def _read(self, path: Path) -> None:
        def work(_progress: Progress) -> Picture:
            return read_picture(file_bytes(path), path.name)

        self._aside.begin(say("Reading {name} …", name=path.name), work, self._keep, self.screen.desk.tell)

    def _keep(self, picture: Picture) -> None:
        done, _ = self.screen.desk.attempt(attach_photo, self._about, picture)
        if done:
            self.screen.back()
