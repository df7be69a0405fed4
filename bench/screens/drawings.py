"""Where drawings and pictures are usually kept, and which there are."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from bench.book import data_folder
from bench.book.bundle import is_bundle
from bench.speech import say

MOST_FILES = 200  # more than anyone would page through
DRAWN = (".svg",)
PICTURES = (".png", ".jpg", ".jpeg", ".webp")
BUNDLES = (".zip",)
LONGEST_WORD = 24  # letters that stand on one line of the narrowest list


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


def is_meant(path: Path) -> bool:
    """Tell whether a file is more than its ending: a zip file is, if it is a bundle."""
    return path.suffix.lower() not in BUNDLES or is_bundle(path)


def documents_folder() -> Path:
    """Return where a maker looks for what was written: the documents, else the home folder."""
    documents = Path.home() / "Documents"
    return documents if documents.is_dir() else Path.home()


def name_words(name: str) -> str:
    """Return a file's or folder's name with the middle left out of every word that no line would hold."""
    half = LONGEST_WORD // 2
    return " ".join(w if len(w) <= LONGEST_WORD else f"{w[: half - 1]}…{w[-half:]}" for w in name.split())


def folder_words(path: Path) -> str:
    """Return where a file lies, as a maker would say it: 'Pictures', 'Documents, lemons', 'Home folder'.

    A folder outside the home goes by its own name alone.
    """
    folder, home = path.parent, Path.home()
    if folder == home:
        return say("Home folder")
    parts = folder.relative_to(home).parts if folder.is_relative_to(home) else (folder.name or str(folder),)
    return ", ".join(name_words(part) for part in parts[-2:])
