"""Which panel a drawing belongs to."""

from __future__ import annotations

from bench.book import Store
from bench.book.events import DrawingRevised
from bench.book.rows import PanelRow
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
