"""Numbers for the sections of a new division, so that a maker finds the old ones again."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import FloatArray


def matched_numbers(
    label: NDArray[np.integer], old_number: NDArray[np.integer], weight: FloatArray, used_numbers: set[int]
) -> tuple[int, ...]:
    """Return a number for each label 0..k-1, matched to the old numbers by greatest overlap.

    old_number: (n,), below 1 where a tessera had none. A number in used_numbers is never given; a section
    without a partner gets the next one above every number old or used. weight: (n,) what overlap counts.
    """
    k = int(label.max(initial=-1)) + 1
    free = (old_number > 0) & ~np.isin(old_number, list(used_numbers))
    pairs, place = np.unique(np.stack([label[free], old_number[free]], 1), axis=0, return_inverse=True)
    overlap = np.bincount(place.reshape(-1), weight[free], len(pairs))
    number: dict[int, int] = {}
    taken: set[int] = set()
    for i in np.lexsort((pairs[:, 1], pairs[:, 0], -overlap)).tolist():
        section, old = pairs[i].tolist()
        if section not in number and old not in taken:
            number[section] = old
            taken.add(old)
    following = max([0, *used_numbers, *np.asarray(old_number).tolist()]) + 1
    for section in range(k):
        if section not in number:
            number[section] = following
            following += 1
    return tuple(number[section] for section in range(k))
