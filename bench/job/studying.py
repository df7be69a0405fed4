"""A draft's areas at hand: what its paint shows, changed by the maker's words, word by word.

What takes long, the tree of the paint, is found once and held here; the words are the draft's.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bench.drawing.faults import DrawingFault
from bench.drawing.lay.areas import check, check_region, pitch_mm
from bench.drawing.photo import Picture
from bench.drawing.study import Outline, Proposal, Study, StudyHow, drawn_study, propose, study_of
from bench.drawing.study.edit import covered
from bench.drawing.study.edits import Drawn, Edit, LaidSo
from bench.drawing.study.faults import AreaTooSmall
from bench.drawing.study.mixing import plain_region
from bench.drawing.study.model import Colour, Region
from bench.drawing.study.propose import MOST_REGIONS
from bench.job.drafts import Draft
from bench.job.faults import SizeNotTold
from bench.job.trial import Trial
from bench.speech import say

GROUND: Colour = (208, 202, 190)  # of an empty panel, until its maker chooses
_ONE_BY_ONE = 12  # areas; more are stepped by a tenth
_MOST_POINTS = 2000
_RECENT = 4  # studies that are kept: a word is often said again, or taken back

Point = tuple[float, float]


class Studied:
    """The paint of a draft, or the empty panel; `study` makes the areas that words ask for."""

    def __init__(self, paint: Picture | None, size_mm: Point, outline: Outline, name: str) -> None:
        """Look at the paint, which takes seconds. Raises OneColour."""
        self.paint, self.size_mm, self.outline, self.name = paint, size_mm, outline, name
        self.proposal: Proposal | None = None if paint is None else propose(paint, size_mm)
        self.trial: Trial | None = None  # the last lay, for whoever turns back to it
        self._recent: list[tuple[StudyHow, Study]] = []

    def fits(self, draft: Draft, paint: Picture | None) -> bool:
        """Tell whether this is the draft's paint, or its empty panel."""
        if paint is not None or self.paint is not None:
            return paint is self.paint
        return (self.size_mm, self.outline) == ((draft.width_mm, draft.height_mm), draft.outline)

    def study(self, how: StudyHow) -> Study:
        """Return the areas; the same again for the same words. Raises what a word cannot do."""
        known = self._known(how)
        if known is None:
            before = self._known(how.taken_back()) if how.edits else None
            known = self._anew(how) if before is None else how.edits[-1].over(before, self.proposal)
        self._recent = [*self._recent[-(_RECENT - 1) :], (how, known)]
        return known

    def _known(self, how: StudyHow) -> Study | None:
        return next((study for said, study in reversed(self._recent) if said == how), None)

    def _anew(self, how: StudyHow) -> Study:
        if self.proposal is not None:
            return study_of(how, self.proposal)
        ground = plain_region(GROUND, how.piece_mm, say("ground"))
        return drawn_study(how, self.size_mm, ground, self.name, self.outline)

    def as_far_as_it_goes(self, how: StudyHow) -> tuple[StudyHow, Study]:
        """Return the words that still fit, from the first on, and the areas they make.

        Words said of an empty panel may not fit one whose size has changed.
        """
        good = how.model_copy(update={"edits": ()})
        study = self.study(good)
        for edit in how.edits:
            try:
                study = self.study(good.said(edit))
            except DrawingFault:
                break
            good = good.said(edit)
        return good, study

    def stepped(self, how: StudyHow, by: int) -> StudyHow:
        """Return the words for more areas, or for fewer: the next number at which there are others.

        All that was said of the areas goes; where no other number is to be had, the words stay as they are.
        """
        if self.proposal is None:
            return how
        most = min(MOST_REGIONS, self.proposal.patches.leaves)
        asked = min(how.regions or self.proposal.count, most)
        plain = how.model_copy(update={"edits": ()})
        now = len(self._anew(plain).regions)
        while True:
            step = 1 if asked + min(by, 0) < _ONE_BY_ONE else asked // 10
            asked += by * step
            if not 1 <= asked <= most:
                return how
            new = plain.model_copy(update={"regions": asked})
            found = self._anew(new)
            if (len(found.regions) - now) * by > 0:
                return new

    def drawn(
        self, study: Study, points_mm: Sequence[Point], piece_mm: float, colour: Colour | None = None
    ) -> Drawn:
        """Return the word for an area drawn by a finger, a closed stroke.

        colour: of its glass; None for what the paint under it asks for. Raises AreaTooSmall.
        """
        every = max(1, -(-len(points_mm) // _MOST_POINTS))
        outline = tuple((float(x), float(y)) for x, y in points_mm[::every])
        members = covered(study, np.array(outline, float).reshape(-1, 2)) & (study.labels > 0)
        if not members.any():
            raise AreaTooSmall(study.name)
        if colour is None and self.proposal is not None:
            return Drawn(outline_mm=outline, region=self.proposal.region(members, piece_mm))
        return Drawn(outline_mm=outline, region=plain_region(colour or GROUND, piece_mm))


def studied(draft: Draft, paint: Picture | None, size_mm: tuple[float | None, float | None]) -> Studied:
    """Return a draft's areas at hand, which takes seconds. Raises SizeNotTold or OneColour."""
    width_mm, height_mm = (draft.width_mm, draft.height_mm) if paint is None else size_mm
    if width_mm is None or height_mm is None:
        raise SizeNotTold(draft.name)
    return Studied(paint, (width_mm, height_mm), draft.outline, draft.name)


def said(draft: Draft, edit: Edit, *, instead: bool = False) -> Draft:
    """Return the draft with one word more of its areas; instead: in place of the last word."""
    how = draft.study.taken_back() if instead else draft.study
    return draft.changed(study=how.said(edit))


def laid_so(draft: Draft, study: Study, number: int, to: Region, *, instead: bool = False) -> Draft:
    """Return the draft with an area laid in another way. Raises PieceTooLarge or JointTooWide."""
    check_region(to, draft.lay.joint_mm, min(study.size_mm), study.name)
    return said(draft, LaidSo(region=number, to=to), instead=instead)


def check_lay(draft: Draft, study: Study) -> None:
    """Raise NothingToLay, PieceTooLarge, JointTooWide or TooManyPieces for areas that cannot be laid."""
    check(study, draft.lay.joint_mm)


def counted_anew(draft: Draft, how: StudyHow) -> Draft:
    """Return the draft with another number of areas; what was said of the old ones can be taken back to."""
    before = (*draft.study_before, draft.study) if draft.study.edits else draft.study_before
    return draft.changed(study=how, study_before=before)


def taken_back(draft: Draft) -> Draft:
    """Return the draft without the last word of its areas; without any, as it was before they were counted
    anew. The draft as it is where there is neither.
    """
    if draft.study.edits:
        return draft.changed(study=draft.study.taken_back())
    if draft.study_before:
        return draft.changed(study=draft.study_before[-1], study_before=draft.study_before[:-1])
    return draft


def main_glass(study: Study) -> list[Colour]:
    """Return the colour of each area's glass of the largest share."""
    return [max(region.mix, key=lambda glass: glass.share).colour for region in study.regions]


def pieces_of(study: Study, joint_mm: float) -> list[int]:
    """Return about how many pieces each area asks for: area / (pitch along · pitch across)."""
    each = [float(np.prod(pitch_mm(region, joint_mm))) for region in study.regions]
    return [max(1, round(area / one)) for area, one in zip(study.area_mm2().tolist(), each, strict=True)]
