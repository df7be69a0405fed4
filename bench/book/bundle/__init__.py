"""One file that carries a panel to another tablet: written whole, read with suspicion."""

from bench.book.bundle.layout import (
    DraftLine,
    EntryLine,
    Manifest,
    MarkLine,
    Member,
    PanelLine,
    extension_of,
    files_named,
)
from bench.book.bundle.read import Bundle, at_line, is_bundle, open_bundle
from bench.book.bundle.write import lines_of, write_bundle

__all__ = [
    "Bundle",
    "DraftLine",
    "EntryLine",
    "Manifest",
    "MarkLine",
    "Member",
    "PanelLine",
    "at_line",
    "extension_of",
    "files_named",
    "is_bundle",
    "lines_of",
    "open_bundle",
    "write_bundle",
]
