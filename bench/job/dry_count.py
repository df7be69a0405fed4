"""What the counted pieces of a section mean: whether they fit one mix, else how many to leave, and where."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bench.job.acts.dry import parts_for, patches_of
from bench.job.ground import Side, edge_strip, side_of
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.sizing import routine_of
from bench.pace.capacity import WorkingTimeTooShort
from bench.pace.dry import judge_count


@dataclass(frozen=True)
class Judged:
    """in_time: chance of all of them in one mix. leave: pieces, or patches, too many for the promise; strip:
    the drawn tesserae that stand for them, along the edge to open ground; edge_cm: how much of that edge they
    take; side: where it lies. mixes: how many would hold all, 0 where not one piece is sure. unit: what leave
    counts. [cm]
    """

    in_time: float
    fits: bool
    leave: int
    strip: tuple[int, ...]
    edge_cm: float
    side: Side
    mixes: int
    unit: str


def judged(
    job: Job,
    number: int,
    pieces: int,
    *,
    patches: int | None = None,
    temperature_C: float | None = None,
) -> Judged:
    """Return what so many pieces, or patches, of a section mean for the promise, as things are now.

    patches: where it is set by the patch; None: as said at Dry, else as many as are usual.
    """
    section, sure = job.section(number), job.state.bench.sure
    measures = sizer(job, temperature_C)
    members = np.asarray(section.tesserae, dtype=np.int32)
    cut = patches_of(job, section) if patches is None else patches
    whole = pieces if cut is None else cut
    mass_g = measures.batch(section.adhesive, members).total_g
    found = judge_count(
        measures.known.hands,
        measures.known.life_of(section.adhesive),
        counts=measures.effort(members, pieces=pieces, patches=cut),
        area_mm2=measures.bed_mm2(members),
        working_time_s=measures.working_time_s(section.adhesive, mass_g=mass_g),
        routine=routine_of(measures.products[section.adhesive]),
        sure=sure,
        patches=cut,
    )
    fits = found.in_time >= sure - 1e-9
    left = 0 if fits or not found.mixes else round(found.leave * len(members) / max(whole, 1))
    strip = edge_strip(job, section, left)
    return Judged(
        found.in_time,
        fits,
        found.leave,
        strip,
        _edge_cm(job, members, strip),
        side_of(job, section, strip),
        found.mixes,
        "pieces" if cut is None else "patches",
    )


def mixes_of(job: Job, number: int) -> tuple[tuple[int, ...], ...]:
    """Return the tesserae of each mix that a dry section would be split into, its own number first.

    As few as keep the promise, and two at least; none where a single piece cannot be split, or where not
    even one piece is sure to be in time.
    """
    section = job.section(number)
    if len(section.tesserae) < 2:
        return ()
    try:
        return tuple(tuple(part.tolist()) for part in parts_for(job, sizer(job), section))
    except WorkingTimeTooShort:
        return ()


def _edge_cm(job: Job, members: np.ndarray, strip: tuple[int, ...]) -> float:
    """Return how much joint lies between the strip and what is not of the section. [cm]"""
    own, left = np.zeros(job.panel.tessera_count, bool), np.zeros(job.panel.tessera_count, bool)
    own[members], left[list(strip)] = True, True
    a, b = job.panel.joints.pair.T
    outward = (left[a] & ~own[b]) | (left[b] & ~own[a])
    return float(job.panel.joints.length_mm[outward].sum()) / 10.0
