"""Fold the book's entries on finishing into the panel's state."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from bench.book import events as e
from bench.book.events import Envelope
from bench.job.finish_state import Chosen, FinishState, Rgb, Zone
from bench.job.state import PanelState


def _zones_drawn(state: PanelState, event: e.ZonesDrawn, entry: Envelope) -> None:
    zones = state.finish.zones
    for number in event.gone:
        del zones[number]
    for drawn in event.zones:
        zone = zones.setdefault(drawn.number, Zone(drawn.number, drawn.name))
        zone.name = drawn.name
        zone.tesserae = drawn.tesserae
        zone.masked = False


def _colour_chosen(state: PanelState, event: e.ColourChosen, entry: Envelope) -> None:
    zone = state.finish.zones[event.zone]
    if event.of == "grout":
        zone.grout, zone.masked = _true(state, event.name, event.colour), False
    else:
        zone.ink = Chosen(event.name, event.colour) if event.name else None


def _sun_told(state: PanelState, event: e.SunTold, entry: Envelope) -> None:
    state.finish.sun = event.sun


def _zone_masked(state: PanelState, event: e.ZoneMasked, entry: Envelope) -> None:
    state.finish.zones[event.zone].masked = True


def _cautions_read(state: PanelState, event: e.GroutCautionsRead, entry: Envelope) -> None:
    state.finish.zones[event.zone].shown = event.shown


def _zone_grouted(state: PanelState, event: e.ZoneGrouted, entry: Envelope) -> None:
    zone = state.finish.zones[event.zone]
    zone.grouted, zone.grouted_utc = event, entry.at_utc
    zone.grout = _true(state, event.name, event.colour)
    state.finish.powder_g += event.powder_g
    zone.shown, zone.dry_by_hand = (), None


def _sample_measured(state: PanelState, event: e.SampleMeasured, entry: Envelope) -> None:
    finish = state.finish
    finish.measured[event.grout, event.state] = event
    for zone in finish.zones.values():
        if zone.grout is not None:
            zone.grout = _true(state, zone.grout.name, zone.grout.colour)


def _true(state: PanelState, name: str, told: Rgb) -> Chosen:
    """Return a grout in its measured colour, where it was measured."""
    return Chosen(name, state.finish.true_colour(name, told))


def _grout_tried(state: PanelState, event: e.GroutTried, entry: Envelope) -> None:
    state.finish.zones[event.zone].dry_by_hand = event.dry_to


def _ink_tried(state: PanelState, event: e.InkTried, entry: Envelope) -> None:
    state.finish.tried.add((event.name, event.grout))


def _zone_inked(state: PanelState, event: e.ZoneInked, entry: Envelope) -> None:
    zone = state.finish.zones[event.zone]
    zone.inked, zone.inked_utc = event, entry.at_utc
    zone.ink = Chosen(event.name, event.colour)


def _sealed(state: PanelState, event: e.PanelSealed, entry: Envelope) -> None:
    state.finish.sealed, state.finish.sealed_utc = event, entry.at_utc
    for zone in state.finish.zones.values():
        zone.sealed = True


def _hung(state: PanelState, event: e.PanelHung, entry: Envelope) -> None:
    state.finish.hung, state.finish.hung_utc = event, entry.at_utc


def chipped(finish: FinishState, tesserae: tuple[int, ...]) -> None:
    """Let a zone that pieces were chipped out of begin anew, and the panel be sealed and hung again."""
    out = set(tesserae)
    for zone in finish.zones.values():
        if not out.isdisjoint(zone.tesserae):
            zone.begin_anew()
    finish.sealed = finish.sealed_utc = finish.hung = finish.hung_utc = None


def renamed(finish: FinishState, place: dict[int, int]) -> None:
    """Follow a revised drawing: pieces that are gone leave their zones, and a zone without pieces goes."""
    for zone in finish.zones.values():
        zone.tesserae = tuple(sorted(place[t] for t in zone.tesserae if t in place))
    finish.zones = {number: zone for number, zone in finish.zones.items() if zone.tesserae}


APPLY: dict[type, Callable[[PanelState, Any, Envelope], None]] = {
    e.ZonesDrawn: _zones_drawn,
    e.ColourChosen: _colour_chosen,
    e.SunTold: _sun_told,
    e.ZoneMasked: _zone_masked,
    e.GroutCautionsRead: _cautions_read,
    e.ZoneGrouted: _zone_grouted,
    e.SampleMeasured: _sample_measured,
    e.GroutTried: _grout_tried,
    e.InkTried: _ink_tried,
    e.ZoneInked: _zone_inked,
    e.PanelSealed: _sealed,
    e.PanelHung: _hung,
}
