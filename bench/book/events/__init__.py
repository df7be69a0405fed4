"""What can be written in the book: one small frozen model for each thing that happened.

Events say what happened, in the past tense, and are never rewritten. Each carries its `kind`, by which
it is found again, and a `version`, by which an older one can be brought up to date when it is read.
Times within a glue-up are seconds on the adhesive's clock, from first contact. Tesserae are named by
their index in the drawing that the panel had then, which is frozen by its content hash.
"""

from bench.book.events.base import Entry, Grams, Run, Seconds, Share, Step, Tesserae, WhyLeft
from bench.book.events.mix import (
    BatchPrescribed,
    CautionsAcknowledged,
    ContactCorrected,
    ContactMade,
    CupWent,
    HardenerPoured,
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
from bench.book.events.photo import DryPhotographed, PhotoCorrection, PhotoFrame
from bench.book.events.union import EVENTS, Envelope, Event, event_json, read_events

__all__ = [
    "EVENTS",
    "ActUndone",
    "BatchPrescribed",
    "BenchSet",
    "CautionsAcknowledged",
    "ContactCorrected",
    "ContactMade",
    "CupWent",
    "CureConfirmed",
    "DrawingRevised",
    "DryPhotographed",
    "Entry",
    "Envelope",
    "Event",
    "Grams",
    "HardenerPoured",
    "MixClosed",
    "MixOpened",
    "MixPaused",
    "MixPutAway",
    "MixResumed",
    "NoteWritten",
    "PanelOpened",
    "PhotoCorrection",
    "PhotoFrame",
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
