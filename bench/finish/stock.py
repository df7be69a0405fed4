"""Sheets on hand: a table, and which glass of the panel each row is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from bench.drawing import GLASS_KINDS, delta_e_2000, srgb_to_lab
from bench.finish.glass import RGB, GlassList
from bench.finish.sheets import Sheet, sheet_of
from bench.table import BadTable, quoted, read_table, whole_in

COLUMNS = ("glass", "width_mm", "height_mm", "sheets")
MOST_ROWS = 100_000
_CODE = re.compile(r"#([0-9a-fA-F]{6})")


@dataclass(frozen=True)
class OnHand:
    """Sheets of one glass and size that lie in the rack."""

    name: str
    kind: str
    colour: RGB
    sheet: Sheet
    sheets: int


def read_stock(path: Path) -> list[OnHand]:
    """Read a table of sheets on hand: glass, width_mm, height_mm (whole mm) and sheets (how many).

    A glass is named as the glass list names it; its kind and the code of its colour count, other words do
    not. Anything that cannot be raises BadTable, or BadSheet with file and line.
    """
    rows: list[OnHand] = []
    for line, cell in read_table(path, COLUMNS, of="sheets on hand"):
        if len(rows) == MOST_ROWS:
            raise BadTable(f"more than {MOST_ROWS} rows", path=path, line=line, todo="give fewer rows")
        rows.append(_on_hand(path, line, cell))
    return rows


def _on_hand(path: Path, line: int, cell: dict[str, str]) -> OnHand:
    code = _CODE.search(cell["glass"])
    if not code:
        what = f"{quoted(cell['glass'])} names no glass"
        todo = "name it as the glass list does, with the code of its colour, e.g. clear blue #2a5caa"
        raise BadTable(what, path=path, line=line, column="glass", todo=todo)
    for column in COLUMNS[1:]:
        if whole_in(cell[column]) is None:
            what = f"{quoted(cell[column])} is no whole number"
            raise BadTable(what, path=path, line=line, column=column, todo="write digits alone, 0 or more")
    number = int(code[1], 16)
    said = cell["glass"].lower().split()
    return OnHand(
        name=cell["glass"],
        kind=next((kind for kind in GLASS_KINDS if kind in said), GLASS_KINDS[0]),
        colour=(number >> 16, number >> 8 & 255, number & 255),
        sheet=sheet_of(f"{cell['width_mm']}x{cell['height_mm']}", where=f"{path}, line {line}"),
        sheets=int(cell["sheets"]),
    )


def on_hand_mm2(
    listed: GlassList, stock: Sequence[OnHand], *, like_de: float = 0.0
) -> tuple[list[float], list[OnHand]]:
    """Return how much sheet of each glass is on hand, and the rows that are no glass of this panel. [mm²]

    A row belongs to the glass of its kind that is nearest in colour, and no farther off than `like_de`.
    """
    area_mm2 = [0.0] * len(listed.glasses)
    strangers: list[OnHand] = []
    lab = listed.lab
    kinds = np.array([g.kind for g in listed.glasses])
    for row in stock:
        away = np.where(kinds == row.kind, delta_e_2000(lab, srgb_to_lab(row.colour)), np.inf)
        nearest = int(away.argmin()) if len(away) else -1
        if nearest < 0 or not away[nearest] <= like_de:
            strangers.append(row)
            continue
        area_mm2[nearest] += float(row.sheet.area_mm2 * row.sheets)
    return area_mm2, strangers
