"""Zones or inks: what each way of colouring the joints takes, before one is chosen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from bench.drawing.panel import IntArray
from bench.fault import Fault
from bench.finish.sun import fading_of, fugitive
from bench.finish.zone_plan import Tint, plan_inks, plan_zones
from bench.finish.zones import group_zones
from bench.finish.zoning import proposed_zones
from bench.job.finish_state import Rgb
from bench.job.job import Job
from bench.job.zones import glass_colour, grid_of, mix_of
from bench.speech import area, say, say_n, tape_length

MOST_GROUPS = 12  # more zones than that nobody masks

Way = Literal["inks", "colours", "groups", "sun"]


@dataclass(frozen=True)
class WayTold:
    """One way to colour the joints, and what it takes."""

    way: Way
    text: str
    says: str


def ways_told(job: Job) -> tuple[WayTold, ...]:
    """Return the ways there are for this panel: one neutral grout with inks, zones by colour or by group.

    In direct sun also a zone of all that is red or vivid. A way that cannot be is left out.
    """
    label, names = proposed_zones(job.panel)
    by_colour = _zones(job, "colours", say("Zones by the colour of the glass"), label, names)
    found = [_inks(job, label, names), by_colour]
    group, group_names = group_zones(job.panel)
    if 1 < len(np.unique(group)) <= MOST_GROUPS:
        found.append(_zones(job, "groups", say("Zones by the drawing's groups"), group, group_names))
    count = int(fugitive(job.panel, job.state.finish.sun or "indoors").sum())
    if count:
        says = say_n(
            "{count} piece: through-coloured grout for it, since inks fade in the sun",
            "{count} pieces: through-coloured grout for them, since inks fade in the sun",
            count,
        )
        found.append(WayTold("sun", say("A zone for reds and vivid hues"), says))
    return tuple(one for one in found if one is not None)


def stays_neutral(job: Job, colour: Rgb) -> bool:
    """Tell whether glass of a colour may have the neutral grout: not where its ink would fade in the sun."""
    sun = job.state.finish.sun
    return sun is None or not fading_of(colour, sun).through


def _tints(job: Job, label: IntArray, names: Sequence[str]) -> list[Tint]:
    members = [np.flatnonzero(label == k).tolist() for k in range(len(names))]
    return [Tint(name, glass_colour(job, some)) for name, some in zip(names, members, strict=True)]


def _zones(job: Job, way: Way, text: str, label: IntArray, names: Sequence[str]) -> WayTold | None:
    used, place = np.unique(label, return_inverse=True)
    names, label = [names[k] for k in used.tolist()], place.astype(np.int32)
    grid = grid_of(job.panel)
    try:
        plan = plan_zones(job.panel, label, names, _tints(job, label, names), mix_of(job), grid=grid)
    except Fault:
        return None
    grouts, days = len(plan.grouts), len(plan.days)
    if grouts < 2:
        return None
    says = say_n(
        "{grouts} grouts on {count} day, {tape} of tape",
        "{grouts} grouts on {count} days, {tape} of tape",
        days,
        grouts=grouts,
        tape=tape_length(plan.tape_mm),
    )
    return WayTold(way, text, says)


def _inks(job: Job, label: IntArray, names: Sequence[str]) -> WayTold:
    tints = _tints(job, label, names)
    inks = [tint if stays_neutral(job, tint.colour) else None for tint in tints]
    plan = plan_inks(job.panel, label, names, inks, grid=grid_of(job.panel))
    areas = ", ".join(f"{ink.tint.name} {area(ink.joint_mm2)}" for ink in plan.inks)
    says = say_n(
        "{count} day of work; {areas}", "{count} days of work; {areas}", plan.days, areas=areas
    )
    return WayTold("inks", say("One pale grey grout, inks over it"), says)
