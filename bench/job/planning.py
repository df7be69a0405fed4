"""From a drawing, the adhesives and what is known of the hands to sections that keep the promise.

The divider works with a linear bound, `capacity_s` for each adhesive. The hard rule is each section's
own probability, with its own pieces, area and batch; where one misses it, the bound of its adhesive is
tightened and the ground divided again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from bench.book.events import Promise
from bench.job.sizing import FloatArray, IntArray, Sizer
from bench.pace import Capacity
from bench.sections import (
    Ground,
    best_division,
    facts_of,
    ground_of,
    lower_bound,
    oversize,
    redivide,
    whole_order,
)

_TIGHTENINGS = 8
MOST_FORESEEN = 150
FIRM_AFTER_S = 4 * 3600.0  # typical; only the order hangs on it


@dataclass(frozen=True, eq=False)
class Plan:
    """Sections for all ground asked for, and the figures that they rest on.

    promises: the sections, by number. capacities: of each adhesive, before any tightening. expected_s:
    of each tessera of the panel. (n,) lower_bound: the fewest sections the divider's bound allows.
    warnings: what the maker should know.
    """

    promises: tuple[Promise, ...]
    capacities: Mapping[str, Capacity]
    expected_s: FloatArray
    lower_bound: int
    warnings: tuple[str, ...]


def plan_ground(
    sizer: Sizer,
    *,
    keep: IntArray | None = None,
    before: IntArray | None = None,
    used_numbers: frozenset[int] = frozenset(),
    seed: int = 0,
) -> Plan:
    """Divide the ground so that every section keeps the promise.

    keep: the tesserae to divide; all if None. before: (n,) the section each was drawn into, 0 for none;
    given, the division is matched to it. used_numbers: of sections that are no longer drawn.
    """
    names = tuple(dict.fromkeys(sizer.tessera_adhesive))
    adhesive = np.array([names.index(n) for n in sizer.tessera_adhesive], dtype=np.int32)
    sizings = {name: sizer.sizing(name) for name in names}
    divider_s = np.zeros(sizer.panel.tessera_count)
    for k, name in enumerate(names):
        divider_s[adhesive == k] = sizer.divider_s(sizings[name])[adhesive == k]
    capacity_s = np.array([sizings[n].capacity.capacity_s for n in names])
    drawn = before
    for attempt in range(_TIGHTENINGS + 1):
        ground = ground_of(
            sizer.panel,
            expected_s=divider_s,
            adhesive=adhesive,
            capacity_s=capacity_s,
            prefer=sizer.bench.prefer,
            keep=keep,
        )
        label, numbers = _label(ground, drawn, used_numbers, seed)
        groups = _groups(ground, label, len(numbers))
        in_time = _in_time_of(sizer, groups, names, adhesive)
        missed = [i for i, p in enumerate(in_time) if p < sizer.bench.sure - 1e-9 and len(groups[i]) > 1]
        if not missed or attempt == _TIGHTENINGS:
            break
        capacity_s = capacity_s * _tighter(sizer, names, adhesive, groups, in_time, missed)
        drawn = np.zeros(sizer.panel.tessera_count, dtype=np.int32)  # tightened from what was just found
        drawn[ground.tessera] = np.asarray(numbers, dtype=np.int32)[label]
    if before is None:
        first = max(used_numbers, default=0) + 1
        numbers = tuple(first + turn for turn in _turns(sizer, ground, label))
    promises = tuple(
        sizer.promise(number, names[adhesive[group[0]]], group, capacity_s[adhesive[group[0]]], p)
        for number, group, p in sorted(zip(numbers, groups, in_time, strict=True), key=lambda x: x[0])
    )
    return Plan(
        promises,
        {n: sizings[n].capacity for n in names},
        sizer.expected_s,
        lower_bound(ground),
        _warnings(sizer, ground, promises),
    )


def _label(
    ground: Ground, drawn: IntArray | None, used_numbers: frozenset[int], seed: int
) -> tuple[IntArray, tuple[int, ...]]:
    """Divide afresh, or anew from the sections that were drawn; return labels and their numbers."""
    if drawn is not None:
        label, numbers = redivide(ground, drawn[ground.tessera], used_numbers=set(used_numbers), seed=seed)
        return label, tuple(numbers)
    label = best_division(ground, seed=seed).label
    first = max(used_numbers, default=0) + 1
    return label, tuple(range(first, first + int(label.max(initial=-1)) + 1))


def _turns(sizer: Sizer, ground: Ground, label: IntArray) -> list[int]:
    """Return the place of each label in the foreseen order of work, so that section 1 comes first.

    Beyond a few hundred sections nobody foresees the order; then the divider's own stands.
    """
    count = int(label.max(initial=-1)) + 1
    if count > MOST_FORESEEN:
        return list(range(count))
    number = np.zeros(sizer.panel.tessera_count, dtype=np.int32)
    number[ground.tessera] = label + 1
    facts = facts_of(sizer.panel, number, sizer.expected_s, stage={})
    order = [step.number for step in whole_order(facts, firm_after_s=FIRM_AFTER_S)]
    place = {n: k for k, n in enumerate(dict.fromkeys([*order, *range(1, count + 1)]))}
    return [place[k + 1] for k in range(count)]


def _groups(ground: Ground, label: IntArray, count: int) -> list[IntArray]:
    """Return the panel's tesserae of each label."""
    order = np.argsort(label, kind="stable")
    ends = np.cumsum(np.bincount(label, minlength=count))[:-1]
    return [ground.tessera[part].astype(np.int32) for part in np.split(order, ends)]


def _in_time_of(
    sizer: Sizer, groups: list[IntArray], names: tuple[str, ...], adhesive: IntArray
) -> FloatArray:
    in_time = np.zeros(len(groups))
    for k, name in enumerate(names):
        of_it = [i for i, g in enumerate(groups) if adhesive[g[0]] == k]
        in_time[of_it] = sizer.in_time(name, [groups[i] for i in of_it])
    return in_time


def _tighter(
    sizer: Sizer,
    names: tuple[str, ...],
    adhesive: IntArray,
    groups: list[IntArray],
    in_time: FloatArray,
    missed: list[int],
) -> FloatArray:
    """Return the factor for each adhesive's bound: a few per cent, more the further a section missed."""
    factor = np.ones(len(names))
    for i in missed:
        short = min(0.2, 0.005 + 0.6 * (sizer.bench.sure - in_time[i]))
        k = adhesive[groups[i][0]]
        factor[k] = min(factor[k], 1.0 - short)
    return factor


def _warnings(sizer: Sizer, ground: Ground, promises: tuple[Promise, ...]) -> tuple[str, ...]:
    told = [
        f"tessera {sizer.panel.ids[ground.tessera[t]]} alone takes longer than a batch allows; "
        "it has a section of its own"
        for t in oversize(ground)
    ]
    below = [p.number for p in promises if p.in_time < sizer.bench.sure - 1e-9]
    if below:
        told.append(
            f"section {', '.join(map(str, below))}: less sure than the promise of {sizer.bench.sure:g}"
        )
    return tuple(told)
