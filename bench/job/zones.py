"""The zones of a panel as they lie on it: what is in none, who meets whom, and whether all is hard."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

import numpy as np

from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.finish.grout_colours import GROUT_WORDS, NEUTRAL
from bench.finish.masking import border_mm, days_of_grout
from bench.finish.zone_called import REST_NAME, WHOLE_NAME
from bench.finish.zone_plan import LEAST_JOINT_MM2, Mix, Tint, ZonesPlan, plan_zones
from bench.finish.zones import JointGrid, joint_grid, zone_joints_mm2
from bench.finish.zoning import main_colour
from bench.job.faults import NoSuchZone
from bench.job.finish_settings import grouting
from bench.job.finish_state import Zone
from bench.job.finishing import finishing
from bench.job.job import Job

GRID_POINTS = 1_000_000
GREY = (128, 128, 128)  # of a grout that is not chosen yet


@lru_cache(maxsize=2)
def grid_of(panel: Panel) -> JointGrid | None:
    """Return the joints of a panel on a grid; made once while the panel is worked on.

    Coarser than the command line's: zones share the joints to a hundredth, and widths are exact all the same.
    """
    return joint_grid(panel, most_points=GRID_POINTS)


@dataclass(frozen=True, eq=False)
class Laid:
    """Zones as they lie: of each tessera the place in `numbers`, (n,). The rest, if any, is number 0."""

    label: IntArray
    numbers: tuple[int, ...]
    names: tuple[str, ...]

    def members(self, number: int) -> IntArray:
        """Return the tesserae of a zone."""
        found: IntArray = np.flatnonzero(self.label == self.numbers.index(number)).astype(np.int32)
        return found


def zone(job: Job, number: int) -> Zone:
    """Return a zone of the panel, or raise NoSuchZone."""
    try:
        return job.state.finish.zones[number]
    except KeyError:
        raise NoSuchZone(number) from None


def laid_zones(job: Job) -> Laid:
    """Return all zones, and the rest where anything lies in none."""
    label = np.full(job.panel.tessera_count, -1, np.int32)
    zones = job.state.finish.in_order
    for k, one in enumerate(zones):
        label[list(one.tesserae)] = k
    numbers, names = [z.number for z in zones], [z.name for z in zones]
    if (label < 0).any() or not zones:
        label[label < 0] = len(zones)
        numbers.append(0)
        names.append(REST_NAME if zones else WHOLE_NAME)
    return Laid(label, tuple(numbers), tuple(names))


def rest_of(job: Job) -> tuple[int, ...]:
    """Return the tesserae that lie in no zone."""
    held = {t for z in job.state.finish.zones.values() for t in z.tesserae}
    return tuple(t for t in range(job.panel.tessera_count) if t not in held)


def joints_mm2(job: Job, members: Sequence[int] | IntArray) -> float:
    """Return the joint area that goes with some tesserae. [mm²]"""
    label = np.zeros(job.panel.tessera_count, np.int32)
    label[np.asarray(members, np.int64)] = 1
    return float(zone_joints_mm2(job.panel, grid_of(job.panel), label, 2)[1])


def leaves_grout(job: Job, members: Sequence[int]) -> bool:
    """Tell whether any joint goes with some tesserae."""
    return len(members) > 0 and joints_mm2(job, members) >= LEAST_JOINT_MM2


def borders(job: Job, laid: Laid) -> FloatArray:
    """Return how long each two zones face each other. [mm]"""
    return border_mm(job.panel, laid.label, len(laid.numbers))


def beside(job: Job, number: int) -> dict[int, float]:
    """Return the zones that meet one, the rest as 0, and how long. [mm]"""
    laid = laid_zones(job)
    row = borders(job, laid)[laid.numbers.index(number)]
    return {n: float(mm) for n, mm in zip(laid.numbers, row.tolist(), strict=True) if mm > 0}


def unlike_beside(job: Job, number: int) -> dict[int, float]:
    """Return those of them whose grout is another, or not chosen yet: they are masked. [mm]"""
    mine = zone(job, number).grout
    zones = job.state.finish.zones

    def differs(other: int) -> bool:
        grout = zones[other].grout if other in zones else None
        return grout is None or mine is None or grout.name != mine.name

    return {n: mm for n, mm in beside(job, number).items() if differs(n)}


@dataclass(frozen=True)
class Hardness:
    """How far a zone's sections have hardened.

    at_utc: when the last was or will be hard, None while some are not set. to_set, soft, unsure: sections
    that are not set yet, that are not hard yet, and whose clock cannot be trusted.
    """

    at_utc: datetime | None
    to_set: tuple[int, ...]
    soft: tuple[int, ...]
    unsure: tuple[int, ...]

    @property
    def is_hard(self) -> bool:
        return not self.to_set and not self.soft


def hardness_of(job: Job, members: Iterable[int]) -> Hardness:
    """Return how hard the sections are that hold some tesserae."""
    wanted = set(members)
    numbers = [n for n, s in sorted(job.state.sections.items()) if not wanted.isdisjoint(s.tesserae)]
    lives = {n: job.life(n) for n in numbers}
    to_set = tuple(n for n in numbers if lives[n] in ("drawn", "dry", "wet"))
    soft = tuple(n for n in numbers if lives[n] in ("soft", "firm"))
    unsure = tuple(n for n in soft if job.cure_unsure(n))
    times = [at for at in (job.hard_utc(n) for n in numbers) if at is not None]
    at_utc = None if to_set or not times else max(times)
    if at_utc is not None and not soft:
        at_utc = min(at_utc, job.clock.utc())  # tried by hand: hard, whatever the clock says
    return Hardness(at_utc, to_set, soft, unsure)


def glass_colour(job: Job, members: Sequence[int] | IntArray) -> tuple[int, int, int]:
    """Return the mean colour of some pieces."""
    some = np.asarray(members, np.int64)
    return main_colour(job.panel.colour[some], job.panel.area_mm2[some])


def mix_of(job: Job) -> Mix:
    """Return how this panel's grout is mixed: depth by its glass, the rest as it was set."""
    how = grouting(job)
    scratches = how.scratches or bool((job.panel.glass == 2).any())
    return Mix(finishing(job).depth_mm, water_share=how.water_share, pace=how.pace, scratches=scratches)


def plan(job: Job) -> ZonesPlan:
    """Return the zones planned; a zone without a grout is reckoned with one of its own.

    Raises as `plan_zones` does.
    """
    laid = laid_zones(job)
    zones = job.state.finish.zones
    grouts = []
    for number in laid.numbers:
        chosen = zones[number].grout if number in zones else None
        alone = len(laid.numbers) == 1
        usual = Tint(NEUTRAL, GROUT_WORDS[NEUTRAL]) if alone else Tint(f"#{number}", GREY)
        grouts.append(Tint(chosen.name, chosen.colour) if chosen else usual)
    return plan_zones(job.panel, laid.label, laid.names, grouts, mix_of(job), grid=grid_of(job.panel))


def grout_days(job: Job, laid: Laid) -> tuple[tuple[int, ...], ...]:
    """Return the zones of each day of grouting, those not grouted yet, the rest as 0.

    Zones of one grout share a day; so do grouts that do not meet. See `days_of_grout`.
    """
    zones = job.state.finish.zones
    open_ = [k for k, n in enumerate(laid.numbers) if n not in zones or zones[n].grouted is None]
    if not open_:
        return ()
    chosen = [zones[laid.numbers[k]].grout if laid.numbers[k] in zones else None for k in open_]
    keys = [grout.name if grout else f"#{n}" for grout, n in zip(chosen, open_, strict=True)]
    kinds = list(dict.fromkeys(keys))
    of = np.array([kinds.index(key) for key in keys])
    between = np.zeros((len(kinds), len(kinds)))
    np.add.at(between, (of[:, None], of[None, :]), borders(job, laid)[np.ix_(open_, open_)])
    np.fill_diagonal(between, 0.0)
    told = {key: grout.colour for key, grout in zip(keys, chosen, strict=True) if grout}
    colours = [told.get(key, GREY) for key in kinds]
    return tuple(
        tuple(laid.numbers[open_[k]] for k in range(len(open_)) if of[k] in day.colours)
        for day in days_of_grout(between, colours)
    )
