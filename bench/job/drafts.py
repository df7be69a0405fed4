"""Drafts: a picture on its way to a panel, kept at every step so that the maker may leave and go on later."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any, Literal, NamedTuple

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from bench.book import Clock, Store
from bench.drawing.lay import LayHow
from bench.drawing.lines import LineHow, Stroke
from bench.drawing.panel import Panel
from bench.drawing.photo import Corners, Picture, Quad, bare, inset, paper_mm, ready, turned_corners, whole
from bench.drawing.photo.adjust import MOST_STEPS
from bench.drawing.study import Outline, StudyHow
from bench.drawing.svg_out import write_svg
from bench.job.acts.opening import open_panel
from bench.job.faults import DraftUnreadable, SizeNotTold
from bench.job.job import Job
from bench.job.settings import PHOTOS
from bench.speech import say

PICTURE = "picture"  # the roles of a draft's files
COLOURS = "colours"

Sizes = tuple[float | None, float | None]

# what was found or drawn in the picture goes with these: it would lie elsewhere
_MOVES_ALL = {"turned", "corner_px", "width_mm", "height_mm"}
_PAINTS_ANEW = _MOVES_ALL | {"lighten"}  # areas are found by their colours
EMPTY = "An empty panel"  # as it is kept; said by draft_title


def draft_title(name: str) -> str:
    """Say what a draft is called: as its file, or that it has none."""
    return say("An empty panel") if name == EMPTY else name


class Draft(BaseModel):
    """How a picture becomes a panel, as far as the maker has said.

    step: where the maker was. turned: quarters clockwise. lighten: steps of gamma, darker below 0.
    corner_px: in the turned picture, from top left clockwise; None until set. width_mm, height_mm: the true
    size between the corners; None until told, a scanner's file then proposes it.
    lines, strokes: how a line drawing is read, and what was drawn by hand into the squared-up picture.
    colours: the name of the picture that colours are taken from, "" for none.
    study: into which areas a painted study falls, with what was said of them; study_before: what was said of
    another number of areas, the newest last, to be taken back to. lay: how the areas are laid.
    outline: the shape of an empty panel, which has no picture.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    version: int = 1
    name: str
    step: str = "picture"
    turned: int = Field(default=0, ge=0, le=3)
    lighten: int = Field(default=0, ge=-MOST_STEPS, le=MOST_STEPS)
    corner_px: Quad | None = None
    width_mm: float | None = Field(default=None, gt=0)
    height_mm: float | None = Field(default=None, gt=0)
    kind: Literal["lines", "study", "empty"] | None = None
    lines: LineHow = LineHow()
    strokes: tuple[Stroke, ...] = ()
    colours: str = ""
    study: StudyHow = StudyHow()
    study_before: tuple[StudyHow, ...] = ()
    lay: LayHow = LayHow()
    outline: Outline = Outline()

    @property
    def title(self) -> str:
        """What it is called, said."""
        return draft_title(self.name)

    def changed(self, **update: Any) -> Draft:
        """Return the draft with something said anew.

        Strokes go where the picture under them moves, what was said of areas where they may be others; an
        empty panel has no picture to move.
        """
        new = {key for key, value in update.items() if getattr(self, key) != value}
        gone: dict[str, Any] = {"strokes": ()} if new & _MOVES_ALL else {}
        if new & _PAINTS_ANEW and self.kind != "empty":
            gone["study"] = StudyHow(piece_mm=self.study.piece_mm)
            gone["study_before"] = ()
            gone["lay"] = self.lay.model_copy(update={"brushes": ()})
        return Draft.model_validate({**dict(self), **gone, **update})

    def turned_by(self, quarters: int, size_px: tuple[int, int]) -> Draft:
        """Return the draft turned further; size_px: width and height as the picture lies now."""
        odd = quarters % 2 == 1
        corners = self.corner_px and turned_corners(self.corner_px, size_px, quarters)
        return self.changed(
            turned=(self.turned + quarters) % 4,
            corner_px=corners,
            width_mm=self.height_mm if odd else self.width_mm,
            height_mm=self.width_mm if odd else self.height_mm,
        )

    def size_px(self, picture: Picture) -> tuple[int, int]:
        """Return width and height of the picture as it lies, turned."""
        rows, columns = picture.pixels.shape[:2]
        return (rows, columns) if self.turned % 2 else (columns, rows)

    def corners_in(self, picture: Picture) -> Quad:
        """Return the corners; before any were set, the picture's own, a little within."""
        return self.corner_px or inset(self.size_px(picture))

    def is_whole(self, picture: Picture) -> bool:
        return self.corner_px == whole(self.size_px(picture))

    def size_mm(self, picture: Picture) -> Sizes:
        """Return the true size: as told; else as the scanner has it; None where nobody knows.

        Of a whole picture one side follows from the other.
        """
        told = (self.width_mm, self.height_mm)
        if None in told and picture.mm_per_px is not None:
            paper = paper_mm(self.corners_in(picture), picture.mm_per_px)
            told = (told[0] or paper[0], told[1] or paper[1])
        if self.is_whole(picture):
            across, down = self.size_px(picture)
            if self.width_mm is not None:
                return self.width_mm, self.width_mm * down / across
            if self.height_mm is not None:
                return self.height_mm * across / down, self.height_mm
        return told

    def corners(self, picture: Picture, tap_px: float = 2.0) -> Corners:
        """Return the corners with the true size; raises SizeNotTold while that is not known."""
        width_mm, height_mm = self.size_mm(picture)
        if width_mm is None or height_mm is None:
            raise SizeNotTold(self.title)
        return Corners(
            corner_px=self.corners_in(picture), width_mm=width_mm, height_mm=height_mm, tap_px=tap_px
        )

    def ready(self, picture: Picture) -> Picture:
        """Return what the maker chose of the picture, upright and square.

        Raises SizeNotTold, CornersCross or SizeOutOfRange.
        """
        return ready(picture, self.turned, self.corners(picture), self.lighten)


class Kept(NamedTuple):
    """A draft in a list: what it is called and when it was worked on."""

    draft_id: int
    name: str
    changed_utc: datetime


@dataclass(frozen=True)
class Dropped:
    """A draft that was dropped, with all that is needed to bring it back."""

    name: str
    body: str
    files: dict[str, bytes]


def as_stored(store: Store, data: bytes) -> bytes:
    """Return a picture's file as it is kept: without place, time and camera, unless they are wanted."""
    return data if store.setting(PHOTOS) == "whole" else bare(data)


def begin_draft(store: Store, clock: Clock, name: str, data: bytes) -> int:
    """Keep a new draft of a picture's file and return its id; a draft of this very file is gone on with."""
    data = as_stored(store, data)
    for row in store.drafts.all():
        if row.name == name and store.drafts.file(row.draft_id, PICTURE) == data:
            return row.draft_id
    with store.together():
        draft_id = store.drafts.add(name, Draft(name=name).model_dump_json(), clock.utc())
        store.drafts.put_file(draft_id, PICTURE, data)
    return draft_id


def begin_empty(store: Store, clock: Clock) -> int:
    """Keep a new draft of a panel without a picture and return its id."""
    draft = _empty(EMPTY)
    return store.drafts.add(draft.name, draft.model_dump_json(), clock.utc())


def _empty(name: str) -> Draft:
    return Draft(name=name, kind="empty", step="outline")


def keep_draft(store: Store, clock: Clock, draft_id: int, draft: Draft) -> None:
    """Write a draft down as it is now."""
    store.drafts.change(draft_id, draft.model_dump_json(), clock.utc())


def drafts(store: Store) -> list[Kept]:
    """Return what can be gone on with, the newest first."""
    return [Kept(row.draft_id, draft_title(row.name), row.changed_utc) for row in store.drafts.all()]


def draft_of(store: Store, draft_id: int) -> Draft:
    """Return a draft; raises NoSuchDraft, or DraftUnreadable where another version wrote what it says.

    One that lost its words when the book was mended is unreadable too, and begins anew with its picture;
    without a picture it was an empty panel, and is one again.
    """
    row = store.drafts.row(draft_id)
    if not row.body and PICTURE not in store.drafts.roles(draft_id):
        return _empty(row.name)
    try:
        return Draft.model_validate_json(row.body)
    except ValidationError:
        raise DraftUnreadable(row.name, draft_title(row.name)) from None


def draft_is_readable(body: str) -> bool:
    """Tell whether a draft's words can be read by this version."""
    try:
        Draft.model_validate_json(body)
    except ValidationError:
        return False
    return True


def file_of(store: Store, draft_id: int, role: str = PICTURE) -> bytes | None:
    """Return a file of a draft, None where it has none of that role."""
    return store.drafts.file(draft_id, role)


def keep_colours(store: Store, draft_id: int, data: bytes | None) -> None:
    """Keep the picture that colours are taken from, or none any more."""
    if data is None:
        store.drafts.drop_file(draft_id, COLOURS)
    else:
        store.drafts.put_file(draft_id, COLOURS, as_stored(store, data))


def drop_draft(store: Store, draft_id: int) -> Dropped:
    """Drop a draft and return what brings it back; raises NoSuchDraft."""
    row = store.drafts.row(draft_id)
    files = {role: store.drafts.file(draft_id, role) for role in (PICTURE, COLOURS)}
    store.drafts.drop(draft_id)
    return Dropped(row.name, row.body, {role: data for role, data in files.items() if data is not None})


def bring_back(store: Store, clock: Clock, dropped: Dropped) -> int:
    """Keep a dropped draft again and return its new id."""
    with store.together():
        draft_id = store.drafts.add(dropped.name, dropped.body, clock.utc())
        for role, data in dropped.files.items():
            store.drafts.put_file(draft_id, role, data)
    return draft_id


def accept_draft(store: Store, clock: Clock, draft_id: int, panel: Panel) -> Job:
    """Open what was found as a panel of the book and drop the draft: both, or neither.

    The panel is written as a drawing and read back, so that it is from now on what the book keeps. One
    without a picture is named in the language spoken, as its maker would.
    """
    name = store.drafts.row(draft_id).name
    with store.together():
        job = open_panel(
            store, clock, write_svg(panel), f"{Path(name).stem}.svg", name=Path(draft_title(name)).stem
        )
        store.drafts.drop(draft_id)
    return job


def nudge_px(size_px: tuple[int, int]) -> float:
    """Return the step by which a corner is nudged: a thousandth of the longer side, at least a pixel. [px]"""
    return float(max(1, math.ceil(max(size_px) / 1000)))
