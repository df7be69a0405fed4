"""Lines thinned to one pixel, and where they end loose."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Bools = NDArray[np.bool_]
Codes = NDArray[np.uint8]
Index = NDArray[np.int64]

# the eight around a pixel, clockwise from above: bit k of a code is neighbour k
ROUND_Y = np.array([-1, -1, 0, 1, 1, 1, 0, -1])
ROUND_X = np.array([0, 1, 1, 1, 0, -1, -1, -1])
_SIDES_FIRST = np.array([0, 2, 4, 6, 1, 3, 5, 7])


def _bits() -> NDArray[np.int64]:
    return (np.arange(256)[:, None] >> np.arange(8)) & 1


def _goes() -> tuple[Bools, Bools]:
    """Return for each code whether its pixel goes, in either half of a pass."""
    n, ne, e, se, s, sw, w, nw = _bits().T.astype(bool)
    strands = sum(a.astype(int) for a in (~n & (ne | e), ~e & (se | s), ~s & (sw | w), ~w & (nw | n)))
    one = sum(a.astype(int) for a in (nw | n, ne | e, se | s, sw | w))
    two = sum(a.astype(int) for a in (n | ne, e | se, s | sw, w | nw))
    few = np.minimum(one, two)
    free = (strands == 1) & (few >= 2) & (few <= 3)
    return free & ~((s | sw | ~nw) & w), free & ~((n | ne | ~se) & e)


def thinned(dark: Bools) -> Bools:
    """Return dark areas thinned to lines of one pixel that keep their connections and ends.

    Guo & Hall, Comm. ACM 32 (1989) 359: two half passes in turn, until nothing goes.
    """
    padded = np.pad(dark, 1).view(np.uint8)
    flat = padded.ravel()
    wide = padded.shape[1]
    here = np.flatnonzero(flat)
    goes = _goes()
    half, idle = 0, 0
    while idle < 2 and len(here):
        gone = goes[half][_codes(flat, here, wide)]
        flat[here[gone]] = 0
        here = here[~gone]
        idle = 0 if gone.any() else idle + 1
        half = 1 - half
    return padded[1:-1, 1:-1].view(bool)


def _codes(flat: Codes, here: Index, wide: int) -> Codes:
    code = np.zeros(len(here), np.uint8)
    for k, step in enumerate((ROUND_Y * wide + ROUND_X).tolist()):
        code |= flat[here + step] << np.uint8(k)
    return code


def loose_ends(thin: Bools, long_px: int) -> tuple[Index, NDArray[np.float64]]:
    """Return (y, x) of each loose end of thinned lines, and the way on from there, of length 1.

    An end has one strand to it (crossing number 1, Rutovitz 1966) and a line behind it for at least
    `long_px` before the next branching: anything shorter is a burr of the thinning, or a speck.
    """
    padded = np.pad(thin, 1).view(np.uint8)
    flat, wide = padded.ravel(), padded.shape[1]
    steps = (ROUND_Y * wide + ROUND_X)[_SIDES_FIRST]
    bits = _bits()
    strands = ((bits == 0) & (np.roll(bits, -1, axis=1) == 1)).sum(axis=1)
    here = np.flatnonzero(flat)
    code = _codes(flat, here, wide)
    tip = here[(strands[code] == 1) & (bits.sum(axis=1)[code] <= 2)]
    now, before, alive = tip.copy(), np.stack([tip, tip]), np.ones(len(tip), bool)
    for _ in range(long_px):
        around = now[:, None] + steps
        on = (flat[around] > 0) & (around != before[0][:, None]) & (around != before[1][:, None])
        alive &= on.any(axis=1) & (strands[_codes(flat, now, wide)] <= 2)
        onto = around[np.arange(len(now)), np.argmax(on, axis=1)]
        before = np.stack([np.where(alive, now, before[0]), before[0]])
        now = np.where(alive, onto, now)
    tip, now = tip[alive], now[alive]
    y, x = np.divmod(tip, wide)
    back_y, back_x = np.divmod(now, wide)
    way = np.stack([y - back_y, x - back_x], axis=1).astype(float)
    place = np.stack([y - 1, x - 1], axis=1)
    return place, way / np.maximum(np.hypot(*way.T), 1e-9)[:, None]
