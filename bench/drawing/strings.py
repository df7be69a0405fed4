"""Things that each name the one that follows → strings of them in order, all at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.rings import Counts

Bools = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Strings:
    """String k is order[start[k]:start[k + 1]]; a closed one's last thing is followed by its first."""

    order: Counts
    start: Counts
    closed: Bools

    def __len__(self) -> int:
        return len(self.start) - 1

    def string_of_place(self) -> Counts:
        return np.repeat(np.arange(len(self)), np.diff(self.start))


def strung(after: Counts) -> Strings:
    """Return the strings that `after` makes of n things.

    after: (n,) which follows each, -1 for none; no two are followed by the same. A closed string begins
    with its lowest number. List ranking by pointer doubling (Wyllie 1979): the work is n log(longest).
    """
    n = len(after)
    last = _last_ones(after)
    here = np.arange(n, dtype=after.dtype)
    jump = np.where(last, here, after)
    far = (~last).astype(after.dtype)
    while True:
        further = far + far[jump]
        if np.array_equal(further, far):
            break
        far, jump = further, jump[jump]
    ends = np.flatnonzero(last)
    counts = np.bincount(jump, minlength=n)[ends]
    start = np.concatenate([[0], np.cumsum(counts)])
    stop = np.zeros(n, np.int64)
    stop[ends] = start[1:] - 1
    order = np.empty(n, np.int64)
    order[stop[jump] - far] = here
    return Strings(order, start, after[ends] >= 0)


def _last_ones(after: Counts) -> Bools:
    """Return which things end a string: those that none follows, in each round the one before the lowest."""
    from scipy.sparse import csr_matrix
    from scipy.sparse.csgraph import connected_components

    n, followed = len(after), after >= 0
    row = np.concatenate([[0], np.cumsum(followed)])
    arrows = csr_matrix((np.ones(int(row[-1]), np.int8), after[followed], row), shape=(n, n))
    count, string = connected_components(arrows, connection="weak")
    lowest = np.empty(count, np.int64)
    lowest[string[::-1]] = np.arange(n)[::-1]
    lowest[string[~followed]] = -1  # it has an end already
    last: Bools = ~followed | (lowest[string] == after)
    return last
