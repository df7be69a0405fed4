"""Which panel a drawing belongs to, and what it shows, read once."""

from __future__ import annotations

import hashlib

from bench import __version__
from bench.book import Store
from bench.book.events import DrawingRevised
from bench.book.rows import PanelRow
from bench.drawing.packed import FORMAT, pack, unpack
from bench.drawing.panel import Panel
from bench.job.fold import undone_acts


def panels_of_drawing(store: Store, sha256: str) -> list[PanelRow]:
    """Return the panels that were opened from a file, or have taken it as a revised drawing, oldest first."""
    entries = store.of_kinds(("drawing_revised", "act_undone"))
    undone = undone_acts(entries)
    taken = {
        x.panel_id
        for x in entries
        if isinstance(x.event, DrawingRevised) and x.act_id not in undone and x.event.given_sha256 == sha256
    }
    return [p for p in store.panels() if p.drawing_sha256 == sha256 or p.panel_id in taken]


def read_again(
    store: Store, name: str, sha256: str, width_mm: float | None = None, height_mm: float | None = None
) -> Panel:
    """Return what a drawing of the book shows, from what was kept of it where it was read before."""
    key = _key(name, sha256, width_mm, height_mm)
    kept = store.readings.get(key)
    panel = None if kept is None else unpack(kept)
    if panel is None:
        from bench.drawing.svg import read_drawing  # not at start: what was read once is kept packed

        panel = read_drawing(store.blob(sha256), name, width_mm=width_mm, height_mm=height_mm)
        store.readings.put(key, pack(panel))
    return panel


def _key(name: str, sha256: str, width_mm: float | None, height_mm: float | None) -> str:
    """Name a reading by all that it hangs on: the file, the size asked for, and who reads it."""
    asked = f"{name}|{sha256}|{width_mm!r}|{height_mm!r}|{__version__}|{FORMAT}"
    return f"{hashlib.sha256(asked.encode()).hexdigest()}.panel"
