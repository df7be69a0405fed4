"""The exact cap, gently: what a section has too much is handed to the nearest one with room, hop by hop."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from bench.sections.shape import HARD, Shape
from bench.sections.sides import Sides, best_step, section_pairs

ROUNDS = 6
HOPS = 6  # how far room is looked for
STEPS_A_HOP = 3
PRICE = 20.0  # of missing what is to be handed on by a mean tessera, in mean joints
FURTHER, OVERFILLED = 0.2, 5.0  # of handing on more than that, and of overfilling, against PRICE
SHORT_OF = 0.5  # room for this share of what is too much is worth a way

Beside = dict[int, list[int]]


def relieve(shape: Shape, rng: np.random.Generator) -> bool:
    """Bring overfull sections within the capacity through chains of moves and swaps; say whether all are.

    Each chain leads from an overfull section to the nearest one with room for at least part of it, and is
    worked from its far end, so that there is room at every hop. What lies elsewhere is not touched.
    """
    for _ in range(ROUNDS):
        full = [s for s, load in enumerate(shape.load) if load > HARD]
        if not full:
            return True
        beside = neighbours_of(shape)
        sides = Sides(shape)
        before = sum(shape.load[s] - HARD for s in full)
        for section in rng.permutation(full).tolist():
            hand_on(shape, sides, beside, section, HARD)
        if sum(max(load - HARD, 0.0) for load in shape.load) >= before - 1e-12:
            return False
    return max(shape.load) <= HARD


def neighbours_of(shape: Shape) -> Beside:
    """Return, for each section, those that share a joint with it."""
    beside: Beside = {s: [] for s in range(shape.k)}
    for a, b in section_pairs(shape.mesh, shape.label()).tolist():
        beside[a].append(b)
        beside[b].append(a)
    return beside


def hand_on(shape: Shape, sides: Sides, beside: Beside, section: int, least: float) -> None:
    """Hand what a section holds above a load on to where there is room, as far as one chain goes."""
    surplus = shape.load[section] - least
    if surplus <= 0:
        return
    way = _way_to_room(shape, beside, section, surplus)
    unit = shape.mesh.unit_mm
    each = PRICE * unit * shape.mesh.count / max(float(shape.mesh.load.sum()), 1e-12)
    for giver, taker in reversed(list(pairwise(way))):
        last = taker == way[-1]
        amount = min(surplus, HARD - shape.load[taker]) if last else surplus
        _hop(shape, sides, giver, taker, amount, HARD if last else HARD + surplus, each)


def _hop(shape: Shape, sides: Sides, giver: int, taker: int, amount: float, most: float, each: float) -> None:
    """Hand about so much load from one section to its neighbour, which may hold `most` afterwards."""
    wanted, both = shape.load[giver] - amount, shape.load[giver] + shape.load[taker]

    def missed(after: float) -> float:
        still = max(after - wanted, 0.0) + FURTHER * max(wanted - after, 0.0)
        return each * (still + OVERFILLED * max(both - after - most, 0.0))

    for _ in range(STEPS_A_HOP):
        if shape.load[giver] <= wanted:
            break
        step = best_step(shape, sides, giver, taker, missed, swaps=True)
        if step is None:
            break
        sides.take(step)


def _way_to_room(shape: Shape, beside: Beside, section: int, surplus: float) -> list[int]:
    """Return the sections from an overfull one to the nearest with room; the roomiest of the nearest."""
    parent, ring = {section: -1}, [section]
    best, best_room = section, 0.0
    for _ in range(HOPS):
        fresh: dict[int, int] = {b: a for a in ring for b in beside[a] if b not in parent}
        parent |= fresh
        ring = list(fresh)
        for b in ring:
            if HARD - shape.load[b] > best_room:
                best, best_room = b, HARD - shape.load[b]
        if best_room >= SHORT_OF * surplus or not ring:
            break
    way = [best]
    while parent[way[-1]] >= 0:
        way.append(parent[way[-1]])
    return way[::-1]
