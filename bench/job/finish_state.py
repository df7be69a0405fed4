"""What is true of a panel's finishing: zones, what was done to each, and what was told of the wall."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

from bench.book.events import PanelHung, PanelSealed, SampleMeasured, ZoneGrouted, ZoneInked

Rgb = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Chosen:
    """A grout or an ink that was chosen: the name on its bag or bottle, and its colour."""

    name: str
    colour: Rgb


@dataclass(slots=True)
class Zone:
    """A zone as the book knows it. What lies in no zone is the rest."""

    number: int
    name: str
    tesserae: tuple[int, ...] = ()
    grout: Chosen | None = None
    ink: Chosen | None = None
    masked: bool = False
    shown: tuple[str, ...] = ()  # cautions read for the next mix
    grouted: ZoneGrouted | None = None
    grouted_utc: datetime | None = None
    dry_by_hand: Literal["tint", "seal"] | None = None
    inked: ZoneInked | None = None
    inked_utc: datetime | None = None
    sealed: bool = False

    def begin_anew(self) -> None:
        """Forget what was done to it, since pieces were chipped out: it will be grouted again."""
        self.masked, self.shown = False, ()
        self.grouted = self.grouted_utc = self.dry_by_hand = None
        self.inked = self.inked_utc = None
        self.sealed = False


@dataclass(slots=True)
class FinishState:
    """Finishing of one panel. tried: (ink, grout) that were seen on an offcut.

    measured: of a grout, dry and sealed, what was measured last. powder_g: grouted with in all, what was
    chipped out again included. [g]
    """

    zones: dict[int, Zone] = field(default_factory=dict)
    sun: Literal["direct", "indirect", "indoors"] | None = None
    tried: set[tuple[str, str]] = field(default_factory=set)
    sealed: PanelSealed | None = None
    sealed_utc: datetime | None = None
    hung: PanelHung | None = None
    hung_utc: datetime | None = None
    measured: dict[tuple[str, str], SampleMeasured] = field(default_factory=dict)
    powder_g: float = 0.0

    def measured_of(self, name: str) -> SampleMeasured | None:
        """Return what was measured of a grout: sealed where it was, as it will stay, else dry."""
        return self.measured.get((name, "sealed")) or self.measured.get((name, "dry"))

    def true_colour(self, name: str, told: Rgb) -> Rgb:
        """Return a grout's measured colour, or else the one that was told."""
        found = self.measured_of(name)
        return told if found is None else found.colour

    @property
    def in_order(self) -> list[Zone]:
        """The zones by number."""
        return [zone for _, zone in sorted(self.zones.items())]


SEAL_KEY = "seal"


def grout_key(zone: int) -> str:
    """Name the countdown row of a zone's grout."""
    return f"grout:{zone}"


def ink_key(zone: int) -> str:
    """Name the countdown row of a zone's ink."""
    return f"ink:{zone}"


def drying_keys(finish: FinishState) -> list[str]:
    """Name the rows of all that dries."""
    keys = [grout_key(zone.number) for zone in finish.zones.values() if zone.grouted is not None]
    keys += [ink_key(zone.number) for zone in finish.zones.values() if zone.inked is not None]
    return [*keys, SEAL_KEY] if finish.sealed is not None else keys
