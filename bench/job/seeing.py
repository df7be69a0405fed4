"""Grout seen before it is mixed: the colours compared, the panel in each of them, region by region.

A region is a zone, or the rest. The colours compared are kept beside the book: nothing of the work hangs on
them. A colour is a guess until it was measured on a tile.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.finish.beheld import Cut, cut_up, inked, inked_name, is_inked, tint_said
from bench.finish.faults import NamelessColour, TooManyColours, UnknownColour
from bench.finish.grout_colours import GROUT_WORDS, NEUTRAL
from bench.finish.zone_called import zone_called
from bench.job import settings
from bench.job.finish_state import Chosen, Rgb, Zone
from bench.job.job import Job
from bench.job.zones import laid_zones
from bench.speech import large_first, say

MOST_SEEN = 4
USUAL = (NEUTRAL, "white", "grey", "charcoal")
USUAL_INKS = ("blue", "green", "brown", "red")


@dataclass(frozen=True, eq=False)
class Seen:
    """A region in one colour, the others as they are chosen; `known` says how that colour is known.

    grout: (n, 3) of the joints around each tessera. cut: of the region.
    """

    name: str
    colour: Rgb
    known: str
    cut: Cut
    grout: NDArray[np.uint8]
    chosen: bool


def known_colours(job: Job) -> dict[str, Rgb]:
    """Return every grout that has a colour here: plain words, those chosen, those measured."""
    finish = job.state.finish
    found = dict(GROUT_WORDS)
    found |= {zone.grout.name: zone.grout.colour for zone in finish.in_order if zone.grout is not None}
    found |= {grout: event.colour for (grout, _), event in finish.measured.items() if not is_inked(grout)}
    return {name: finish.true_colour(name, told) for name, told in found.items()}


def known_inks(job: Job) -> dict[str, Rgb]:
    """Return every ink that has a colour here: plain words, and those chosen."""
    chosen = {z.ink.name: z.ink.colour for z in job.state.finish.in_order if z.ink is not None}
    return {**{name: rgb for name, rgb in GROUT_WORDS.items() if "grey" not in name}, **chosen}


def colour_told(job: Job, name: str) -> str:
    """Say how a grout's colour is known."""
    found = job.state.finish.measured_of(name)
    if found is None:
        return say("guessed")
    return say("measured on a tile, dry") if found.state == "dry" else say("measured on a tile, sealed")


def compared(job: Job, *, inks: bool = False) -> tuple[str, ...]:
    """Return the names that are compared, grouts or inks: as they were chosen, else the usual ones."""
    kept = json.loads(job.store.setting(_key(job, inks)) or "[]")
    known = known_inks(job) if inks else known_colours(job)
    found = tuple(str(name) for name in kept if name in known)[:MOST_SEEN]
    return found or (USUAL_INKS if inks else USUAL)


def compare(job: Job, names: Sequence[str], *, inks: bool = False) -> None:
    """Keep the names to be compared. Raises as `checked_names` does."""
    known = known_inks(job) if inks else known_colours(job)
    job.store.set_setting(_key(job, inks), json.dumps(checked_names(names, list(known))))


def checked_names(names: Sequence[str], known: Sequence[str]) -> tuple[str, ...]:
    """Return names of colours, each once. Raises NamelessColour, UnknownColour or TooManyColours."""
    plain = [" ".join(name.split()) for name in names]
    if not plain or not all(plain):
        raise NamelessColour("tint")
    found = tuple(dict.fromkeys(plain))
    for name in found:
        if name not in known:
            raise UnknownColour(name, known)
    if len(found) > MOST_SEEN:
        raise TooManyColours(len(found), MOST_SEEN)
    return found


def _key(job: Job, inks: bool) -> str:
    return f"{settings.SEEN}{'_inks' if inks else ''}:{job.panel_id}"


# -- what is seen --------------------------------------------------------------------------------------------


def joint_colour(job: Job, zone: Zone | None) -> tuple[str, Rgb]:
    """Return what the joints of a zone will be: its grout and ink; the neutral where none is chosen."""
    finish = job.state.finish
    usual = Chosen(NEUTRAL, finish.true_colour(NEUTRAL, GROUT_WORDS[NEUTRAL]))
    grout = (zone.grout if zone is not None else None) or usual
    if zone is None or zone.ink is None:
        return grout.name, grout.colour
    return _over(job, grout, zone.ink)


def _over(job: Job, grout: Chosen, ink: Chosen) -> tuple[str, Rgb]:
    name = inked_name(grout.name, ink.name)
    return name, job.state.finish.true_colour(name, inked(grout.colour, ink.colour))


def joints_now(job: Job) -> NDArray[np.uint8]:
    """Return the colour of the joints around each tessera as they are chosen. (n, 3)"""
    laid, zones = laid_zones(job), job.state.finish.zones
    colours = [joint_colour(job, zones.get(number))[1] for number in laid.numbers]
    return np.array(colours, np.uint8)[laid.label]


def cuts_now(job: Job) -> tuple[Cut, ...]:
    """Return how strongly the joints, as they are chosen, cut up the panel, and then each region."""
    laid = laid_zones(job)
    return cut_up(job.panel, joints_now(job), laid.label, len(laid.numbers))


def seen(job: Job, number: int, *, inks: bool = False) -> tuple[Seen, ...]:
    """Return a region in each of the colours compared; inks lie over its grout, or else the neutral."""
    laid, zone = laid_zones(job), job.state.finish.zones.get(number)
    place = laid.numbers.index(number)
    now, found = joints_now(job), []
    finish = job.state.finish
    told = known_inks(job) if inks else known_colours(job)
    grout = (zone.grout if zone is not None else None) or Chosen(
        NEUTRAL, finish.true_colour(NEUTRAL, GROUT_WORDS[NEUTRAL])
    )
    chosen = None if zone is None else zone.ink if inks else zone.grout
    for name in compared(job, inks=inks):
        called, colour = _over(job, grout, Chosen(name, told[name])) if inks else (name, told[name])
        filled = now.copy()
        filled[laid.label == place] = colour
        cut = cut_up(job.panel, filled, laid.label, len(laid.numbers))[1 + place]
        known = colour_told(job, called)
        found.append(Seen(name, colour, known, cut, filled, chosen is not None and chosen.name == name))
    return tuple(found)


def region_lines(job: Job) -> tuple[str, ...]:
    """Say of each region what its joints will be, and how strongly they cut it up."""
    laid, zones = laid_zones(job), job.state.finish.zones
    cuts = cuts_now(job)[1:]
    lines = []
    for number, name, cut in zip(laid.numbers, laid.names, cuts, strict=True):
        zone = zones.get(number)
        joint, _ = joint_colour(job, zone)
        told = {"region": large_first(zone_called(name)), "joint": tint_said(joint), "cut": cut_words(cut)}
        if zone is not None and zone.grout is not None:
            lines.append(say("{region}: {joint}: {cut}", **told))
        else:
            lines.append(say("{region}: {joint}, not chosen yet: {cut}", **told))
    return tuple(lines)


def cut_words(cut: Cut) -> str:
    """Say how strongly joints cut up, with the figure."""
    if cut.delta_e is None:
        return cut.words
    return say("{words} (ΔE {delta_e:.0f})", words=cut.words, delta_e=cut.delta_e)


def known_words(look: Seen) -> str:
    """Say the figure of a look, and how its colour is known."""
    if look.cut.delta_e is None:
        return look.known
    return say("ΔE {delta_e:.0f}, {known}", delta_e=look.cut.delta_e, known=look.known)
