"""All events as one type, and the envelope that each is kept in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Annotated

from pydantic import Field, TypeAdapter

from bench.book.events.finishing import (
    ColourChosen,
    GroutCautionsRead,
    GroutTried,
    InkTried,
    PanelHung,
    PanelSealed,
    SampleMeasured,
    SunTold,
    ZoneGrouted,
    ZoneInked,
    ZoneMasked,
    ZonesDrawn,
)
from bench.book.events.mix import (
    BatchPrescribed,
    BottleTaken,
    CautionsAcknowledged,
    ContactCorrected,
    ContactMade,
    CupWeighed,
    CupWent,
    HardenerPoured,
    LifeAllowed,
    MixClosed,
    MixOpened,
    MixPaused,
    MixPutAway,
    MixResumed,
    PiecesCounted,
    ResinPoured,
    StepBegun,
    WentStringy,
)
from bench.book.events.panel import (
    ActUndone,
    BenchSet,
    CureConfirmed,
    DrawingRevised,
    LayingTimed,
    NoteWritten,
    PanelOpened,
    SectionChipped,
    SectionLaid,
    SectionsDrawn,
    SectionSplit,
    SectionsShaped,
    SectionTakenUp,
)
from bench.book.events.photo import DryPhotographed, EdgeTraced, PhotoAttached
from bench.book.events.stock import (
    BottleBought,
    BottleEmptied,
    BottleOpened,
    BottleUnsealed,
    BottleWeighed,
)
from bench.book.events.upcast import upcast

Event = Annotated[
    PanelOpened
    | BenchSet
    | SectionsDrawn
    | SectionsShaped
    | DrawingRevised
    | SectionLaid
    | LayingTimed
    | DryPhotographed
    | EdgeTraced
    | PhotoAttached
    | SectionTakenUp
    | SectionSplit
    | MixOpened
    | BottleTaken
    | CautionsAcknowledged
    | BatchPrescribed
    | ResinPoured
    | HardenerPoured
    | MixPutAway
    | ContactMade
    | ContactCorrected
    | StepBegun
    | PiecesCounted
    | MixPaused
    | MixResumed
    | WentStringy
    | MixClosed
    | CupWent
    | CupWeighed
    | LifeAllowed
    | CureConfirmed
    | SectionChipped
    | NoteWritten
    | BottleBought
    | ZonesDrawn
    | ColourChosen
    | SunTold
    | ZoneMasked
    | GroutCautionsRead
    | ZoneGrouted
    | GroutTried
    | InkTried
    | ZoneInked
    | PanelSealed
    | PanelHung
    | SampleMeasured
    | BottleOpened
    | BottleUnsealed
    | BottleWeighed
    | BottleEmptied
    | ActUndone,
    Field(discriminator="kind"),
]

EVENTS: TypeAdapter[list[Event]] = TypeAdapter(list[Event])


@dataclass(frozen=True, slots=True)
class Envelope:
    """An event with its place in the book. book: the other one that it was written in, "" for this one."""

    seq: int
    panel_id: int
    act_id: str
    at_utc: datetime
    event: Event
    book: str = ""


def event_json(event: Event) -> str:
    """Return the stored form of an event, its kind and version included."""
    return event.model_dump_json()


def read_events(rows: Iterable[str]) -> list[Event]:
    """Return the events of stored rows, in order, older ones brought up to date.

    A row that cannot be read raises ValidationError, or ValueError.
    """
    return EVENTS.validate_json("[" + ",".join(upcast(rows)) + "]")
