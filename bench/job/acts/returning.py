"""Coming back after weeks: full sections get smaller, and the one that comes first is made a small one."""

from __future__ import annotations

import numpy as np

from bench.book.events import Promise, SectionsDrawn
from bench.job.absence import came_back
from bench.job.acts.bare import drawn_promises
from bench.job.acts.opening import sections_drawn
from bench.job.advice import advise
from bench.job.away import SMALL
from bench.job.ground import section_numbers
from bench.job.job import Job
from bench.job.key_words import AFTER_AWAY
from bench.job.measuring import sizer
from bench.job.planning import Bounds, Plan
from bench.job.state import Section
from bench.sections.lighten import lightened

_FILLED = (1.0, 0.97, 0.94, 0.9)  # shares of it that the neighbours may fill, tried in turn
_FIRSTS = 3  # times: with one section smaller, another may come first


def keep_after_away(job: Job, plan: Plan, *, newest_act: str) -> bool:
    """Write a division made on coming back, and ease the first section, as an act of its own.

    Nothing is written where the book has moved on since the newest act, where all comes out as it is, nor a
    second time in one absence while the sections are within what the day allows.
    """
    again = came_back(job) and _within(job, plan)
    if job.state.act_ids[-1] != newest_act or again:
        return False
    drawn = {s.number: s.tesserae for s in job.state.with_stage("drawn")}
    same = {p.number: p.tesserae for p in plan.promises} == drawn
    act_id = None if same else job.write(sections_drawn(plan, AFTER_AWAY))
    for _ in range(_FIRSTS):
        eased_id = _ease_first(job, act_id)
        if eased_id is None:
            break
        act_id = eased_id
    return act_id is not None


def _within(job: Job, plan: Plan) -> bool:
    """Tell whether the drawn sections, as they are, ask for no more than a plan's capacities."""
    return all(
        float(plan.expected_s[list(s.tesserae)].sum()) <= plan.capacities[s.adhesive].capacity_s
        for s in job.state.with_stage("drawn")
    )


def _ease_first(job: Job, act_id: str | None) -> str | None:
    """Let the neighbours take from the section that comes first until it is small; return the act, if any.

    Not where it lies dry, was shaped by hand or is small already, where they have no room, and where one of
    them would then miss the promise.
    """
    first = job.state.sections.get(advise(job).section or 0)
    if first is None or first.stage != "drawn" or first.by_hand:
        return None
    changed = _eased(job, first)
    if not changed:
        return None
    promises = tuple(changed.get(p.number, p) for p in drawn_promises(job))
    return job.write(SectionsDrawn(promises=promises, why=AFTER_AWAY), act_id=act_id)


def _eased(job: Job, first: Section) -> dict[int, Promise]:
    """Return the sections that change, by number, each of them sure enough; none where it cannot be had."""
    measures, numbers = sizer(job), section_numbers(job)
    whole = Bounds(measures)
    adhesive = {s.number: s.adhesive for s in job.state.with_stage("drawn") if not s.by_hand}
    for filled in _FILLED:
        bounds = Bounds(measures)
        bounds.capacity_s = bounds.capacity_s * filled
        ground = bounds.ground(np.flatnonzero(np.isin(numbers, list(adhesive))).astype(np.int32))
        before = numbers[ground.tessera]
        after = lightened(ground, before, first.number, SMALL / filled, np.random.default_rng(0))
        moved = before != after
        changed = {}
        for number in sorted({*before[moved].tolist(), *after[moved].tolist()}):
            group = ground.tessera[after == number].astype(np.int32)
            sure = float(measures.in_time(adhesive[number], [group])[0])
            changed[number] = whole.promise(number, group, sure)
        if all(p.in_time >= job.state.bench.sure - 1e-9 for p in changed.values()):
            return changed
    return {}
