"""The book's entries on finishing in plain words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from bench.book import events as e
from bench.finish import code_of


def _zones(x: e.ZonesDrawn) -> str:
    named = ", ".join(f"{z.name} ({_count(len(z.tesserae), 'piece')})" for z in x.zones)
    if not x.zones:
        return f"{_count(len(x.gone), 'zone')} taken off"
    return f"Zones drawn: {named}" + (f"; {_count(len(x.gone), 'zone')} taken off" if x.gone else "")


def _count(count: int, what: str) -> str:
    return f"1 {what}" if count == 1 else f"{count} {what}s"


def _lot(lot: str) -> str:
    return f", lot {lot}" if lot else ""


def _chosen(x: e.ColourChosen) -> str:
    if not x.name:
        return f"Zone {x.zone} stays in the colour of its grout"
    return f"{x.of.capitalize()} chosen for zone {x.zone}: {x.name}"


_SUN: dict[str, str] = {
    "direct": "in direct sun",
    "indirect": "in daylight without sun",
    "indoors": "indoors",
}

WORDS: dict[type, Callable[[Any], str]] = {
    e.ZonesDrawn: _zones,
    e.ColourChosen: _chosen,
    e.SunTold: lambda x: f"It will hang {_SUN[x.sun]}",
    e.ZoneMasked: lambda x: f"Zone {x.zone} masked, {x.tape_mm / 10:.0f} cm of tape",
    e.GroutCautionsRead: lambda x: f"Cautions of grout read before zone {x.zone} was mixed for",
    e.ZoneGrouted: lambda x: (
        f"Zone {x.zone} grouted: {x.name}, {x.powder_g:g} g powder and {x.water_g:g} g water{_lot(x.lot)}"
    ),
    e.SampleMeasured: lambda x: f"{opened(x.grout)} measured on a tile, {x.state}: {code_of(x.colour)}",
    e.GroutTried: lambda x: f"Zone {x.zone} tried by hand: dry enough to {x.dry_to}",
    e.InkTried: lambda x: f"Ink {x.name} tried on an offcut of {x.grout}",
    e.ZoneInked: lambda x: f"Zone {x.zone} inked: {x.name}{_lot(x.lot)}",
    e.PanelSealed: lambda x: f"Sealed with {x.name}" if x.name else "Sealed",
    e.PanelHung: lambda x: f"Hung {x.where}",
}


def zone_words(name: str) -> str:
    """Name a zone within a sentence: 'the dark blue zone', 'the rest'."""
    return name if name.startswith("the ") else f"the {name} zone"


def opened(text: str) -> str:
    """Return a sentence with its first letter large."""
    return text[:1].upper() + text[1:]
