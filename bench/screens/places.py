"""Where a maker's files usually lie, a camera's folders and mounted cards included, and what is found there.

A folder may be slow or never answer: whoever shows a screen looks aside (`shelf.Search`).
"""

from __future__ import annotations

import os
import string
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bench.book import data_folder

MOST_FOLDERS = 300  # looked into by one search
MOST_SEEN = 20_000  # entries of folders looked at by one search
MOST_CARDS = 12
MOUNTED_IN = ("/media/{user}", "/run/media/{user}", "/Volumes")
CAMERA = "DCIM"  # the folder of every camera's card, by the design rule for camera file systems

STUCK_S = 10.0  # nobody looks so long into one place unless it does not answer

Go = Callable[[], bool]  # whether anyone still waits

_asked: dict[str, float] = {}  # places that are being looked into, and since when


@dataclass(frozen=True)
class Place:
    """A folder, and how many levels below it are looked into."""

    path: Path
    levels: int = 0


def usual_places() -> Iterator[Place]:
    """Yield where to look, what may never answer last."""
    from platformdirs import user_documents_dir, user_downloads_dir, user_pictures_dir

    home, pictures = Path.home(), Path(user_pictures_dir())
    yield Place(Path.cwd())
    yield Place(home)
    yield Place(data_folder())
    named = {home / "Documents": 1, home / "Downloads": 1, home / "Pictures": 2}
    own = {Path(user_documents_dir()): 1, Path(user_downloads_dir()): 1, pictures: 2}
    cameras = {home / CAMERA: 2, pictures.parent / CAMERA: 2}
    for path, levels in {**named, **own, **cameras}.items():
        yield Place(path, levels)
    for card in cards():
        yield Place(card / CAMERA, 2)
        yield Place(card, 1)


def cards() -> Iterator[Path]:
    """Yield mounted cards and disks."""
    if sys.platform == "win32":
        drives = (Path(f"{letter}:/") for letter in string.ascii_uppercase[3:])
        yield from (drive for drive in drives if (drive / CAMERA).is_dir())
        return
    for base in MOUNTED_IN:
        yield from folders_in(Path(base.format(user=Path.home().name)))[:MOST_CARDS]


@dataclass
class Finds:
    """The files of some endings that a search has found so far, each with when it was changed."""

    endings: tuple[str, ...]
    keeps: Callable[[Path], bool] = lambda _path: True
    changed_s: dict[Path, float] = field(default_factory=dict)
    _looked: dict[str, int] = field(default_factory=dict)  # folders, with how many levels below them
    _seen: int = 0

    def search(self, places: Iterable[Place], go: Go) -> None:
        """Look into places, into so many folders and at so many files at most, newest folders first.

        Links to folders are not followed; what cannot be looked at is passed over, and so is what is
        hidden, and a place that another search never came back from.
        """
        for place in places:
            with _asking(place) as answers:
                waiting = [(os.path.realpath(place.path), place.levels)] if answers else []
                while waiting:
                    if not go() or len(self._looked) >= MOST_FOLDERS or self._seen >= MOST_SEEN:
                        return
                    folder, levels = waiting.pop(0)
                    if self._looked.get(folder, -1) < levels:
                        self._looked[folder] = levels
                        below = self._look_into(folder)
                        waiting += [(path, levels - 1) for _, path in sorted(below, reverse=True) if levels]

    def _look_into(self, folder: str) -> list[tuple[float, str]]:
        """Take a folder's files, and return its folders with when each was changed."""
        below = []
        for entry in _entries(folder):
            self._seen += 1
            if _is_folder(entry):
                below.append((_changed_s(entry), entry.path))
            elif entry.name.lower().endswith(self.endings) and _is_file(entry):
                path = Path(entry.path)
                if self.keeps(path):
                    self.changed_s[path] = _changed_s(entry)
        return below

    def newest(self, most: int) -> list[Path]:
        """Return what was found so far, the newest first."""
        so_far = dict(self.changed_s)  # another thread may still be adding to it
        return sorted(so_far, key=lambda path: (-so_far[path], path.name))[:most]


@contextmanager
def _asking(place: Place) -> Iterator[bool]:
    """Note that a place is being looked into, and tell whether to: not where another search is stuck."""
    name, now_s = str(place.path), time.monotonic()
    since_s = _asked.get(name)
    if since_s is not None and now_s - since_s > STUCK_S:
        yield False
        return
    _asked.setdefault(name, now_s)
    try:
        yield True
    finally:
        _asked.pop(name, None)


def folders_in(folder: Path) -> list[Path]:
    """Return the folders in a folder by name, but for hidden ones and links."""
    names = [Path(entry.path) for entry in _entries(folder) if _is_folder(entry)]
    return sorted(names, key=lambda path: path.name.lower())[:MOST_FOLDERS]


def _entries(folder: Any) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(folder) as entries:
            return [entry for _, entry in zip(range(MOST_SEEN), entries, strict=False)]
    except OSError:
        return []


def _is_folder(entry: os.DirEntry[str]) -> bool:
    try:
        return not entry.name.startswith(".") and entry.is_dir(follow_symlinks=False)
    except OSError:
        return False


def _is_file(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_file()
    except OSError:
        return False


def _changed_s(entry: os.DirEntry[str]) -> float:
    try:
        return entry.stat().st_mtime
    except OSError:
        return 0.0
