"""Seal a row of the book, so that a bit that flipped on the disk is noticed when the row is read.

SQLite checks how its pages hang together, not what stands in them: a changed digit in an entry reads as
well as before. The seal is the CRC-32 of what the row says (ISO 3309, zlib's), kept beside it; None for a
row written before version 4 of the tables, which had no seals.
"""

from __future__ import annotations

import zlib

# between two parts, so that none can pass into the next; no part holds it as it is written
_BETWEEN = "\x1f"


def seal_of(*parts: object) -> int:
    """Return the seal of the parts of a row, as Python writes them; SQLite gives numbers back the same."""
    return zlib.crc32(_BETWEEN.join(map(str, parts)).encode("utf-8", "surrogatepass"))


def is_whole(seal: int | None, *parts: object) -> bool:
    """Tell whether a row says what it said when it was sealed; one without a seal is believed."""
    return seal is None or seal == seal_of(*parts)
