"""Draw zones of grout on a panel, choose a grout or an ink for each, and tell where the panel will hang.

A zone is a set of pieces; their joints go with them. What is grouted stays in its zone.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal

import numpy as np

from bench.book.events import ColourChosen, Event, SunTold, ZoneDrawn, ZonesDrawn
from bench.finish.faults import NamelessColour, ZoneWithoutGrout
from bench.finish.grout_colours import GROUT_WORDS, NEUTRAL
from bench.finish.sun import Sun, fugitive
from bench.finish.zone_called import WHOLE_NAME
from bench.finish.zones import group_zones
from bench.finish.zoning import proposed_zones
from bench.job.finish_faults import OutOfTurn
from bench.job.finish_state import Rgb, Zone
from bench.job.job import Job
from bench.job.ways import stays_neutral
from bench.job.zones import glass_colour, laid_zones, leaves_grout, rest_of, zone
from bench.speech import say

LONGEST_NAME = 60
By = Literal["colours", "groups", "one"]


def draw_zone(job: Job, tesserae: Iterable[int], name: str) -> int:
    """Make some pieces a zone; they leave the zones they were in. Return its number.

    Raises NamelessColour without a name, OutOfTurn where all of them are grouted, ZoneWithoutGrout where no
    joint goes with them.
    """
    number = max(job.state.finish.zones, default=0) + 1
    job.write(_drawn(job, {number: (colour_name(name, "zone"), _free(job, tesserae))}))
    return number


def add_to_zone(job: Job, number: int, tesserae: Iterable[int]) -> None:
    """Bring pieces into a zone that is not grouted; they leave the zones they were in."""
    into = _open(job, number)
    more = sorted({*into.tesserae, *_free(job, tesserae)})
    job.write(_drawn(job, {number: (into.name, more)}))


def drop_zone(job: Job, number: int) -> None:
    """Take a zone that is not grouted off the panel; its pieces are of the rest again."""
    _open(job, number)
    job.write(ZonesDrawn(gone=(number,)))


def propose_zones(job: Job, by: By = "colours") -> tuple[int, ...]:
    """Draw zones over all that is not grouted, as its glass or the drawing's groups suggest.

    Zones that are not grouted go. Groups of which no joint is left, and colours on too little, join the rest.
    Returns the new zones' numbers. Raises OutOfTurn where all is grouted.
    """
    drawn = _proposal(job, by)
    job.write(drawn)
    return tuple(one.number for one in drawn.zones)


def one_neutral(job: Job) -> tuple[int, ...]:
    """Draw zones by colour with one neutral grout for all of them, to be inked once it is dry.

    In direct sun, zones of red or vivid glass are left to be given a through-coloured grout. Returns the
    zones' numbers; raises as `propose_zones` does.
    """
    drawn = _proposal(job, "colours")
    neutral = [
        ColourChosen(zone=one.number, of="grout", name=NEUTRAL, colour=GROUT_WORDS[NEUTRAL])
        for one in drawn.zones
        if stays_neutral(job, glass_colour(job, one.tesserae))
    ]
    job.write(drawn, *neutral)
    return tuple(one.number for one in drawn.zones)


def _proposal(job: Job, by: By) -> ZonesDrawn:
    done = [z for z in job.state.finish.in_order if z.grouted is not None]
    open_ = np.ones(job.panel.tessera_count, bool)
    for one in done:
        open_[list(one.tesserae)] = False
    if not open_.any():
        raise OutOfTurn(say("zones"), say("all of the panel is grouted"), say("take back an act first"))
    label, names = _proposed(job, by)
    gone = tuple(z.number for z in job.state.finish.in_order if z.grouted is None)
    first = max(job.state.finish.zones, default=0) + 1
    drawn: list[ZoneDrawn] = []
    for k, name in enumerate(names):
        members = np.flatnonzero((label == k) & open_).tolist()
        if leaves_grout(job, members):
            number = first + len(drawn)
            drawn.append(ZoneDrawn(number=number, name=name[:LONGEST_NAME], spans=spans_of(members)))
    return ZonesDrawn(zones=tuple(drawn), gone=gone)


def propose_for_sun(job: Job, name: str = "") -> int:
    """Make a zone of all reds and vivid pieces that are not grouted, for a through-coloured grout."""
    chosen = np.flatnonzero(fugitive(job.panel, job.state.finish.sun or "indoors")).tolist()
    if not chosen:
        what = say("no glass here would want an ink that fades")
        raise OutOfTurn(say("zones"), what, say("ink it, or leave it as it is"))
    return draw_zone(job, chosen, name or say("red and vivid"))


def choose_grout(job: Job, number: int, name: str, colour: Rgb) -> int:
    """Choose the grout of a zone, or of the rest, which becomes a zone thereby. Return its number."""
    name = colour_name(name, "grout")
    if number in job.state.finish.zones:
        _open(job, number)
        job.write(ColourChosen(zone=number, of="grout", name=name, colour=colour))
        return number
    number, drawn = _rest_as_zone(job, number)
    job.write(drawn, ColourChosen(zone=number, of="grout", name=name, colour=colour))
    return number


def choose_ink(job: Job, number: int, name: str, colour: Rgb) -> None:
    """Choose an ink over a zone's grout. Raises OutOfTurn once it is inked or sealed."""
    name = colour_name(name, "ink")
    _not_finished(job, number)
    job.write(ColourChosen(zone=number, of="ink", name=name, colour=colour))


def leave_ink(job: Job, number: int) -> None:
    """Leave a zone in the colour of its grout after all."""
    _not_finished(job, number)
    if zone(job, number).ink is None:
        raise OutOfTurn(zone(job, number).name, say("no ink was chosen for it"), say("leave it as it is"))
    job.write(ColourChosen(zone=number, of="ink", name="", colour=(0, 0, 0)))


def tell_sun(job: Job, sun: Sun) -> None:
    """Say where the panel will hang, as the sun sees it."""
    job.write(SunTold(sun=sun))


def spans_of(members: Sequence[int]) -> tuple[tuple[int, int], ...]:
    """Return (first, how many) of each run of tesserae; none of none."""
    if not len(members):
        return ()
    found = np.unique(np.asarray(members, np.int64))
    parts = np.split(found, np.flatnonzero(np.diff(found) != 1) + 1)
    return tuple((int(part[0]), len(part)) for part in parts)


def _proposed(job: Job, by: By) -> tuple[np.ndarray, tuple[str, ...]]:
    if by == "groups":
        return group_zones(job.panel)
    if by == "one":
        return np.zeros(job.panel.tessera_count, np.int32), (WHOLE_NAME,)
    return proposed_zones(job.panel)


def _drawn(job: Job, changed: dict[int, tuple[str, Sequence[int]]]) -> Event:
    """Return the event of zones that change; those that lose pieces change too, or go with the last."""
    taken = {t for _, members in changed.values() for t in members}
    now = dict(changed)
    for one in job.state.finish.in_order:
        if one.number not in now and not taken.isdisjoint(one.tesserae):
            now[one.number] = one.name, [t for t in one.tesserae if t not in taken]
    gone = tuple(n for n, (_, members) in now.items() if not members and n not in changed)
    for number, (name, members) in now.items():
        if number not in gone and not leaves_grout(job, members):
            raise ZoneWithoutGrout(name)
    return ZonesDrawn(
        zones=tuple(
            ZoneDrawn(number=n, name=name, spans=spans_of(members))
            for n, (name, members) in sorted(now.items())
            if n not in gone
        ),
        gone=gone,
    )


def _free(job: Job, tesserae: Iterable[int]) -> list[int]:
    """Return those pieces that are in no grouted zone."""
    known = range(job.panel.tessera_count)
    grouted = {t for z in job.state.finish.zones.values() if z.grouted is not None for t in z.tesserae}
    asked = {t for t in tesserae if t in known}
    if not asked:
        raise OutOfTurn(say("zones"), say("no piece was touched"), say("tap a piece, or stroke over some"))
    if asked <= grouted:
        raise OutOfTurn(say("zones"), say("what was touched is grouted"), say("choose pieces that are not"))
    return sorted(asked - grouted)


def _open(job: Job, number: int) -> Zone:
    """Return a zone that is not grouted."""
    one = zone(job, number)
    if one.grouted is not None:
        raise OutOfTurn(one.name, say("it is grouted"), say("take that back first, if it is not so"))
    return one


def _rest_as_zone(job: Job, number: int) -> tuple[int, Event]:
    if number != 0:
        zone(job, number)
    rest = rest_of(job)
    name = laid_zones(job).names[-1]
    if not leaves_grout(job, rest):
        raise ZoneWithoutGrout(name)
    new = max(job.state.finish.zones, default=0) + 1
    return new, ZonesDrawn(zones=(ZoneDrawn(number=new, name=name, spans=spans_of(rest)),))


def _not_finished(job: Job, number: int) -> None:
    one = zone(job, number)
    if one.sealed:
        raise OutOfTurn(one.name, say("it is sealed, and no ink takes on a seal"), say("leave it as it is"))
    if one.inked is not None:
        raise OutOfTurn(one.name, say("it is inked already"), say("take that back first, if it is not so"))


def colour_name(name: str, of: str) -> str:
    """Return the name of a grout or ink as it is kept; raises NamelessColour for none."""
    words = " ".join(name.split())
    if not words:
        raise NamelessColour(of)
    return words[:LONGEST_NAME]
