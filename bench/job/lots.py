"""What stands on a bag or bottle as its lot: short, and readable."""

from __future__ import annotations

from bench.job.stock_faults import LotUnreadable

LONGEST_LOT = 40


def check_lot(lot: str) -> None:
    """Raise LotUnreadable for a lot that no label has."""
    if len(lot) > LONGEST_LOT or not lot.isprintable():
        raise LotUnreadable(lot, LONGEST_LOT)
