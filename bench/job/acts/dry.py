"""Lay a section dry, count it, take it up again, or part it for several mixes."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from bench.book.events import LayingTimed, Promise, SectionLaid, SectionSplit, SectionTakenUp
from bench.job.bedding import bed_area_mm2
from bench.job.cup_faults import CupInUse
from bench.job.cup_heat import cup_heat
from bench.job.faults import CountOutOfRange, HoursLaying, WrongOrder, WrongStage
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.planning import Bounds
from bench.job.sizing import Sizer
from bench.job.state import Section
from bench.pace.patches import ByPatch
from bench.sections import byhand
from bench.sections.ground import ground_of
from bench.sections.split import split_into
from bench.speech import say

MOST_PIECES_TO_ONE_DRAWN = 4  # a count far beyond the drawing is a slip of the finger
MOST_HOURS_LAYING = 500.0


def lay(job: Job, number: int, pieces: int | None = None, *, patches: int | None = None) -> None:
    """Say that a section lies dry, with its pieces as counted; a dry section may be counted again.

    pieces: None takes the drawn ones. From here on the section is what was laid. patches: it will be set in,
    where it is set by the patch; None: as said before, else as many as are usual on such a bed.
    """
    job.write(laid(job, number, pieces, patches=patches))


def time_laying(job: Job, number: int, hours: float) -> None:
    """Say how long it took to cut and lay a section that lies dry, breaks left out; the last word counts."""
    section = job.section(number)
    if section.stage == "drawn":
        raise WrongStage(number, job.life(number), "dry", "timed")
    if not (math.isfinite(hours) and 0 < hours <= MOST_HOURS_LAYING):
        raise HoursLaying(hours, MOST_HOURS_LAYING)
    job.write(LayingTimed(section=number, pieces=section.piece_count, seconds=3600.0 * hours))


def laid(job: Job, number: int, pieces: int | None = None, *, patches: int | None = None) -> SectionLaid:
    """Return what `lay` would write; raises what stands in the way."""
    section = job.section(number)
    if section.stage not in ("drawn", "dry"):
        raise WrongStage(number, job.life(number), "drawn", "laid")
    if section.mix is not None:
        raise CupInUse(section.mix, number)
    drawn = len(section.tesserae)
    pieces = section.piece_count if pieces is None else pieces
    most = MOST_PIECES_TO_ONE_DRAWN * drawn + 10
    if not 1 <= pieces <= most:
        raise CountOutOfRange(pieces, 1, most, "pieces")
    cut = patches_of(job, section) if patches is None else patches
    if cut is not None and not 1 <= cut <= most:
        raise CountOutOfRange(cut, 1, most, "patches")
    sure = in_time(job, section, pieces=pieces, patches=cut)
    return SectionLaid(section=number, pieces=pieces, in_time=sure, patches=cut)


def patches_of(job: Job, section: Section) -> int | None:
    """Return the patches a section is set in, as said, else as many as are usual; None: piece by piece."""
    bench = job.state.bench
    if not bench.by_patch:
        return None
    if section.patches is not None:
        return section.patches
    bed_mm2 = float(bed_area_mm2(job.panel)[list(section.tesserae)].sum())
    return int(ByPatch(bench.patch_cm2).patches_on(bed_mm2))


def in_time(
    job: Job,
    section: Section,
    *,
    pieces: float | None = None,
    patches: float | None = None,
    temperature_C: float | None = None,
    adhesive_C: float | None = None,
) -> float:
    """Return the probability that a section of so many pieces is done in time, as things are now.

    patches: where it is set by the patch; None: as many as it is said to be set in, or as are usual.
    """
    found = sizer(job, temperature_C, adhesive_C).in_time(
        section.adhesive,
        [np.asarray(section.tesserae, dtype=np.int32)],
        [section.piece_count if pieces is None else pieces],
        [section.patches if patches is None else patches],
    )
    return float(np.clip(found[0], 0.0, 1.0))


def take_up(job: Job, number: int) -> None:
    """Take the dry pieces of a section off the film; its ground is bare again under the same number."""
    section = job.section(number)
    if section.stage != "dry":
        raise WrongStage(number, job.life(number), "dry", "taken up")
    if section.mix is not None:
        raise CupInUse(section.mix, number)
    job.write(SectionTakenUp(section=number))


def split(
    job: Job, number: int, *, temperature_C: float | None = None, adhesive_C: float | None = None
) -> tuple[int, ...]:
    """Part a dry section so that each part fits one mix at this temperature; return their numbers.

    The pieces stay where they lie. The first part keeps the number, the others get new ones. Where one
    mix suffices already, the section is halved all the same: the maker asked for it.
    """
    section = _to_split(job, number)
    sizing = sizer(job, temperature_C, adhesive_C)
    return _keep_split(job, section, sizing, parts_for(job, sizing, section))


def split_along(
    job: Job, number: int, stroke_mm: ArrayLike, *, temperature_C: float | None = None
) -> tuple[int, ...]:
    """Part a dry section along a stroke, (p, 2) in mm of the panel, for as many mixes; return their numbers.

    How sure each part is comes with it and is the maker's to judge. Raises StrokeDividesNothing.
    """
    section = _to_split(job, number)
    sizing = sizer(job, temperature_C)
    members = np.unique(np.asarray(section.tesserae, dtype=np.int32))
    ground = Bounds(sizing).ground(members)
    after = byhand.split(ground, np.zeros(len(members), dtype=np.int32), 0, stroke_mm)
    parts = sorted((members[after.members(k)] for k in range(after.section_count)), key=len, reverse=True)
    return _keep_split(job, section, sizing, parts)


def _to_split(job: Job, number: int) -> Section:
    """Return a dry section that may be split now, or raise what stands in the way."""
    section = job.section(number)
    if section.stage != "dry":
        raise WrongStage(number, job.life(number), "dry", "split")
    mix = job.state.mix_at_cup
    if mix is not None and mix.section == number:
        raise CupInUse(mix.number, number)
    if len(section.tesserae) < 2:
        raise WrongOrder(
            say("section {number} is a single piece", number=number), say("set it as it is, or take it up")
        )
    return section


def _keep_split(job: Job, section: Section, sizing: Sizer, parts: list[np.ndarray]) -> tuple[int, ...]:
    promises = _promises(job, sizing, section, parts)
    pieces = _shared_out(section.piece_count, [len(p) for p in parts])
    cut = patches_of(job, section)
    patches = () if cut is None else _shared_out(cut, [max(1, round(sizing.bed_mm2(p))) for p in parts])
    job.write(SectionSplit(section=section.number, parts=promises, pieces=pieces, patches=patches))
    return tuple(p.number for p in promises)


def parts_for(job: Job, sizing: Sizer, section: Section) -> list[np.ndarray]:
    """Return the tesserae of each part: as few parts as keep the promise at the sizing's temperature.

    A part whose cup would run away is parted further.
    """
    members = np.unique(np.asarray(section.tesserae, dtype=np.int32))
    more = _more(sizing, section)
    capacity_s = sizing.sizing(section.adhesive).capacity.capacity_s / more
    total_s = float(sizing.expected_s[members].sum())
    ground = ground_of(
        job.panel,
        expected_s=sizing.expected_s,
        adhesive=np.zeros(job.panel.tessera_count, dtype=np.int32),
        capacity_s=np.array([capacity_s]),
        prefer=job.state.bench.prefer,
        keep=members,
    )
    for _ in range(24):
        bound_s = min(capacity_s, max(total_s * 0.55, float(sizing.expected_s[members].max())))
        label = split_into(ground, np.arange(len(members)), capacity_s=bound_s)
        parts = [members[label == k] for k in range(int(label.max()) + 1)]
        sure = _sure_of(sizing, section, parts)
        keeps = float(sure.min()) >= job.state.bench.sure - 1e-9
        if len(parts) == len(members) or (keeps and not _run_away(sizing, section.adhesive, parts)):
            break
        capacity_s = bound_s * 0.93
    return parts


def _more(sizing: Sizer, section: Section) -> float:
    """Return how much more there is to set than was drawn: pieces, or patches, over the usual."""
    if sizing.by_patch is None:
        return section.piece_count / len(section.tesserae)
    usual = sizing.patches(np.asarray(section.tesserae, dtype=np.int32)) or 1.0
    return max(1.0, (section.patches or usual) / usual)


def _sure_of(sizing: Sizer, section: Section, parts: list[np.ndarray]) -> np.ndarray:
    """Return how sure each part is, with its share of the pieces, and of the patches by their bed. (k,)"""
    pieces = section.piece_count / len(section.tesserae)
    bed_mm2 = np.array([sizing.bed_mm2(p) for p in parts])
    cut = None
    if section.patches is not None and sizing.by_patch is not None:
        cut = np.maximum(1.0, section.patches * bed_mm2 / bed_mm2.sum()).tolist()
    return sizing.in_time(section.adhesive, parts, [len(p) * pieces for p in parts], cut)


def _run_away(sizing: Sizer, adhesive: str, parts: list[np.ndarray]) -> bool:
    """Tell whether the cup of any part would run away in this room."""
    for part in parts:
        heat = cup_heat(
            sizing.products[adhesive],
            mass_g=sizing.batch(adhesive, part).total_g,
            temperature_C=sizing.temperature_C,
            bed_mm=sizing.bench.bed_mm,
            mix_C=sizing.adhesive_C,
        )
        if heat is not None and heat.cups > 1:
            return True
    return False


def _promises(job: Job, sizing: Sizer, section: Section, parts: list[np.ndarray]) -> tuple[Promise, ...]:
    sure = _sure_of(sizing, section, parts)
    free = max(job.state.used_numbers, default=0) + 1
    numbers = [section.number, *range(free, free + len(parts) - 1)]
    return tuple(
        sizing.promise(number, section.adhesive, part, section.capacity_s, p)
        for number, part, p in zip(numbers, parts, sure, strict=True)
    )


def _shared_out(pieces: int, sizes: list[int]) -> tuple[int, ...]:
    """Share a count out in proportion to sizes; whole numbers, at least 1 each, the sum kept if it can be."""
    exact = [pieces * size / sum(sizes) for size in sizes]
    shares = [max(1, int(x)) for x in exact]
    by_rest = sorted(range(len(sizes)), key=lambda i: int(exact[i]) - exact[i])
    for i in by_rest[: max(0, pieces - sum(shares))]:
        shares[i] += 1
    return tuple(shares)
