"""What to buy for a panel: the need of each glass, less what is on hand, in whole sheets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bench.finish.cut_waste import DEFAULT_CUT_WASTE, sheet_area_mm2
from bench.finish.glass import Glass, GlassList
from bench.finish.sheets import Purchase, Sheet

USUAL_SHEET = Sheet(300, 300)  # common practice, no source


@dataclass(frozen=True)
class Wanted:
    """One glass in sheets.

    need_mm2: what is cut up, waste included; on_hand_mm2: what lies in the rack; buy: sheets of each size;
    fits: whether any size given holds its longest piece; where none does nothing can be bought.
    """

    glass: Glass
    need_mm2: float
    on_hand_mm2: float
    buy: tuple[tuple[Sheet, int], ...]
    fits: bool


def wanted(
    listed: GlassList,
    sizes: Sequence[Sheet] = (USUAL_SHEET,),
    *,
    cut_waste: float = DEFAULT_CUT_WASTE,
    on_hand_mm2: Sequence[float] = (),
) -> tuple[Wanted, ...]:
    """Return what each glass takes of sheet and what to buy: the least area, of equals the fewest sheets.

    Only sizes that hold every piece of the glass count. on_hand_mm2: (g,), empty for none; it is taken for
    usable whatever its shape. Raises AmountOutOfRange, BadSheet or TooManySizes.
    """
    needs = [sheet_area_mm2(glass.area_mm2, cut_waste) for glass in listed.glasses]
    held = list(on_hand_mm2) or [0.0] * len(needs)
    purchases: dict[tuple[Sheet, ...], Purchase] = {}
    found = []
    for glass, need, there in zip(listed.glasses, needs, held, strict=True):
        fitting = tuple(s for s in sizes if s.holds(glass.widest_mm, glass.longest_mm))
        if fitting and fitting not in purchases:
            purchases[fitting] = Purchase(fitting, max(needs))
        short = max(0.0, need - there)
        buy = tuple(purchases[fitting].buy(short).items()) if fitting else ()
        found.append(Wanted(glass, need, there, buy, bool(fitting)))
    return tuple(found)
