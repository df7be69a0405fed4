"""What happens to the panel: opened, divided, laid, split, cured, chipped out, noted, taken back."""

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from bench.book.events.base import Entry, Grams, Hands, Run, Seconds, Share, Tesserae


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
    hands: Hands = 1
    hours_a_day: float = Field(default=3.0, gt=0, le=24)  # of glueing up
    laying_hours_a_day: float = Field(default=3.0, gt=0, le=24)  # of laying dry, beside the glueing up
    patch_cm2: float = Field(default=40.0, ge=1, le=2000)  # bed of a usual patch, where set by the patch
    patches_per_min: float | None = Field(default=None, gt=0, le=120)  # usual patches, setting alone
    half_life: float | None = Field(default=12.0, gt=0, le=1000)  # glue-ups; None: all weigh alike

    @property
    def by_patch(self) -> bool:
        return self.transfer != "single"


class Promise(BaseModel):
    """One section as it was promised to the maker."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    number: int = Field(ge=1)
    adhesive: str
    tesserae: Tesserae
    expected_s: Seconds
    capacity_s: Seconds
    in_time: Share
    by_hand: bool = False  # shaped by the maker: a division leaves it alone while it keeps the promise


class SectionsDrawn(Entry):
    """All bare ground was divided; replaces every section that is still drawn."""

    kind: Literal["sections_drawn"] = "sections_drawn"
    promises: tuple[Promise, ...]
    why: str


class SectionsShaped(Entry):
    """Drawn sections were joined, split or moved by hand; what is no longer named keeps no tessera.

    gone: numbers that are no more. promises: every section that changed, as it is promised now.
    """

    kind: Literal["sections_shaped"] = "sections_shaped"
    how: Literal["joined", "split", "moved"]
    gone: tuple[int, ...] = ()
    promises: tuple[Promise, ...] = Field(min_length=1)


class DrawingRevised(Entry):
    """A revised drawing was laid over the panel; what is dry or set stays, bare ground is as it shows it.

    drawing_sha256: the panel's drawing from here on, both in one, in mm at true size. given_sha256: the file
    as it came. runs: (old, new, count), which tesserae are the same ones under which index now; all others
    of the old drawing are gone or no longer what they were. Sections still drawn end here: SectionsDrawn
    follows in the same act. The counts are those that were shown.
    """

    kind: Literal["drawing_revised"] = "drawing_revised"
    drawing_sha256: str
    drawing_name: str
    given_sha256: str
    runs: tuple[Run, ...]
    stay: int = Field(ge=0)  # dry or set
    same: int = Field(ge=0)
    changed: int = Field(ge=0)
    added: int = Field(ge=0)
    gone: int = Field(ge=0)
    left_out: int = Field(ge=0)  # drawn over what is dry or set


class SectionLaid(Entry):
    """A section lies dry on the film and was counted."""

    kind: Literal["section_laid"] = "section_laid"
    section: int
    pieces: int = Field(ge=1, le=150_000)
    in_time: Share
    patches: int | None = Field(default=None, ge=1, le=150_000)  # it will be set in; None: piece by piece


class LayingTimed(Entry):
    """So long it took to cut and lay a section dry, breaks left out; a later word replaces it."""

    kind: Literal["laying_timed"] = "laying_timed"
    section: int
    pieces: int = Field(ge=1, le=150_000)
    seconds: float = Field(gt=0, le=2e6, allow_inf_nan=False)


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
    patches: tuple[int, ...] = ()  # none: piece by piece


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
    """The maker's own words. about: the entry of this panel that they are on; None: on none."""

    kind: Literal["note_written"] = "note_written"
    text: str = Field(min_length=1, max_length=4000)
    about: int | None = Field(default=None, ge=1)


class ActUndone(Entry):
    """The newest act was taken back; it stays in the book and no longer counts."""

    kind: Literal["act_undone"] = "act_undone"
    undone_act_id: str
