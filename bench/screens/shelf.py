"""The files that a screen offers: those of the usual places, and folder by folder all others."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from kivy.clock import Clock

from bench.screens.drawings import MOST_FILES, folder_words, name_words
from bench.screens.parts.paged import Offer
from bench.screens.places import Finds, Go, Place, cards, folders_in, usual_places
from bench.speech import say

WAIT_S = 0.5  # a screen is held up no longer by a folder that does not answer

Show = Callable[[bool], object]  # told whether all was looked at


class Search:
    """Look into folders aside. What begins takes the place of what ran before, whose result is dropped."""

    def __init__(self) -> None:
        self._run = 0

    def begin(self, look: Callable[[Go], object], show: Show) -> None:
        """Look, and show what was found: at once if that is soon, else what there is, and all of it later."""
        self._run += 1
        run = self._run
        told, done, late = threading.Lock(), threading.Event(), threading.Event()

        def work() -> None:
            try:
                look(lambda: run == self._run)
            finally:
                with told:
                    done.set()
                    if late.is_set():
                        Clock.schedule_once(lambda _dt: run == self._run and show(True))

        thread = threading.Thread(target=work, name="search", daemon=True)
        thread.start()
        thread.join(WAIT_S)
        with told:
            if not done.is_set():
                late.set()
        show(done.is_set())

    def drop(self) -> None:
        """Have done with what runs, if anything does."""
        self._run += 1


class Shelf:
    """Fill a listing with the files of some endings; `row` says what each is called and does.

    others: what stands before the files, given how many there are, and whether all folders were looked into.
    after: what stands behind them. keeps: which of these files are meant. rank: what comes first, whatever
    its age.
    """

    def __init__(
        self,
        *,
        listing: Any,
        endings: Sequence[str],
        row: Callable[[Path], Offer],
        others: Callable[[int, bool], Sequence[Offer]],
        after: Callable[[], Sequence[Offer]] = tuple,
        keeps: Callable[[Path], bool] = lambda _path: True,
        rank: Callable[[Path], int] = lambda _path: 0,
    ) -> None:
        self._listing, self._endings, self._row = listing, tuple(endings), row
        self._others, self._after, self._keeps, self._rank = others, after, keeps, rank
        self._search = Search()

    def offer(self) -> None:
        """Offer the files of the usual places, the newest first, and the way to any other folder."""
        finds = Finds(self._endings, self._keeps)

        def show(done: bool) -> None:
            rows = self._rows(finds)
            other = Offer(say("Another folder"), say("Folder by folder"), "folders", self._walk_home)
            self._listing.offer([*self._others(len(rows), done), *rows, other, *self._after()])

        self._search.begin(lambda go: finds.search(usual_places(), go), show)

    def drop(self) -> None:
        """Let go of a search that still runs: the listing is another's now."""
        self._search.drop()

    def _rows(self, finds: Finds) -> list[Offer]:
        return [self._row(path) for path in sorted(finds.newest(MOST_FILES), key=self._rank)]

    def _walk_home(self) -> None:
        self._walk(Path.home())

    def _walk(self, folder: Path) -> None:
        """List a folder: the way up, the folders in it, and its files; with the home the mounted cards."""
        finds = Finds(self._endings, self._keeps)
        below: list[Path] = []

        def look(go: Go) -> None:
            below.extend(folders_in(folder))
            below.extend(cards() if folder == Path.home() else ())
            finds.search([Place(folder)], go)

        def show(_done: bool) -> None:
            usual, back = say("The usual folders"), say("Back to what was found there")
            rows = [Offer(usual, back, "folders_leave", self.offer)]
            if folder.parent != folder:
                up, where = say("One folder up"), folder_words(folder.parent / folder.name)
                rows.append(Offer(up, where, "folder_up", lambda: self._walk(folder.parent)))
            rows += [self._to_folder(path) for path in below]
            self._listing.offer([*rows, *self._rows(finds)])

        self._search.begin(look, show)

    def _to_folder(self, folder: Path) -> Offer:
        says = say("A folder, {folder}", folder=folder_words(folder))
        return Offer(name_words(folder.name), says, f"folder_{folder.name}", lambda: self._walk(folder))
