"""Polish under the exact cap: moves and swaps between neighbouring sections that leave both within it."""

from __future__ import annotations

import math

import numpy as np

from bench.sections.shape import HARD, Shape
from bench.sections.sides import Sides, best_step, section_pairs

STEPS_A_PAIR = 3  # moves or swaps between two sections, at most
COST_OF_A_PAIR = 40  # steps of the budget that looking at one pair of sections takes


def swap(shape: Shape, rng: np.random.Generator) -> int:
    """Take, between each two neighbouring sections, the moves and swaps that save cut and spread.

    A shape within the capacity stays within it. Returns the steps of the budget used.
    """
    pairs = section_pairs(shape.mesh, shape.label())
    shape.refresh(shape.label())
    sides = Sides(shape)
    for section, other in rng.permutation(pairs).tolist():
        both = shape.load[section] + shape.load[other]

        def missed(after: float, both: float = both) -> float:
            return 0.0 if after <= HARD and both - after <= HARD else math.inf

        for _ in range(STEPS_A_PAIR):
            if missed(shape.load[section]) > 0:
                break
            step = best_step(shape, sides, section, other, missed, swaps=True)
            if step is None:
                break
            sides.take(step)
    return COST_OF_A_PAIR * len(pairs)
