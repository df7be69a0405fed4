"""All events as one type, and the envelope that each is kept in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, get_args

from pydantic import ConfigDict, Field, TypeAdapter, ValidationError

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
from bench.book.events.upcast import HEAD, upcast

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

EVENTS: TypeAdapter[list[Event]] = TypeAdapter(list[Event], config=ConfigDict(defer_build=True))

_OF_KIND: dict[str, type[Event]] = {
    model.model_fields["kind"].default: model for model in get_args(get_args(Event)[0])
}


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

    Each is read by the model of its kind alone, so that a start builds the checks of the kinds it meets and
    no others; all fifty in one tell what is wrong with a row that fails. A row that cannot be read raises
    ValidationError, or ValueError.
    """
    now = list(upcast(rows))
    try:
        return [_model_for(row).model_validate_json(row) for row in now]
    except (ValidationError, LookupError):
        return EVENTS.validate_json("[" + ",".join(now) + "]")


def _model_for(row: str) -> type[Event]:
    head = HEAD.match(row)
    if head is None:
        raise LookupError(row[:80])
    return _OF_KIND[head[2]]
