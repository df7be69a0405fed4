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
from bench.job.key_words import no_longer_fits
from bench.job.sizing import FloatArray, IntArray, Sizer
from bench.pace.capacity import Capacity
from bench.sections.divide import best_division
from bench.sections.division import Division
from bench.sections.facts import facts_of
from bench.sections.ground import Ground, ground_of, oversize
from bench.sections.measures import lower_bound
from bench.sections.offer import one_more
from bench.sections.order import whole_order
from bench.sections.redivide import redivide
from bench.speech import say

_TIGHTENINGS = 8  # after which what still misses the promise is told instead
MOST_FORESEEN = 150  # sections; further ahead nobody foresees, and looking takes long
FIRM_AFTER_S = 4 * 3600.0  # typical; only the order hangs on it


@dataclass(frozen=True, eq=False)
class Plan:
    """Sections for all ground asked for, and the figures that they rest on.

    promises: the sections, by number. capacities: of each adhesive, before any tightening. expected_s:
    of each tessera of the panel. (n,) lower_bound: the fewest sections the divider's bound allows.
    warnings: what the maker should know. let_go: sections shaped by hand that no longer keep the promise.
    """

    promises: tuple[Promise, ...]
    capacities: Mapping[str, Capacity]
    expected_s: FloatArray
    lower_bound: int
    warnings: tuple[str, ...]
    let_go: tuple[int, ...] = ()


@dataclass(frozen=True)
class HandMade:
    """A drawn section that the maker shaped: it stays as it is while it keeps the promise."""

    number: int
    adhesive: str
    tesserae: tuple[int, ...]


def plan_ground(
    sizer: Sizer,
    *,
    keep: IntArray | None = None,
    before: IntArray | None = None,
    used_numbers: frozenset[int] = frozenset(),
    by_hand: tuple[HandMade, ...] = (),
    seed: int = 0,
) -> Plan:
    """Divide the ground so that every section keeps the promise.

    keep: the tesserae to divide; all if None. before: (n,) the section each was drawn into, 0 for none;
    given, the division is matched to it. used_numbers: of sections that are no longer drawn. by_hand: of
    the sections in keep, those that the maker shaped; one that no longer keeps the promise is divided with
    the rest, and a warning names it.
    """
    bounds = Bounds(sizer)
    stay = _staying(sizer, bounds, by_hand)
    if stay:
        every = np.arange(sizer.panel.tessera_count, dtype=np.int32) if keep is None else keep
        keep = np.setdiff1d(every, [t for p in stay for t in p.tesserae]).astype(np.int32)
        used_numbers = used_numbers.union(p.number for p in stay)
    ground, label, numbers, groups, in_time = _divided(sizer, bounds, keep, before, used_numbers, seed)
    if before is None:
        first = max(used_numbers, default=0) + 1
        numbers = tuple(first + turn for turn in _turns(sizer, ground, label))
    fresh = [
        bounds.promise(number, group, p) for number, group, p in zip(numbers, groups, in_time, strict=True)
    ]
    promises = tuple(sorted([*fresh, *stay], key=lambda p: p.number))
    let_go = tuple(sorted({h.number for h in by_hand}.difference(p.number for p in stay)))
    return Plan(
        promises,
        {name: sizing.capacity for name, sizing in bounds.sizings.items()},
        sizer.expected_s,
        lower_bound(ground) + len(stay),
        (*_warnings(sizer, ground, promises), *map(no_longer_fits, let_go), *_offered(ground, label)),
        let_go,
    )


class Bounds:
    """What the divider works with: each tessera's kind, one of an adhesive on a board, and each kind's cap.

    Boards are hard borders: what lies on another board is of another kind.
    """

    def __init__(self, sizer: Sizer) -> None:
        self.sizer = sizer
        boards = sizer.panel.board or ("",) * sizer.panel.tessera_count
        kinds = tuple(dict.fromkeys(zip(sizer.tessera_adhesive, boards, strict=True)))
        place = {kind: k for k, kind in enumerate(kinds)}
        self.names = tuple(name for name, _ in kinds)
        self.boards = tuple(board for _, board in kinds)
        self.kind = np.array(
            [place[kind] for kind in zip(sizer.tessera_adhesive, boards, strict=True)], dtype=np.int32
        )
        self.sizings = {name: sizer.sizing(name) for name in dict.fromkeys(self.names)}
        self.divider_s = np.zeros(sizer.panel.tessera_count)
        counted_s = {name: sizer.divider_s(sizing) for name, sizing in self.sizings.items()}
        for k, name in enumerate(self.names):
            self.divider_s[self.kind == k] = counted_s[name][self.kind == k]
        self.capacity_s = np.array([self.sizings[n].capacity.capacity_s for n in self.names])

    def ground(self, keep: IntArray | None) -> Ground:
        return ground_of(
            self.sizer.panel,
            expected_s=self.divider_s,
            adhesive=self.kind,
            capacity_s=self.capacity_s,
            prefer=self.sizer.bench.prefer,
            keep=keep,
        )

    def promise(self, number: int, group: IntArray, in_time: float, *, by_hand: bool = False) -> Promise:
        kind = self.kind[group[0]]
        return self.sizer.promise(
            number, self.names[kind], group, self.capacity_s[kind], in_time, by_hand=by_hand
        )


def _staying(sizer: Sizer, bounds: Bounds, by_hand: tuple[HandMade, ...]) -> list[Promise]:
    """Return the sections shaped by hand that still keep the promise, as they are promised now."""
    stay = []
    for made in by_hand:
        group = np.array(sorted(made.tesserae), dtype=np.int32)
        if len(np.unique(bounds.kind[group])) > 1 or bounds.names[bounds.kind[group[0]]] != made.adhesive:
            continue
        sure = float(sizer.in_time(made.adhesive, [group])[0])
        if sure >= sizer.bench.sure - 1e-9 or len(group) == 1:
            stay.append(bounds.promise(made.number, group, sure, by_hand=True))
    return stay


def _offered(ground: Ground, label: IntArray) -> list[str]:
    """Say what one section more would be worth, where the fewest are asked for and all would be full."""
    offer = one_more(ground, Division.of(label)) if ground.prefer == "fewest" else None
    return [offer.told()] if offer else []


def _divided(
    sizer: Sizer,
    bounds: Bounds,
    keep: IntArray | None,
    before: IntArray | None,
    used_numbers: frozenset[int],
    seed: int,
) -> tuple[Ground, IntArray, tuple[int, ...], list[IntArray], FloatArray]:
    """Divide, and again under a tighter bound while a section misses the promise."""
    drawn = before
    for attempt in range(_TIGHTENINGS + 1):
        ground = bounds.ground(keep)
        label, numbers = _label(ground, drawn, used_numbers, seed)
        groups = _groups(ground, label, len(numbers))
        in_time = _in_time_of(sizer, groups, bounds.names, bounds.kind)
        missed = [i for i, p in enumerate(in_time) if p < sizer.bench.sure - 1e-9 and len(groups[i]) > 1]
        if not missed or attempt == _TIGHTENINGS:
            break
        bounds.capacity_s = bounds.capacity_s * _tighter(
            sizer, bounds.names, bounds.kind, groups, in_time, missed
        )
        drawn = np.zeros(sizer.panel.tessera_count, dtype=np.int32)  # tightened from what was just found
        drawn[ground.tessera] = np.asarray(numbers, dtype=np.int32)[label]
    return ground, label, numbers, groups, in_time


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

    Beyond MOST_FORESEEN sections nobody foresees the order; then the divider's own stands.
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
    """Return the panel's tesserae of each label; none where all ground stays as the maker shaped it."""
    if not count:
        return []
    order = np.argsort(label, kind="stable")
    ends = np.cumsum(np.bincount(label, minlength=count))[:-1]
    return [ground.tessera[part].astype(np.int32) for part in np.split(order, ends)]


def _in_time_of(
    sizer: Sizer, groups: list[IntArray], names: tuple[str, ...], kind: IntArray
) -> FloatArray:
    in_time = np.zeros(len(groups))
    for k, name in enumerate(names):
        of_it = [i for i, g in enumerate(groups) if kind[g[0]] == k]
        in_time[of_it] = sizer.in_time(name, [groups[i] for i in of_it])
    return in_time


def _tighter(
    sizer: Sizer,
    names: tuple[str, ...],
    kind: IntArray,
    groups: list[IntArray],
    in_time: FloatArray,
    missed: list[int],
) -> FloatArray:
    """Return the factor for each kind's bound: a few per cent, more the further a section missed.

    By the patch a section is short by a whole patch or by none, so that the bound has to move further.
    """
    factor = np.ones(len(names))
    least = 0.005 if sizer.by_patch is None else 0.03
    for i in missed:
        short = min(0.2, least + 0.6 * (sizer.bench.sure - in_time[i]))
        k = kind[groups[i][0]]
        factor[k] = min(factor[k], 1.0 - short)
    return factor


def _warnings(sizer: Sizer, ground: Ground, promises: tuple[Promise, ...]) -> tuple[str, ...]:
    told = [
        say(
            "tessera {name} alone takes longer than a batch allows; it has a section of its own",
            name=sizer.panel.ids[ground.tessera[t]],
        )
        for t in oversize(ground)
    ]
    below = [p.number for p in promises if p.in_time < sizer.bench.sure - 1e-9]
    if below:
        told.append(
            say(
                "section {sections}: less sure than the promise of {sure:g}",
                sections=", ".join(map(str, below)),
                sure=sizer.bench.sure,
            )
        )
    return tuple(told)
