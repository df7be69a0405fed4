"""What is left of a panel, foretold: glue-ups, hours, grams of each part and the finishing day."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np

from bench.adhesive.part_words import part_word
from bench.book.events import Promise
from bench.job.job import Job
from bench.job.measuring import parts_g, sizer
from bench.job.sizing import FloatArray, Sizer, routine_of
from bench.job.state import Section
from bench.pace.dry import laid_per_drawn
from bench.pace.forecast import Forecast, forecast
from bench.speech import said, say

Spread = Mapping[str, float]
Parts = Mapping[tuple[str, str], float]


def forecast_left(job: Job, *, seed: int = 0) -> Forecast:
    """Foretell glue-ups, hours, grams and days for all that is not set yet, with its uncertainty."""
    counted = [s for s in job.state.sections.values() if s.pieces is not None and s.tesserae]
    return forecast_of(sizer(job), left_of(job), counted=counted, seed=seed)


def left_of(job: Job) -> list[Section]:
    """Return the sections that are still to be set."""
    return [s for s in job.state.sections.values() if s.stage in ("drawn", "dry")]


def forecast_of(
    measures: Sizer,
    left: Sequence[Section | Promise],
    *,
    counted: Sequence[Section] = (),
    seed: int = 0,
) -> Forecast:
    """Foretell what these sections will take. The working time is that of the adhesive most of it takes.

    counted: sections of the panel that were laid and counted; what is still drawn is taken to be laid as
    they were, region by region of the drawing.
    """
    members = np.array([t for s in left for t in s.tesserae], dtype=np.int32)
    names = [s.adhesive for s in left for _ in s.tesserae]
    main = max(set(names), key=names.count, default=measures.bench.adhesive)
    area_mm2 = measures.bed_mm2(members) if members.size else 0.0
    kept_g = _kept_g(measures, left)
    pieces = pieces_left(measures, left, counted)
    to_lay = pieces_left(measures, [s for s in left if not _lies(s)], counted)
    spread_g = max(0.0, sum(parts_g(measures, left).values()) - kept_g * len(left))
    return forecast(
        measures.known.hands,
        measures.known.life_of(main),
        counts_left=effort_left(measures, left, pieces),
        area_mm2=area_mm2,
        working_time_s=measures.working_time_s(main),
        routine=routine_of(measures.products[main]),
        sure=measures.bench.sure,
        sections_planned=len(left) or None,
        laying=measures.known.laying,
        pieces_to_lay=float(to_lay.sum()),
        hours_a_day=measures.bench.hours_a_day,
        laying_hours_a_day=measures.bench.laying_hours_a_day,
        grams=(spread_g / area_mm2 if area_mm2 else 0.0, kept_g),
        rng=np.random.default_rng(seed),
    )


def _lies(section: Section | Promise) -> bool:
    return isinstance(section, Section) and section.pieces is not None


def effort_left(
    measures: Sizer, left: Sequence[Section | Promise], pieces: FloatArray
) -> FloatArray:
    """Return what effort counts of these sections: the pieces, or by the patch their patches and bed. (3,)"""
    if measures.by_patch is None:
        return pieces
    cuts = [s.patches if isinstance(s, Section) else None for s in left]
    members = [np.asarray(s.tesserae, dtype=np.int32) for s in left]
    return sum(
        (measures.effort(m, patches=cut) for m, cut in zip(members, cuts, strict=True)), start=np.zeros(3)
    )


def pieces_left(
    measures: Sizer, left: Sequence[Section | Promise], counted: Sequence[Section]
) -> FloatArray:
    """Return the small, medium and large pieces that these sections will have on the film. (3,)

    Of a counted section as counted, of the others as drawn times what was laid for each drawn so far.
    """
    groups = measures.panel.group
    region = np.unique(groups, return_inverse=True)[1].reshape(-1)
    regions = int(region.max(initial=-1)) + 1
    members = [np.asarray(s.tesserae, dtype=np.int32) for s in counted]
    drawn = np.array([np.bincount(region[m], minlength=regions) for m in members]).reshape(-1, regions)
    ratio = laid_per_drawn([float(s.piece_count) for s in counted], drawn)
    pieces = np.zeros(3)
    for section in left:
        tesserae = np.asarray(section.tesserae, dtype=np.int32)
        each = ratio[region[tesserae]]
        if isinstance(section, Section) and section.pieces is not None:
            each = np.full(len(tesserae), section.pieces / len(tesserae))
        pieces += np.bincount(measures.size_class[tesserae], weights=each, minlength=3)
    return pieces


def _kept_g(measures: Sizer, left: Sequence[Section | Promise]) -> float:
    """Return what a cup keeps, the mean over these sections' adhesives; of none, as the bench is set. [g]"""
    kept = [measures.coverage(s.adhesive).batch_residue_g for s in left]
    return sum(kept) / len(kept) if kept else measures.bench.residue_g


def parts_foretold(parts: Parts, mixed_g: Spread) -> list[str]:
    """Say what to have at hand of each part, a line each: of all that is mixed, the part's planned share."""
    whole = sum(parts.values())
    return [
        _part_line(name, part, told(mixed_g, part_g / whole))
        for (name, part), part_g in parts.items()
        if whole > 0
    ]


def _part_line(name: str, part: str, grams: str) -> str:
    if not part:
        return say("{name}: {grams} g", name=said(name), grams=grams)
    return say("{name}, {part}: {grams} g", name=said(name), part=part_word(part), grams=grams)


def finishing_days(
    last_day: int, planned: int, glue_ups: Spread, laying_days: Spread | None = None
) -> dict[str, float]:
    """Return the day of work on which the last section is set, 1 for today, 10, 50 and 90 % sure.

    last_day: of the calendar for the sections as they are planned, were all laid; more or fewer glue-ups
    stretch it in their ratio, by no less than a day. laying_days: no section is set before it was laid.
    Nothing planned is finished on day 0.
    """
    if not planned:
        return dict.fromkeys(glue_ups, 0.0)
    laid = laying_days or dict.fromkeys(glue_ups, 1.0)
    return {
        p: max(1.0, float(math.ceil(last_day * n / planned - 1e-9)), laid[p]) for p, n in glue_ups.items()
    }


def told(spread: Spread, share: float = 1.0) -> str:
    """Say three figures in a row: 10, 50 and 90 %."""
    return "–".join(say("{value:.0f}", value=share * spread[p]) for p in ("p10", "p50", "p90"))
