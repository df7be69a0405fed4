"""Sheets on hand: a table, and which glass of the panel each row is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from bench.drawing.colour import RGB, srgb_to_lab
from bench.drawing.panel import GLASS_KINDS
from bench.finish.alike import nearest_alike
from bench.finish.glass import GlassList
from bench.finish.sheets import Sheet, sheet_of
from bench.speech import LANGUAGES, Tongue, say
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
    for line, cell in read_table(path, COLUMNS, of=say("sheets on hand")):
        if len(rows) == MOST_ROWS:
            what = say("more than {most} rows", most=MOST_ROWS)
            raise BadTable(what, path=path, line=line, todo=say("give fewer rows"))
        rows.append(_on_hand(path, line, cell))
    return rows


def _on_hand(path: Path, line: int, cell: dict[str, str]) -> OnHand:
    code = _CODE.search(cell["glass"])
    if not code:
        what = say("{cell} names no glass", cell=quoted(cell["glass"]))
        todo = say("name it as the glass list does, with the code of its colour, e.g. clear blue #2a5caa")
        raise BadTable(what, path=path, line=line, column="glass", todo=todo)
    for column in COLUMNS[1:]:
        if whole_in(cell[column]) is None:
            what, todo = (
                say("{cell} is no whole number", cell=quoted(cell[column])),
                say("write digits alone, 0 or more"),
            )
            raise BadTable(what, path=path, line=line, column=column, todo=todo)
    number = int(code[1], 16)
    where = say("{path}, line {line}", path=path, line=line)
    return OnHand(
        name=cell["glass"],
        kind=_kind_named(cell["glass"]),
        colour=(number >> 16, number >> 8 & 255, number & 255),
        sheet=sheet_of(f"{cell['width_mm']}x{cell['height_mm']}", where=where),
        sheets=int(cell["sheets"]),
    )


def _kind_named(glass: str) -> str:
    """Return the kind that a glass's name tells, in any language that the glass list is written in."""
    named = set(re.findall(r"\w+", glass.lower()))
    for language in LANGUAGES:
        words = Tongue(language).words
        for kind in GLASS_KINDS:
            if kind in named or words.gettext(kind).lower() in named:
                return kind
    return GLASS_KINDS[0]


def on_hand_mm2(
    listed: GlassList, stock: Sequence[OnHand], *, like_de: float = 0.0
) -> tuple[list[float], list[OnHand]]:
    """Return how much sheet of each glass is on hand, and the rows that are no glass of this panel. [mm²]

    A row belongs to the glass of its kind that is nearest in colour, and no farther off than `like_de`.
    """
    area_mm2 = [0.0] * len(listed.glasses)
    strangers: list[OnHand] = []
    lab, asked = listed.lab, srgb_to_lab(np.array([row.colour for row in stock]).reshape(-1, 3))
    for kind in GLASS_KINDS:
        mine = [k for k, row in enumerate(stock) if row.kind == kind]
        of_kind = [g for g, glass in enumerate(listed.glasses) if glass.kind == kind]
        for k, found in zip(mine, nearest_alike(lab[of_kind], asked[mine], like_de).tolist(), strict=True):
            if found < 0:
                strangers.append(stock[k])
            else:
                area_mm2[of_kind[found]] += float(stock[k].sheet.area_mm2 * stock[k].sheets)
    return area_mm2, strangers
