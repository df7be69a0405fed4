"""Where drawings and pictures are usually kept, and which there are."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from bench.book import data_folder

MOST_FILES = 200  # more than anyone would page through
DRAWN = (".svg",)
PICTURES = (".png", ".jpg", ".jpeg", ".webp")


def usual_folders() -> list[Path]:
    """Return the folders looked into: the current one, the home, what is kept in it, the book's."""
    home = Path.home()
    return [Path.cwd(), home, home / "Documents", home / "Downloads", home / "Pictures", data_folder()]


def drawing_files(folders: Iterable[Path], endings: Sequence[str] = DRAWN) -> list[Path]:
    """Return the files of some endings in these folders, not below them, the newest first, each once.

    A folder or file that cannot be looked at is passed over.
    """
    found: dict[Path, float] = {}
    for folder in folders:
        try:
            paths = [p for p in folder.iterdir() if p.suffix.lower() in endings and p.is_file()]
        except OSError:
            continue
        for path in paths:
            try:
                found.setdefault(path.resolve(), path.stat().st_mtime)
            except OSError:
                continue
    return sorted(found, key=lambda path: (-found[path], path.name))[:MOST_FILES]
