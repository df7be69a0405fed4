"""What dries on a panel now: grout, ink and seal, each on a clock of its own that is read the safe way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from bench.book import Mark
from bench.book import countdown as cd
from bench.finish.drying import LEAST_GROUT_C, DryingTimes, drying_times
from bench.job.finish_settings import grouting
from bench.job.finish_state import SEAL_KEY, Zone, grout_key, ink_key
from bench.job.job import Job
from bench.job.zones import beside


@dataclass(frozen=True)
class Dry:
    """Whether something has dried for certain; unsure: its clock cannot be trusted, so it counts as wet.

    at_utc: when it is or was dry, by what is certain.
    """

    done: bool
    unsure: bool
    at_utc: datetime


def times(job: Job) -> DryingTimes:
    """Return the drying times for this panel and its room; a room too cold for grout counts as cold."""
    room_C = max(job.state.bench.temperature_C, LEAST_GROUT_C)
    return drying_times(grouting(job).drying, room_C)


def dries(job: Job, key: str, hours: float) -> tuple[str, Mark]:
    """Return the mark of something that begins to dry now, to be written with its act."""
    return key, cd.start(hours * 3600.0, job.clock)


def grout_dry(job: Job, zone: Zone, hours: float, *, by_hand: bool = False) -> Dry:
    """Return whether a grouted zone has dried so many hours."""
    return _read(job, grout_key(zone.number), hours, by_hand=by_hand)


def may_tint(job: Job, zone: Zone) -> Dry:
    """Return whether a grouted zone takes ink."""
    return grout_dry(job, zone, times(job).tint_h, by_hand=zone.dry_by_hand is not None)


def may_seal(job: Job, zone: Zone) -> Dry:
    """Return whether a grouted zone is dry enough for the seal, its ink too where it has one."""
    hours = times(job)
    dry = grout_dry(job, zone, hours.seal_h, by_hand=zone.dry_by_hand == "seal")
    if zone.inked is None:
        return dry
    ink = _read(job, ink_key(zone.number), hours.ink_h)
    return Dry(dry.done and ink.done, dry.unsure or ink.unsure, max(dry.at_utc, ink.at_utc))


def may_hang_outdoors(job: Job) -> Dry:
    """Return whether the seal has dried."""
    return _read(job, SEAL_KEY, times(job).outdoors_h)


def wet_beside(job: Job, zone: Zone) -> list[tuple[Zone, Dry]]:
    """Return the zones of another grout that meet one and have not set for certain: it waits for them."""
    hours, found = times(job).beside_h, []
    for number in beside(job, zone.number):
        other = job.state.finish.zones.get(number)
        if other is None or other.grouted is None:
            continue
        if zone.grout is not None and zone.grout.name == other.grouted.name:
            continue  # the same grout may go on
        dry = grout_dry(job, other, hours, by_hand=other.dry_by_hand is not None)
        if not dry.done:
            found.append((other, dry))
    return found


def _read(job: Job, key: str, hours: float, *, by_hand: bool = False) -> Dry:
    """Read a clock; one that is lost counts nothing. What was tried by hand is dry."""
    mark = job.store.countdown(job.panel_id, key)
    now = job.clock.utc()
    if by_hand:
        return Dry(True, False, now)
    if mark is None:
        return Dry(False, True, now + timedelta(hours=hours))
    reading = cd.read(mark, job.clock)
    left_s = hours * 3600.0 - reading.surely_s
    return Dry(left_s <= 0, reading.unsure and left_s > 0, now + timedelta(seconds=left_s))
