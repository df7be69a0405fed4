"""The true fewest sections of a tiny panel: all connected sets in the load window, and an exact cover.

Shares nothing with the divider. Sets are listed by growing them from their smallest tessera (Wernicke 2006);
OR-tools' CP-SAT decides whether so many of them cover every tessera once.
"""

from __future__ import annotations

import math

import numpy as np
from ortools.sat.python import cp_model

from bench.sections.ground import Ground
from tests.tools.panels import ground as generated
from tests.tools.panels import with_capacity

MOST_SETS = 400_000


def tiny(seed: int) -> Ground:
    """Return a panel of 40 to 80 tesserae for 6 to 10 sections, at 0.1 to 3 % slack."""
    rng = np.random.default_rng([seed, 9])
    count, sections, slack = int(rng.integers(40, 80)), int(rng.integers(6, 11)), rng.uniform(0.001, 0.03)
    ground = generated(
        "square", count, seed, per_section=count / sections, spread=0.35, prefer="fewest", adhesives=1
    )
    wanted_s = ground.expected_s.sum() / sections / (1 - slack)
    return with_capacity(ground, wanted_s / float(ground.cap_s[0]))


class Undecided(Exception):
    """There are too many sets, or the solver's time was up."""


def fewest_sections(ground: Ground, *, limit_s: float = 30.0, most: int = 3) -> int:
    """Return the fewest legal sections of a connected ground of one adhesive; at most `most` above the bound.

    Raises Undecided where it cannot be told.
    """
    cap = float(ground.cap_s[0])
    total = math.fsum(ground.expected_s)
    bound = max(1, math.ceil(total / cap))
    for count in range(bound, bound + most + 1):
        sets = connected_sets(ground, total - (count - 1) * cap, cap)
        if _covered(ground.count, sets, count, limit_s):
            return count
    raise Undecided(f"more than {most} above the bound")


def connected_sets(ground: Ground, least_s: float, most_s: float) -> list[tuple[int, ...]]:
    """List the connected sets of tesserae whose seconds lie in the window."""
    near: list[set[int]] = [set() for _ in range(ground.count)]
    for a, b in ground.pair.tolist():
        near[a].add(b)
        near[b].add(a)
    seconds = ground.expected_s.tolist()
    found: list[tuple[int, ...]] = []

    def grow(own: tuple[int, ...], open_: set[int], seen: set[int], load: float) -> None:
        if load >= least_s - 1e-9:
            found.append(own)
            if len(found) > MOST_SETS:
                raise Undecided(f"more than {MOST_SETS} sets")
        open_ = set(open_)
        while open_:
            v = open_.pop()
            if load + seconds[v] <= most_s:
                fresh = {u for u in near[v] if u > own[0] and u not in seen}
                grow((*own, v), open_ | fresh, seen | fresh, load + seconds[v])

    for v in range(ground.count):
        if seconds[v] <= most_s:
            beside = {u for u in near[v] if u > v}
            grow((v,), beside, beside | {v}, seconds[v])
    return found


def _covered(count: int, sets: list[tuple[int, ...]], sections: int, limit_s: float) -> bool:
    """Say whether so many of the sets hold every tessera once."""
    model = cp_model.CpModel()
    taken = [model.new_bool_var("") for _ in sets]
    holding: list[list[cp_model.IntVar]] = [[] for _ in range(count)]
    for variable, members in zip(taken, sets, strict=True):
        for v in members:
            holding[v].append(variable)
    if not all(holding):
        return False
    for variables in holding:
        model.add_exactly_one(variables)
    model.add(sum(taken) == sections)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = limit_s
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    answer = solver.solve(model)
    if answer in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return True
    if answer == cp_model.INFEASIBLE:
        return False
    raise Undecided("the solver's time was up")
