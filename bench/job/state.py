"""What is true of one panel now: plain records that the fold of the book fills in."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

from bench.book.events import (
    BatchPrescribed,
    BenchSet,
    BottleTaken,
    CupWeighed,
    DryPhotographed,
    EdgeTraced,
    MixClosed,
    Part,
    Step,
)
from bench.job.finish_state import FinishState

Stage = Literal["drawn", "dry", "wet", "set"]
Life = Literal["drawn", "dry", "wet", "soft", "firm", "hard"]


@dataclass(slots=True)
class Section:
    """A section of the panel as the book knows it; `set` becomes soft, firm, hard with the clock."""

    number: int
    adhesive: str
    tesserae: tuple[int, ...]
    expected_s: float
    capacity_s: float
    in_time: float
    stage: Stage = "drawn"
    pieces: int | None = None  # counted at Dry
    patches: int | None = None  # it will be set in; None: piece by piece, or not told
    laid_utc: datetime | None = None
    mix: int | None = None
    confirmed: Literal["firm", "hard"] | None = None
    by_hand: bool = False  # shaped by the maker
    photo: DryPhotographed | None = None  # as it lay dry

    @property
    def piece_count(self) -> int:
        """Pieces as counted, or as drawn where nothing was counted."""
        return len(self.tesserae) if self.pieces is None else self.pieces


@dataclass(slots=True)
class Mix:
    """One batch, from going to the cup until the glue-up is closed."""

    number: int
    section: int
    temperature_C: float
    opened_utc: datetime
    adhesive_C: float | None = None  # the bottles', where they were kept colder or warmer than the room
    acknowledged: bool = False
    shown: tuple[str, ...] = ()
    taken: dict[Part, BottleTaken] = field(default_factory=dict)  # which bottle each part comes out of
    batch: BatchPrescribed | None = None
    poured_resin_g: float | None = None
    hardener_target_g: float | None = None
    poured_hardener_g: float | None = None
    poured_s: float | None = None  # both parts weighed, or more added: stirring begins anew
    put_away: bool = False
    contact_utc: datetime | None = None
    working_time_s: float | None = None  # of its clock
    label_s: float | None = None  # by the label alone
    patches: int | None = None  # it is set in; None: piece by piece
    steps_s: dict[Step, float] = field(default_factory=dict)  # when each step began
    counts: list[tuple[float, int]] = field(default_factory=list)  # (at_s, pieces or patches placed)
    pauses_s: list[list[float]] = field(default_factory=list)  # [from, to]; an open pause has no end
    stringy_s: float | None = None
    told_acts: list[str] = field(default_factory=list)  # what undo may take back of it, oldest first
    cup_went_s: float | None = None
    closed: MixClosed | None = None
    cup_weighed: CupWeighed | None = None

    @property
    def is_running(self) -> bool:
        return self.contact_utc is not None and self.closed is None

    @property
    def is_at_cup(self) -> bool:
        return self.contact_utc is None and not self.put_away

    @property
    def is_paused(self) -> bool:
        return bool(self.pauses_s) and len(self.pauses_s[-1]) == 1

    @property
    def placed(self) -> int:
        """Pieces, or patches, down at the last count; 0 when none was told."""
        return self.counts[-1][1] if self.counts else 0

    @property
    def mixed_g(self) -> float:
        """What is in the cup, or will be: as poured where that was told, else as prescribed. [g]"""
        if self.poured_resin_g is not None:
            told_g = self.poured_hardener_g
            return self.poured_resin_g + ((self.hardener_target_g or 0.0) if told_g is None else told_g)
        return self.batch.total_g if self.batch is not None else 0.0

    def paused_s(self, until_s: float) -> float:
        """Return how long the hands have rested up to a moment of the adhesive's clock. [s]"""
        spans = [(p[0], p[1] if len(p) == 2 else until_s) for p in self.pauses_s]
        return sum(max(0.0, min(end, until_s) - start) for start, end in spans)


@dataclass(slots=True)
class PanelState:
    """One panel. Every tessera of its drawing is in exactly one section once it has been divided."""

    name: str = ""
    drawing_sha256: str = ""
    drawing_name: str = ""
    width_mm: float | None = None
    height_mm: float | None = None
    bench: BenchSet = field(default_factory=BenchSet)
    sections: dict[int, Section] = field(default_factory=dict)
    mixes: dict[int, Mix] = field(default_factory=dict)
    used_numbers: set[int] = field(default_factory=set)
    worked_numbers: set[int] = field(default_factory=set)
    laid_once: set[int] = field(default_factory=set)  # tesserae cut and laid, then left over
    finish: FinishState = field(default_factory=FinishState)
    edge: EdgeTraced | None = None  # of what is set, as it was traced last
    edge_utc: datetime | None = None
    act_ids: list[str] = field(default_factory=list)  # acts that count, oldest first

    def with_stage(self, stage: Stage) -> list[Section]:
        """Return the sections of a stage, by number."""
        return [s for _, s in sorted(self.sections.items()) if s.stage == stage]

    @property
    def running_mixes(self) -> list[Mix]:
        return [m for m in self.mixes.values() if m.is_running]

    @property
    def mix_at_cup(self) -> Mix | None:
        return next((m for m in self.mixes.values() if m.is_at_cup), None)
