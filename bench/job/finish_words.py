"""The book's entries on finishing in plain words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from bench.book import events as e
from bench.drawing.colour import code_of
from bench.finish.beheld import tint_said
from bench.finish.zone_called import zone_called
from bench.speech import large_first, line_length, say, say_n


def _zones(x: e.ZonesDrawn) -> str:
    gone = say_n("{count} zone taken off", "{count} zones taken off", len(x.gone))
    if not x.zones:
        return gone
    named = say("Zones drawn: {zones}", zones=", ".join(map(_drawn, x.zones)))
    return f"{named}; {gone}" if x.gone else named


def _drawn(zone: e.ZoneDrawn) -> str:
    pieces = say_n("{count} piece", "{count} pieces", len(zone.tesserae))
    return f"{zone_called(zone.name)} ({pieces})"


def _chosen(x: e.ColourChosen) -> str:
    if not x.name:
        return say("Zone {zone} stays in the colour of its grout", zone=x.zone)
    name = tint_said(x.name)
    if x.of == "grout":
        return say("Grout chosen for zone {zone}: {name}", zone=x.zone, name=name)
    return say("Ink chosen for zone {zone}: {name}", zone=x.zone, name=name)


def _sun(x: e.SunTold) -> str:
    return {
        "direct": say("It will hang in direct sun"),
        "indirect": say("It will hang in daylight without sun"),
        "indoors": say("It will hang indoors"),
    }[x.sun]


def _grouted(x: e.ZoneGrouted) -> str:
    told: dict[str, Any] = {"zone": x.zone, "name": tint_said(x.name)}
    told |= {"powder_g": x.powder_g, "water_g": x.water_g}
    if x.lot:
        return say(
            "Zone {zone} grouted: {name}, {powder_g:g} g powder and {water_g:g} g water, lot {lot}",
            **told,
            lot=x.lot,
        )
    return say("Zone {zone} grouted: {name}, {powder_g:g} g powder and {water_g:g} g water", **told)


def _measured(x: e.SampleMeasured) -> str:
    told = {"grout": large_first(tint_said(x.grout)), "code": code_of(x.colour)}
    if x.state == "dry":
        return say("{grout} measured on a tile, dry: {code}", **told)
    return say("{grout} measured on a tile, sealed: {code}", **told)


def _tried(x: e.GroutTried) -> str:
    if x.dry_to == "tint":
        return say("Zone {zone} tried by hand: dry enough to tint", zone=x.zone)
    return say("Zone {zone} tried by hand: dry enough to seal", zone=x.zone)


def _inked(x: e.ZoneInked) -> str:
    told = {"zone": x.zone, "name": tint_said(x.name)}
    if x.lot:
        return say("Zone {zone} inked: {name}, lot {lot}", **told, lot=x.lot)
    return say("Zone {zone} inked: {name}", **told)


WORDS: dict[type, Callable[[Any], str]] = {
    e.ZonesDrawn: _zones,
    e.ColourChosen: _chosen,
    e.SunTold: _sun,
    e.ZoneMasked: lambda x: say(
        "Zone {zone} masked, {length} of tape", zone=x.zone, length=line_length(x.tape_mm)
    ),
    e.GroutCautionsRead: lambda x: say(
        "Cautions of grout read before zone {zone} was mixed for", zone=x.zone
    ),
    e.ZoneGrouted: _grouted,
    e.SampleMeasured: _measured,
    e.GroutTried: _tried,
    e.InkTried: lambda x: say(
        "Ink {ink} tried on an offcut of {grout}", ink=tint_said(x.name), grout=tint_said(x.grout)
    ),
    e.ZoneInked: _inked,
    e.PanelSealed: lambda x: say("Sealed with {name}", name=x.name) if x.name else say("Sealed"),
    e.PanelHung: lambda x: say("Hung outdoors") if x.where == "outdoors" else say("Hung indoors"),
}


def zone_words(name: str) -> str:
    """Name a zone within a sentence: 'the dark blue zone', 'the rest'."""
    return zone_called(name) if name.startswith("the ") else say("the {name} zone", name=name)
