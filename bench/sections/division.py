"""A division of a ground into sections."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import IntArray


@dataclass(frozen=True, eq=False)
class Division:
    """Say for each of n tesserae which of k sections it belongs to.

    label: (n,) 0..k-1, every number in use, in the order of first appearance.
    done: share of the search that is behind, 0 to 1, for a progress bar.
    """

    label: IntArray
    done: float = 1.0

    @staticmethod
    def of(label: NDArray[np.integer], done: float = 1.0) -> Division:
        """Return the division that any labelling means, numbered in the order of first appearance."""
        return Division(in_order(label), done)

    @property
    def section_count(self) -> int:
        return int(self.label.max()) + 1 if len(self.label) else 0

    def members(self, section: int) -> IntArray:
        """List the tesserae of one section; none for a number not in use."""
        return np.flatnonzero(self.label == section).astype(np.int32)


def in_order(label: NDArray[np.integer]) -> IntArray:
    """Renumber labels 0..k-1 in the order of first appearance, (n,)."""
    if not len(label):
        return np.zeros(0, np.int32)
    _, first, inverse = np.unique(label, return_index=True, return_inverse=True)
    rank = np.empty(len(first), np.int32)
    rank[np.argsort(first, kind="stable")] = np.arange(len(first), dtype=np.int32)
    return np.asarray(rank[inverse.reshape(-1)], np.int32)
