"""What can be written in the book: one small frozen model for each thing that happened.

Events say what happened, in the past tense, and are never rewritten. Each carries its `kind`, by which
it is found again, and a `version`, by which an older one can be brought up to date when it is read.
Times within a glue-up are seconds on the adhesive's clock, from first contact. Tesserae are named by
their index in the drawing that the panel had then, which is frozen by its content hash.
"""

from bench.book.events.base import Entry, Grams, Lot, Part, Run, Seconds, Share, Step, Tesserae, WhyLeft
from bench.book.events.mix import (
    BatchPrescribed,
    BottleTaken,
    CautionsAcknowledged,
    ContactCorrected,
    ContactMade,
    CupWeighed,
    CupWent,
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
    NoteWritten,
    PanelOpened,
    Promise,
    SectionChipped,
    SectionLaid,
    SectionsDrawn,
    SectionSplit,
    SectionsShaped,
    SectionTakenUp,
)
from bench.book.events.stock import BottleEmptied, BottleOpened, BottleWeighed
from bench.book.events.union import EVENTS, Envelope, Event, event_json, read_events

__all__ = [
    "EVENTS",
    "ActUndone",
    "BatchPrescribed",
    "BenchSet",
    "BottleEmptied",
    "BottleOpened",
    "BottleTaken",
    "BottleWeighed",
    "CautionsAcknowledged",
    "ContactCorrected",
    "ContactMade",
    "CupWeighed",
    "CupWent",
    "CureConfirmed",
    "DrawingRevised",
    "Entry",
    "Envelope",
    "Event",
    "Grams",
    "Lot",
    "MixClosed",
    "MixOpened",
    "MixPaused",
    "MixPutAway",
    "MixResumed",
    "NoteWritten",
    "PanelOpened",
    "Part",
    "PiecesCounted",
    "Promise",
    "ResinPoured",
    "Run",
    "Seconds",
    "SectionChipped",
    "SectionLaid",
    "SectionSplit",
    "SectionTakenUp",
    "SectionsDrawn",
    "SectionsShaped",
    "Share",
    "Step",
    "StepBegun",
    "Tesserae",
    "WentStringy",
    "WhyLeft",
    "event_json",
    "read_events",
]
