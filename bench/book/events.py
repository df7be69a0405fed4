"""What can be written in the book: one small frozen model for each thing that happened.

Events say what happened, in the past tense, and are never rewritten. Each carries its `kind`, by which
it is found again, and a `version`; a stored event of an older version is brought up to date when it is
read (`upcast.py`). Times within a glue-up are seconds on the adhesive's clock, from first contact.
Tesserae are named by their index in the drawing, which is frozen by its content hash.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter

Tesserae = tuple[int, ...]
Seconds = Annotated[float, Field(ge=0, allow_inf_nan=False)]
Grams = Annotated[float, Field(ge=0, allow_inf_nan=False)]
Share = Annotated[float, Field(ge=0, le=1)]
WhyLeft = Literal["stringy", "did not fit", "dropped", "changed my mind", "called away"]
Step = Literal["stir", "spread", "set", "clean"]


class Entry(BaseModel):
    """Base of all events: frozen, and nothing unknown in it."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    version: int = 1


class PanelOpened(Entry):
    """A drawing was opened as a panel; the file itself is kept by its hash."""

    kind: Literal["panel_opened"] = "panel_opened"
    name: str
    drawing_sha256: str
    drawing_name: str
    width_mm: float | None = None
    height_mm: float | None = None


class BenchSet(Entry):
    """How this panel is worked: adhesives, promise, scale, hands. Replaces what was set before."""

    kind: Literal["bench_set"] = "bench_set"
    adhesive: str = "white-paste"
    clear_glass_adhesive: str = "white-paste"
    products: dict[str, str] = Field(default_factory=dict)  # adhesive name -> hash of its file
    sure: float = Field(default=0.9, ge=0.5, le=0.99)
    prefer: Literal["forms", "fewest"] = "forms"
    pace_per_min: float | None = Field(default=None, gt=0, le=120)
    temperature_C: float = Field(default=21.0, ge=-10, le=60)
    working_time_s: float | None = Field(default=None, gt=0)  # the maker's own figure instead of the label's
    bed: Literal["spread", "buttered"] = "spread"
    bed_mm: float = Field(default=0.8, gt=0, le=10)
    waste: float = Field(default=0.1, ge=0, le=2)
    residue_g: Grams = 1.5
    scale_g: float = Field(default=0.1, gt=0, le=50)
    cumulative: bool = False
    transfer: Literal["single", "patch", "face-down"] = "single"
    hand: Literal["left", "right"] = "right"


class Promise(BaseModel):
    """One section as it was promised to the maker."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    number: int = Field(ge=1)
    adhesive: str
    tesserae: Tesserae
    expected_s: Seconds
    capacity_s: Seconds
    in_time: Share


class SectionsDrawn(Entry):
    """All bare ground was divided; replaces every section that is still drawn."""

    kind: Literal["sections_drawn"] = "sections_drawn"
    promises: tuple[Promise, ...]
    why: str


class SectionLaid(Entry):
    """A section lies dry on the film and was counted."""

    kind: Literal["section_laid"] = "section_laid"
    section: int
    pieces: int = Field(ge=1, le=150_000)
    in_time: Share


class SectionTakenUp(Entry):
    """The dry pieces were taken off the film; the ground is bare again."""

    kind: Literal["section_taken_up"] = "section_taken_up"
    section: int


class SectionSplit(Entry):
    """A dry section will be set in several mixes: each part is a dry section from now on."""

    kind: Literal["section_split"] = "section_split"
    section: int
    parts: tuple[Promise, ...]
    pieces: tuple[int, ...]


class MixOpened(Entry):
    """The maker went to the cup for a section, with the room's temperature asked again."""

    kind: Literal["mix_opened"] = "mix_opened"
    mix: int = Field(ge=1)
    section: int
    temperature_C: float = Field(ge=-10, le=60)


class CautionsAcknowledged(Entry):
    """The cautions for this mix were read before gloves went on; their wording is kept."""

    kind: Literal["cautions_acknowledged"] = "cautions_acknowledged"
    mix: int
    product_sha256: str
    shown: tuple[str, ...]


class BatchPrescribed(Entry):
    """What the maker was told to weigh, and what it promised."""

    kind: Literal["batch_prescribed"] = "batch_prescribed"
    mix: int
    resin_g: Grams
    hardener_g: Grams
    total_g: Grams
    worst_ratio_error: float | None  # None: without bound on this scale
    scale_ok: bool
    working_time_s: Seconds
    in_time: Share


class ResinPoured(Entry):
    """The resin was weighed; the hardener follows it."""

    kind: Literal["resin_poured"] = "resin_poured"
    mix: int
    resin_g: Grams
    hardener_target_g: Grams


class MixPutAway(Entry):
    """The cup was left before resin met hardener; the section lies dry as before."""

    kind: Literal["mix_put_away"] = "mix_put_away"
    mix: int


class ContactMade(Entry):
    """Hardener met resin: the adhesive's clock runs. Back-dated by so many seconds when told late."""

    kind: Literal["contact_made"] = "contact_made"
    mix: int
    back_dated_s: Seconds = 0.0
    working_time_s: Seconds


class ContactCorrected(Entry):
    """First contact was earlier than told, by so many seconds."""

    kind: Literal["contact_corrected"] = "contact_corrected"
    mix: int
    earlier_by_s: Seconds


class StepBegun(Entry):
    """The maker said that a step of the glue-up began."""

    kind: Literal["step_begun"] = "step_begun"
    mix: int
    step: Step
    at_s: Seconds


class PiecesCounted(Entry):
    """So many pieces of the section were down at that time."""

    kind: Literal["pieces_counted"] = "pieces_counted"
    mix: int
    placed: int = Field(ge=0)
    at_s: Seconds


class MixPaused(Entry):
    """The hands stopped; the adhesive did not."""

    kind: Literal["mix_paused"] = "mix_paused"
    mix: int
    at_s: Seconds


class MixResumed(Entry):
    """The hands went on."""

    kind: Literal["mix_resumed"] = "mix_resumed"
    mix: int
    at_s: Seconds


class WentStringy(Entry):
    """The adhesive started to go."""

    kind: Literal["went_stringy"] = "went_stringy"
    mix: int
    at_s: Seconds


class MixClosed(Entry):
    """The glue-up ended. Holds all that the hands and the adhesive's life are learned from."""

    kind: Literal["mix_closed"] = "mix_closed"
    mix: int
    section: int
    contact_utc: datetime
    placed: int = Field(ge=0)
    left: Tesserae = ()
    left_assumed: bool = False  # only a number was known: the open edge is assumed
    why_left: WhyLeft | None = None
    small: int = Field(default=0, ge=0)
    medium: int = Field(default=0, ge=0)
    large: int = Field(default=0, ge=0)
    setting_s: Seconds
    steps_assumed: bool = False  # the maker told no steps: stirring, spreading and cleaning as usual
    paused_s: Seconds = 0.0
    finished_after_s: Seconds
    stringy_after_s: Seconds | None = None
    temperature_C: float
    label_s: Seconds
    adhesive: str
    firm_s: Seconds
    grout_s: Seconds
    in_time: bool
    unsure: bool = False  # the clock changed during the glue-up: kept, not learned from


class CupWent(Entry):
    """The left-over in the cup was found to have gone, afterwards."""

    kind: Literal["cup_went"] = "cup_went"
    mix: int
    at_s: Seconds


class CureConfirmed(Entry):
    """The maker tried a set section by hand and says that it is firm, or hard."""

    kind: Literal["cure_confirmed"] = "cure_confirmed"
    section: int
    stage: Literal["firm", "hard"]


class SectionChipped(Entry):
    """A set section was chipped out; its ground is bare again and its number is never used again."""

    kind: Literal["section_chipped"] = "section_chipped"
    section: int


class NoteWritten(Entry):
    """The maker's own words."""

    kind: Literal["note_written"] = "note_written"
    text: str = Field(min_length=1, max_length=4000)


class ActUndone(Entry):
    """The newest act was taken back; it stays in the book and no longer counts."""

    kind: Literal["act_undone"] = "act_undone"
    undone_act_id: str


Event = Annotated[
    PanelOpened
    | BenchSet
    | SectionsDrawn
    | SectionLaid
    | SectionTakenUp
    | SectionSplit
    | MixOpened
    | CautionsAcknowledged
    | BatchPrescribed
    | ResinPoured
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
    | CureConfirmed
    | SectionChipped
    | NoteWritten
    | ActUndone,
    Field(discriminator="kind"),
]

EVENTS: TypeAdapter[list[Event]] = TypeAdapter(list[Event])


@dataclass(frozen=True, slots=True)
class Envelope:
    """An event with its place in the book."""

    seq: int
    panel_id: int
    act_id: str
    at_utc: datetime
    event: Event


def event_json(event: Event) -> str:
    """Return the stored form of an event, its kind and version included."""
    return event.model_dump_json()


def read_events(rows: Iterable[str]) -> list[Event]:
    """Return the events of stored rows, in order; a row that cannot be read raises ValidationError."""
    return EVENTS.validate_json("[" + ",".join(rows) + "]")
