"""What the glue-up shows from across the room: time left, where the hands should be, what will fit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from bench.adhesive.working_time import film_open_s
from bench.book.events import Step
from bench.job.acts.glueup import STEPS, to_set
from bench.job.ground import Side, open_side
from bench.job.job import Job
from bench.job.key_words import pieces_or_patches
from bench.job.measuring import sizer
from bench.job.sizing import routine_of_mix
from bench.job.state import Mix
from bench.pace.likely import outlook
from bench.pace.routine import Routine
from bench.speech import say, say_n

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


def stringy_words() -> str:
    """Say what to do once the adhesive goes stringy."""
    return say(
        "Stop setting. Scrape the empty bed, wipe the backs of unset pieces and keep them on the film. "
        "Never thin or warm it."
    )


def _film_closes_first(job: Job, mix: Mix) -> bool:
    """Tell whether the spread film closes before the mix may no longer be worked."""
    film_s = film_open_s(job.product(job.section(mix.section).adhesive), mix.temperature_C)
    return film_s is not None and film_s < (mix.working_time_s or 0.0)


def _advice(job: Job, mix: Mix, step: Step, likely: int | None, leave: int, left_s: float) -> str:
    """Return the one sentence for the hands now; what is urgent comes first. likely: None: clock unsure."""
    if likely is None:
        return say("The clock changed. Take the working time as over: clean the edge, then say done.")
    if mix.stringy_s is not None:
        return stringy_words()
    if left_s <= 0:
        return say("The working time is over. Pick the joints, scrape the open edge clean, then say done.")
    if mix.is_paused:
        return say("The hands rest, the adhesive does not.")
    if step == "set" and mix.placed >= to_set(job, mix)[0]:
        return say("All are down. Pick the joints, scrape the open edge clean, then say done.")
    if step == "set":
        return _setting_words(job, mix, likely, leave)
    if step == "spread" and _film_closes_first(job, mix):
        return say("Spread palm-sized strips, one at a time: the film closes before the cup does.")
    return _step_words(step)


def _step_words(step: Step) -> str:
    if step == "stir":
        return say("Stir slowly, scrape sides and bottom.")
    if step == "spread":
        return say("Spread the bed thin and even, up to the line.")
    return say("Pick the ooze out of the joints, scrape the open edge clean.")


def _setting_words(job: Job, mix: Mix, likely: int, leave: int) -> str:
    """Say how many more will fit; where not all will, which edge to leave."""
    whole, unit = to_set(job, mix)
    if leave == 0:
        return _all_words(likely, unit)
    edge = open_side(job, job.section(mix.section), leave / max(1, whole))
    told = _leave_words(edge, pieces_or_patches(leave, unit))
    if not likely:
        return say("{leave}.", leave=told)
    return say_n("{leave}: {count} more will fit.", "{leave}: {count} more will fit.", likely, leave=told)


def _all_words(likely: int, unit: str) -> str:
    """Say to set pieces, or patches, all of which will fit; likely: how many more, 0 where nobody knows."""
    if unit == "patches":
        if not likely:
            return say("Set the patches.")
        return say_n(
            "Set the patches: about {count} more will fit.",
            "Set the patches: about {count} more will fit.",
            likely,
        )
    if not likely:
        return say("Set the pieces.")
    return say_n(
        "Set the pieces: about {count} more will fit.",
        "Set the pieces: about {count} more will fit.",
        likely,
    )


def _leave_words(edge: Side, pieces: str) -> str:
    """Say which edge to leave, with about so many pieces, or patches."""
    told = {
        "upper": say("Leave the upper edge, about {pieces}", pieces=pieces),
        "lower": say("Leave the lower edge, about {pieces}", pieces=pieces),
        "left": say("Leave the left edge, about {pieces}", pieces=pieces),
        "right": say("Leave the right edge, about {pieces}", pieces=pieces),
        "open": say("Leave the open edge, about {pieces}", pieces=pieces),
    }
    return told[edge]


def how_many(sheet: GlueSheet) -> str:
    """Say how many pieces, or patches, are to be set."""
    return pieces_or_patches(sheet.pieces, sheet.unit)
