"""What a maker said of a study, in order: kept, it can be said again over the same paint, and taken back."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from bench.drawing.study.edit import changed_region, merged, renamed, split, with_area
from bench.drawing.study.faults import NoPaint
from bench.drawing.study.model import Region, Study
from bench.drawing.study.outline import Outline, outline_labels
from bench.drawing.study.propose import MOST_REGIONS, Proposal

Point = tuple[float, float]
RECTANGLE = Outline()
Number = Annotated[int, Field(ge=1)]  # of a region, as the study has it at that moment


class _Said(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class MadeOne(_Said):
    """Two neighbours became one region."""

    kind: Literal["made_one"] = "made_one"
    one: Number
    other: Number

    def over(self, study: Study, proposal: Proposal | None) -> Study:
        return merged(study, self.one, self.other)


class Parted(_Said):
    """A region became two where its paint differs most."""

    kind: Literal["parted"] = "parted"
    region: Number

    def over(self, study: Study, proposal: Proposal | None) -> Study:
        if proposal is None:
            raise NoPaint(study.name)
        return split(study, self.region, proposal)


class Named(_Said):
    """A region was given a name."""

    kind: Literal["named"] = "named"
    region: Number
    name: str = Field(min_length=1, max_length=80)

    def over(self, study: Study, proposal: Proposal | None) -> Study:
        return renamed(study, self.region, self.name)


class LaidSo(_Said):
    """A region is to be laid in another way, or in other glass."""

    kind: Literal["laid_so"] = "laid_so"
    region: Number
    to: Region

    def over(self, study: Study, proposal: Proposal | None) -> Study:
        return changed_region(study, self.region, self.to)


class Drawn(_Said):
    """An area was drawn by hand, a closed outline in mm."""

    kind: Literal["drawn"] = "drawn"
    outline_mm: tuple[Point, ...] = Field(max_length=5000)
    region: Region

    def over(self, study: Study, proposal: Proposal | None) -> Study:
        return with_area(study, self.outline_mm, self.region)


Edit = Annotated[MadeOne | Parted | Named | LaidSo | Drawn, Field(discriminator="kind")]


class StudyHow(_Said):
    """How a study is read: into how many regions, in which pieces, and what was said since.

    regions: None for as many as it seems to have.
    """

    regions: int | None = Field(default=None, ge=1, le=MOST_REGIONS)
    piece_mm: float = Field(default=6.0, gt=0)
    edits: tuple[Edit, ...] = ()

    def said(self, edit: Edit) -> StudyHow:
        """Return this and one thing more."""
        return self.model_copy(update={"edits": (*self.edits, edit)})

    def taken_back(self) -> StudyHow:
        """Return this without what was said last."""
        return self.model_copy(update={"edits": self.edits[:-1]})


def study_of(how: StudyHow, proposal: Proposal) -> Study:
    """Return the study that a painted picture and the maker's words make. Raises what an edit cannot do."""
    return _edited(how, proposal.study(how.regions, piece_mm=how.piece_mm), proposal)


def drawn_study(
    how: StudyHow,
    size_mm: tuple[float, float],
    ground: Region,
    name: str = "",
    outline: Outline = RECTANGLE,
) -> Study:
    """Return the study that areas drawn on an empty panel make; all around them is laid as `ground`.

    Raises what an edit cannot do, CutTooLarge or RingTooWide.
    """
    return _edited(how, Study(outline_labels(outline, size_mm, name), size_mm, (ground,), name=name), None)


def _edited(how: StudyHow, study: Study, proposal: Proposal | None) -> Study:
    for edit in how.edits:
        study = edit.over(study, proposal)
    return study
