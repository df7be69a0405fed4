"""The maker's own adhesives: the label that is being read out, and the files that come of it."""

from __future__ import annotations

import os
import re
import unicodedata
from pathlib import Path

from bench.adhesive.label import Label
from bench.adhesive.product import Product
from bench.adhesive.product_file import product_toml
from bench.book import Store
from bench.book.files import make_private
from bench.fault import Fault
from bench.job.settings import LABEL
from bench.speech import say

O_BINARY = getattr(os, "O_BINARY", 0)  # Windows would write other ends of lines
MOST_STEM = 40  # signs of a file's name


class AdhesiveNotKept(Fault):
    """The file of an adhesive cannot be written."""

    def __init__(self, path: Path, reason: str) -> None:
        self.path = path
        super().__init__(
            say("the adhesive cannot be kept ({reason})", reason=reason),
            where=str(path),
            todo=say("make room or give rights to that folder; what was entered stays"),
        )


def label_of(store: Store) -> Label:
    """Return the label as far as it was read out; an empty one where none is begun."""
    return Label.from_json(store.setting(LABEL))


def keep_label(store: Store, label: Label) -> None:
    """Keep what was entered, so that it can be gone on with another day."""
    store.set_setting(LABEL, label.to_json())


def own_folder(data_folder: Path) -> Path:
    """Return where the maker's own adhesives lie."""
    return data_folder / "adhesives"


def keep_adhesive(folder: Path, product: Product) -> Path:
    """Write a product as a file of its own, named after it; return its path.

    No file is ever changed: where one of that name holds something else, a number is added. Raises
    AdhesiveNotKept, and then leaves nothing behind.
    """
    data = product_toml(product).encode()
    stem = file_stem(product.name)
    try:
        make_private(folder)
        for number in range(1, 1000):
            path = folder / (f"{stem}.toml" if number == 1 else f"{stem}-{number}.toml")
            if path.exists():
                if path.read_bytes() == data:
                    return path
                continue
            return _write_new(path, data)
    except OSError as error:
        raise AdhesiveNotKept(folder, error.strerror or say("not allowed")) from None
    raise AdhesiveNotKept(folder, say("there are a thousand files of the name {stem}", stem=stem))


def _write_new(path: Path, data: bytes) -> Path:
    """Write a file that is not there yet; one that cannot be written whole is taken away again."""
    file = os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | O_BINARY, 0o600), "wb")
    try:
        with file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except OSError:
        path.unlink(missing_ok=True)
        raise
    return path


def file_stem(name: str) -> str:
    """Return a name as a file's: small Latin letters, digits and hyphens; "adhesive" where none are left."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain)[:MOST_STEM].strip("-") or "adhesive"
