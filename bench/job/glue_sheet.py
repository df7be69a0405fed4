"""What the glue-up shows from across the room: time left, where the hands should be, what will fit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from bench.adhesive import film_open_s
from bench.book.events import Step
from bench.job.acts.glueup import STEPS, to_set
from bench.job.acts.opening import sizer
from bench.job.ground import open_side
from bench.job.job import Job
from bench.job.sizing import routine_of_mix
from bench.job.state import Mix
from bench.pace import Routine
from bench.pace.likely import outlook

Mood = Literal["working", "half", "last pieces", "stop"]
LAST_SHARE = 0.2  # of the working time: time for the last pieces, then only to clean


@dataclass(frozen=True)
class GlueSheet:
    """One running mix, now.

    step: told by the maker, else where a usual glue-up would be. stirs: False for an adhesive that is
    ready. stir_left_s: the rest of the stirring, 0 once it is over. likely_more: pieces still likely to be
    down before the adhesive goes, None when the clock cannot be trusted. pieces, placed and these are of
    `unit`: pieces, or patches. leave: how many will not fit. advice: one sentence.
    """

    mix: int
    section: int
    left_s: float
    spent_s: float
    total_s: float
    unsure: bool
    step: Step
    step_told: bool
    stirs: bool
    stir_left_s: float
    paused: bool
    stringy: bool
    pieces: int
    placed: int
    counted: bool
    likely_more: int | None
    leave: int
    mood: Mood
    advice: str
    unit: str = "pieces"


def glue_sheet(job: Job, mix_number: int) -> GlueSheet:
    """Return what the glue-up shows for a running mix."""
    mix = job.mix(mix_number)
    section = job.section(mix.section)
    reading = job.reading(mix_number)
    total_s = mix.working_time_s or 0.0
    left_s = reading.left_to_work_s
    bed_mm2 = _bed_mm2(job, mix)
    routine = routine_of_mix(job.product(section.adhesive), mix)
    step, told = _step(mix, routine, reading.spent_s, bed_mm2, total_s)
    likely, leave = (None, 0) if reading.unsure else _likely(job, mix, reading.spent_s, bed_mm2)
    whole, unit = to_set(job, mix)
    mood = _mood(left_s, total_s, routine.clean_s(bed_mm2), mix.stringy_s is not None)
    return GlueSheet(
        mix=mix_number,
        section=section.number,
        left_s=left_s,
        spent_s=reading.spent_s,
        total_s=total_s,
        unsure=reading.unsure,
        step=step,
        step_told=told,
        stirs=routine.stir_s > 0,
        stir_left_s=max(0.0, routine.stir_s - reading.spent_s) if step == "stir" else 0.0,
        paused=mix.is_paused,
        stringy=mix.stringy_s is not None,
        pieces=whole,
        placed=mix.placed,
        counted=bool(mix.counts),
        likely_more=likely,
        leave=leave,
        mood=mood,
        advice=_advice(job, mix, step, likely, leave, left_s),
        unit=unit,
    )


def _bed_mm2(job: Job, mix: Mix) -> float:
    members = np.asarray(job.section(mix.section).tesserae, dtype=np.int32)
    return sizer(job, mix.temperature_C).bed_mm2(members)


def _step(mix: Mix, routine: Routine, spent_s: float, bed_mm2: float, total_s: float) -> tuple[Step, bool]:
    """Return the step the hands are at: the last one told, else by the usual times."""
    told = max(mix.steps_s, key=STEPS.index)
    usual: list[tuple[Step, float]] = [
        ("spread", routine.stir_s),
        ("set", routine.stir_s + routine.spread_s(bed_mm2)),
        ("clean", total_s - routine.clean_s(bed_mm2)),
    ]
    by_time: Step = "stir"
    for step, from_s in usual:
        if spent_s >= from_s:
            by_time = step
    if STEPS.index(told) >= STEPS.index(by_time):
        return told, told != "stir"
    return by_time, False


def _likely(job: Job, mix: Mix, spent_s: float, bed_mm2: float) -> tuple[int, int]:
    """Return how many more pieces are likely to be down in time, and how many of the section will not.

    With a count it looks ahead from the moment of the last one, else from now by the time alone.
    """
    section = job.section(mix.section)
    sizing = sizer(job, mix.temperature_C, mix.adhesive_C)
    whole, _ = to_set(job, mix)
    left = sizing.effort(
        np.asarray(section.tesserae, dtype=np.int32), pieces=section.piece_count, patches=mix.patches
    )
    left *= (whole - mix.placed) / max(1, whole)
    at_s = mix.counts[-1][0] if mix.counts else spent_s
    ahead = outlook(
        sizing.known.hands,
        sizing.known.life_of(section.adhesive),
        elapsed_s=at_s,
        paused_s=mix.paused_s(at_s),
        placed=float(mix.placed) if mix.counts else None,
        counts_left=left,
        working_time_s=mix.label_s or 0.0,
        routine=routine_of_mix(job.product(section.adhesive), mix),
        area_mm2=bed_mm2,
        patches_left=None if mix.patches is None else float(whole - mix.placed),
    )
    return ahead.pieces, ahead.leave


def _mood(left_s: float, total_s: float, clean_s: float, is_stringy: bool) -> Mood:
    if is_stringy or left_s <= 0:
        return "stop"
    if left_s <= max(clean_s, LAST_SHARE * total_s):
        return "last pieces"
    return "half" if left_s <= 0.5 * total_s else "working"


STRINGY_WORDS = (
    "Stop setting. Scrape the empty bed, wipe the backs of unset pieces and keep them on the film. "
    "Never thin or warm it."
)
OVER_WORDS = "The working time is over. Pick the joints, scrape the open edge clean, then say done."
UNSURE_WORDS = "The clock changed. Take the working time as over: clean the edge, then say done."


def _film_closes_first(job: Job, mix: Mix) -> bool:
    """Tell whether the spread film closes before the mix may no longer be worked."""
    film_s = film_open_s(job.product(job.section(mix.section).adhesive), mix.temperature_C)
    return film_s is not None and film_s < (mix.working_time_s or 0.0)


def _advice(job: Job, mix: Mix, step: Step, likely: int | None, leave: int, left_s: float) -> str:
    """Return the one sentence for the hands now; what is urgent comes first. likely: None: clock unsure."""
    if likely is None:
        return UNSURE_WORDS
    if mix.stringy_s is not None:
        return STRINGY_WORDS
    if left_s <= 0:
        return OVER_WORDS
    if mix.is_paused:
        return "The hands rest, the adhesive does not."
    if step == "spread" and _film_closes_first(job, mix):
        return STRIPS_WORDS
    return _STEP_WORDS[step] if step != "set" else _setting_words(job, mix, likely, leave)


def _setting_words(job: Job, mix: Mix, likely: int, leave: int) -> str:
    """Say how many more will fit; where not all will, which edge to leave."""
    whole, unit = to_set(job, mix)
    fit = f"about {likely} more will fit" if likely else ""
    if leave == 0:
        return f"Set the {unit}: {fit}." if fit else f"Set the {unit}."
    edge = open_side(job, job.section(mix.section), leave / max(1, whole))
    left = f"Leave the {edge} edge, about {leave} {unit if leave > 1 else unit_of_one(unit)}"
    return f"{left}: {likely} more will fit." if likely else f"{left}."


def how_many(sheet: GlueSheet) -> str:
    """Say how many pieces, or patches, are to be set."""
    return f"{sheet.pieces} {sheet.unit if sheet.pieces != 1 else unit_of_one(sheet.unit)}"


def unit_of_one(unit: str) -> str:
    """Return what one of these is called."""
    return "patch" if unit == "patches" else "piece"


STRIPS_WORDS = "Spread palm-sized strips, one at a time: the film closes before the cup does."
_STEP_WORDS: dict[Step, str] = {
    "stir": "Stir slowly, scrape sides and bottom.",
    "spread": "Spread the bed thin and even, up to the line.",
    "clean": "Pick the ooze out of the joints, scrape the open edge clean.",
}
