"""What may be done at random about the grout of a panel, some of it out of turn."""

from __future__ import annotations

import random
from collections.abc import Callable

from bench.job.acts import cure, grouting, inking, zoning
from bench.job.finish_state import Zone
from bench.job.job import Job

Ways = list[tuple[str, Callable[[], object]]]
COLOURS = {"pale grey": (205, 203, 198), "sand": (190, 170, 140), "blue": (58, 88, 138)}


def finishing_ways(job: Job, rng: random.Random) -> Ways:
    """Return what may be done about a panel of which something is set; more of it once all is set."""
    whole = all(s.stage == "set" for s in job.state.sections.values())
    if not job.state.with_stage("set") or not (whole or rng.random() < 0.2):
        return []
    if job.state.finish.hung is not None:
        return []
    finish, number = job.state.finish, rng.choice([0, *sorted(job.state.finish.zones)])
    name = rng.choice(["pale grey", "sand"])
    ways: Ways = [
        ("sun", lambda: zoning.tell_sun(job, rng.choice(["direct", "indirect", "indoors"]))),
        ("zones", lambda: _zones(job, rng)),
        ("grout_colour", lambda: zoning.choose_grout(job, number, name, COLOURS[name])),
        *4 * [("finish", lambda: _on(job, rng, finish.zones.get(number)))],
    ]
    if whole:
        ways += [("hard", lambda: _hard(job)), *9 * [("finish", lambda: finish_on(job, rng))]]
    return ways


def _zones(job: Job, rng: random.Random) -> None:
    if rng.random() < 0.5:
        zoning.propose_zones(job, rng.choice(["colours", "one"]))
    else:
        zoning.draw_zone(job, rng.choice(job.state.with_stage("set")).tesserae, "a section")


def _hard(job: Job) -> None:
    for section in job.state.with_stage("set"):
        if section.confirmed != "hard":
            cure.confirm_cure(job, section.number, "hard")
            return


def finish_on(job: Job, rng: random.Random) -> None:
    """Bring the first zone that is not finished on by one act, or the panel to its wall."""
    zones = job.state.finish.in_order
    left = [z for z in zones if z.grouted is None or (z.ink is not None and z.inked is None)]
    if not left and zones and rng.random() < 0.5:
        inking.hang(job, "indoors") if job.state.finish.sealed else inking.seal(job, "sealer")
    else:
        _on(job, rng, left[0] if left else rng.choice(zones or [None]))


def _on(job: Job, rng: random.Random, zone: Zone | None) -> None:
    """Do what comes next on a zone, or the choice that leads there."""
    if zone is None:
        zoning.propose_zones(job, rng.choice(["colours", "one"]))
    elif zone.grouted is None:
        _towards_grout(job, rng, zone)
    elif zone.dry_by_hand is None:
        grouting.try_dry(job, zone.number, rng.choice(["tint", "seal"]))
    elif zone.ink is None or zone.grout is None:
        _choose_ink(job, rng, zone)
    elif (zone.ink.name, zone.grout.name) not in job.state.finish.tried:
        inking.try_ink(job, zone.number)
    elif zone.inked is None and rng.random() < 0.2:
        zoning.leave_ink(job, zone.number)
    else:
        inking.ink(job, zone.number, lot="K3")


def _towards_grout(job: Job, rng: random.Random, zone: Zone) -> None:
    soft = [s for s in job.state.with_stage("set") if job.life(s.number) != "hard"]
    mine = [s for s in soft if not set(s.tesserae).isdisjoint(zone.tesserae)]
    if mine:
        cure.confirm_cure(job, mine[0].number, "hard")
    elif zone.grout is None:
        name = rng.choice(["pale grey", "sand"])
        zoning.choose_grout(job, zone.number, name, COLOURS[name])
    elif not zone.masked and grouting.unlike_beside(job, zone.number):
        grouting.mask(job, zone.number)
    elif not zone.shown:
        grouting.read_cautions(job, zone.number)
    else:
        grouting.grout(job, zone.number, powder_g=40.0, water_g=12.0, lot="G7")


def _choose_ink(job: Job, rng: random.Random, zone: Zone) -> None:
    """Ink some zones, and try the others until they may be sealed."""
    if rng.random() < 0.5:
        zoning.choose_ink(job, zone.number, "blue", COLOURS["blue"])
    else:
        grouting.try_dry(job, zone.number, "seal")
