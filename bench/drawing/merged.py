"""Tesserae of two drawings → one panel, each exactly as its own drawing has it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from bench.drawing.across import end_to_end
from bench.drawing.built import MOST_TESSERAE
from bench.drawing.faults import TooManyShapes
from bench.drawing.joints import joints_of
from bench.drawing.names import unique_names
from bench.drawing.panel import IntArray, Panel
from bench.drawing.rings import rings_of
from bench.drawing.svg_out import in_groups

Some = NDArray[np.integer]


def boards_of(panel: Panel) -> tuple[str, ...]:
    """Return the board of each tessera, "" for all where they lie on one."""
    return panel.board or ("",) * panel.tessera_count


def merged(old: Panel, stay: Some, new: Panel, come: Some) -> tuple[Panel, NDArray[np.int64]]:
    """Return the panel of some tesserae of either drawing, and the place in it of all n + m, -1 for none.

    What stays keeps its id, what comes gets another one where its own is taken. Groups of one name are one.
    Page, outline and what was left out are the new drawing's. The order is that in which `write_svg` writes.
    Raises TooManyShapes beyond 150,000.
    """
    if len(stay) + len(come) > MOST_TESSERAE:
        raise TooManyShapes(new.name, len(stay) + len(come), MOST_TESSERAE)
    n = old.tessera_count
    chosen = np.concatenate([stay, np.asarray(come) + n])
    every_id = (*old.ids, *new.ids)
    ids = unique_names([every_id[k] for k in chosen.tolist()])  # the first of equals keeps its own
    group, group_names = _groups(old, new, chosen)
    order = np.array([k for some in in_groups(group) for k in some], np.int64)
    place = np.full(n + new.tessera_count, -1, np.int64)
    place[chosen[order]] = np.arange(len(chosen))
    panel = replace(
        _taken(old, new, chosen[order]),
        ids=tuple(ids[k] for k in order.tolist()),
        group=group[order],
        group_names=group_names,
    )
    return panel, place


def _taken(old: Panel, new: Panel, chosen: NDArray[np.int64]) -> Panel:
    """Return the new panel with the chosen tesserae of both, but for ids and groups."""
    rings, first = end_to_end(old, new)
    rings, tessera_ring = rings_of(rings, first, chosen)
    ring_start = rings.start.astype(np.int32)
    area_mm2 = np.concatenate([old.area_mm2, new.area_mm2])[chosen]
    adhesive, every_board = (*old.adhesive, *new.adhesive), (*boards_of(old), *boards_of(new))
    board = tuple(every_board[k] for k in chosen.tolist())
    return replace(
        new,
        points_mm=rings.points_mm,
        ring_start=ring_start,
        tessera_ring=tessera_ring,
        area_mm2=area_mm2,
        centroid_mm=np.concatenate([old.centroid_mm, new.centroid_mm])[chosen],
        colour=np.concatenate([old.colour, new.colour])[chosen],
        glass=np.concatenate([old.glass, new.glass])[chosen],
        adhesive=tuple(adhesive[k] for k in chosen.tolist()),
        board=board if any(board) else (),
        joints=joints_of(rings.points_mm, ring_start, tessera_ring, area_mm2),
    )


def _groups(old: Panel, new: Panel, chosen: NDArray[np.int64]) -> tuple[IntArray, tuple[str, ...]]:
    """Return the group of each chosen tessera, and the names."""
    names = [p.group_names[g] if g >= 0 else "" for p in (old, new) for g in p.group.tolist()]
    own = [names[k] for k in chosen.tolist()]
    place = {name: k for k, name in enumerate(dict.fromkeys(name for name in own if name))}
    return np.array([place.get(name, -1) for name in own], np.int32), tuple(place)
