"""How much of a sheet never gets onto the panel, and what the sheets used so far teach about it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from pathlib import Path

from bench.finish.faults import AmountOutOfRange, BadCut
from bench.speech import say
from bench.table import BadTable, number_in, quoted, read_table

DEFAULT_CUT_WASTE = 0.35  # share of the sheet: common practice, no source
MOST_CUT_WASTE = 0.95
USED_COLUMNS = ("used_cm2", "laid_cm2")
PRIOR_SHEET_MM2 = 3 * 300.0 * 300.0  # what the default is worth against sheets that were used


def read_used(path: Path) -> list[tuple[float, float]]:
    """Read a table of what was cut up before and what of it was laid, a row for each panel or glass. [mm²]

    Columns: used_cm2, laid_cm2. Anything that cannot be raises BadTable.
    """
    out = []
    for line, cell in read_table(path, USED_COLUMNS, of=say("sheets used")):
        used, laid = (number_in(cell[column]) * 100.0 for column in USED_COLUMNS)
        if not 0 <= laid <= used or used == 0:
            what = say(
                "{laid} cm² laid of {used} cm² of sheet cannot be",
                laid=quoted(cell["laid_cm2"]),
                used=quoted(cell["used_cm2"]),
            )
            todo = say("give square centimetres, no more laid than was cut up")
            raise BadTable(what, path=path, line=line, column="laid_cm2", todo=todo)
        out.append((used, laid))
    return out


def sheet_area_mm2(laid_mm2: float, cut_waste: float) -> float:
    """Return how much sheet is cut up for so much glass laid: laid / (1 − cut_waste). [mm²]

    cut_waste: the share of the sheet that is not laid, 0 to 0.95. Raises AmountOutOfRange.
    """
    if not 0 <= cut_waste <= MOST_CUT_WASTE:
        allowed = say("a share from 0 to {most:g}", most=MOST_CUT_WASTE)
        raise AmountOutOfRange(say("cutting waste"), cut_waste, allowed)
    return laid_mm2 / (1.0 - cut_waste)


def learned_cut_waste(
    used_and_laid_mm2: Iterable[tuple[float, float]], *, before: float = DEFAULT_CUT_WASTE
) -> float:
    """Return the share of cutting waste after so many pairs of sheet used and area laid.

    share = (P·before + Σ(used − laid)) / (P + Σ used): what was used weighs by its area, and the share from
    before as much as P = 0.27 m², three sheets of 300 mm square. No pairs return it as it was; ten times P
    leave a tenth of it. At most 0.95. Raises BadCut for a pair that cannot be.
    """
    used_mm2 = wasted_mm2 = 0.0
    for used, laid in used_and_laid_mm2:
        if not (math.isfinite(used) and used > 0 and 0 <= laid <= used):
            raise BadCut(used, laid)
        used_mm2 += used
        wasted_mm2 += used - laid
    share = (PRIOR_SHEET_MM2 * before + wasted_mm2) / (PRIOR_SHEET_MM2 + used_mm2)
    return min(share, MOST_CUT_WASTE)
