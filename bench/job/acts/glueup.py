"""The glue-up itself: steps, counts, rests, stringy, done. None of it is needed but the end.

Every act may be told late: `ago_s` says how long ago it happened, with clean hands afterwards.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bench.adhesive.cure import cure_s
from bench.book import countdown as cd
from bench.book.events import (
    CupWent,
    Event,
    MixClosed,
    MixPaused,
    MixResumed,
    PiecesCounted,
    SectionsDrawn,
    Step,
    StepBegun,
    WentStringy,
    WhyLeft,
)
from bench.job.acts.bare import bare_promises, drawn_promises
from bench.job.bedding import bed_area_mm2
from bench.job.cup_faults import NotRunning, TimeOutOfRange
from bench.job.faults import CountOutOfRange, WrongOrder
from bench.job.ground import edge_strip
from bench.job.job import Job, cure_key
from bench.job.key_words import begun_already
from bench.job.measuring import sizer
from bench.job.sizing import routine_of_mix
from bench.job.state import Mix, Section
from bench.speech import say

STEPS: tuple[Step, ...] = ("stir", "spread", "set", "clean")
AFTER_LEFT_OVERS = "pieces left over"


def _running(job: Job, mix_number: int) -> Mix:
    mix = job.mix(mix_number)
    if not mix.is_running:
        raise NotRunning(mix_number)
    return mix


def _at_s(job: Job, mix: Mix, ago_s: float) -> float:
    """Return the moment on the adhesive's clock that was so many seconds ago. [s]"""
    spent_s = job.reading(mix.number).spent_s
    if not (math.isfinite(ago_s) and 0 <= ago_s <= spent_s + 1e-6):
        raise TimeOutOfRange(ago_s, spent_s)
    return max(0.0, spent_s - ago_s)


def begin_step(job: Job, mix_number: int, step: Step, *, ago_s: float = 0.0) -> None:
    """Say that spreading, setting or cleaning began; steps come in their order."""
    mix = _running(job, mix_number)
    at_s = _at_s(job, mix, ago_s)
    earlier = [at for name, at in mix.steps_s.items() if STEPS.index(name) < STEPS.index(step)]
    later = [name for name in mix.steps_s if STEPS.index(name) >= STEPS.index(step)]
    if later:
        raise WrongOrder(begun_already(step), say("go on with the next step"))
    if earlier and at_s < max(earlier):
        raise TimeOutOfRange(ago_s, job.reading(mix_number).spent_s - max(earlier))
    job.write(StepBegun(mix=mix_number, step=step, at_s=at_s))


def count(job: Job, mix_number: int, placed: int, *, ago_s: float = 0.0) -> None:
    """Say how many pieces, or patches, are down. Optional; it sharpens what is foretold."""
    mix = _running(job, mix_number)
    most, unit = to_set(job, mix)
    if not 0 <= placed <= most:
        raise CountOutOfRange(placed, 0, most, unit)
    job.write(PiecesCounted(mix=mix_number, placed=placed, at_s=_at_s(job, mix, ago_s)))


def to_set(job: Job, mix: Mix) -> tuple[int, str]:
    """Return how many are to be set from a mix, and of what: pieces, or patches."""
    if mix.patches is not None:
        return mix.patches, "patches"
    return job.section(mix.section).piece_count, "pieces"


def pause(job: Job, mix_number: int, *, ago_s: float = 0.0) -> None:
    """Rest the hands. The adhesive's clock runs on."""
    mix = _running(job, mix_number)
    if mix.is_paused:
        raise WrongOrder(say("the hands rest already"), say("go on first"))
    job.write(MixPaused(mix=mix_number, at_s=_after_last_pause(job, mix, ago_s)))


def resume(job: Job, mix_number: int, *, ago_s: float = 0.0) -> None:
    """Go on after a rest."""
    mix = _running(job, mix_number)
    if not mix.is_paused:
        raise WrongOrder(say("the hands are not resting"), say("pause first"))
    job.write(MixResumed(mix=mix_number, at_s=_after_last_pause(job, mix, ago_s)))


def _after_last_pause(job: Job, mix: Mix, ago_s: float) -> float:
    at_s = _at_s(job, mix, ago_s)
    last_s = mix.pauses_s[-1][-1] if mix.pauses_s else 0.0
    if at_s < last_s:
        raise TimeOutOfRange(ago_s, job.reading(mix.number).spent_s - last_s)
    return at_s


def stringy(job: Job, mix_number: int, *, ago_s: float = 0.0) -> None:
    """Say that the adhesive starts to go; of two words of it the earlier moment stands."""
    mix = _running(job, mix_number)
    at_s = _at_s(job, mix, ago_s)
    if mix.stringy_s is not None and at_s >= mix.stringy_s:
        raise WrongOrder(
            say("it was said to be stringy already"), say("close the glue-up when the edge is clean")
        )
    job.write(WentStringy(mix=mix_number, at_s=at_s))


def close(
    job: Job,
    mix_number: int,
    *,
    left: int | Sequence[int] = 0,
    why: WhyLeft | None = None,
    ago_s: float = 0.0,
) -> None:
    """End the glue-up: all placed, or so many pieces or patches left, or these tesserae of the drawing left.

    Where only a number is known, the edge beside open ground is assumed and flagged. What is left goes
    back to drawn as sections of its own until the ground is divided anew (`opening.divide_anew`).
    """
    mix = _running(job, mix_number)
    section = job.section(mix.section)
    at_s = _at_s(job, mix, ago_s)
    over = _left(job, mix, section, left)
    tesserae = over.tesserae
    if over.pieces and why is None:
        raise WrongOrder(
            say("pieces were left, and no reason is told"), say("say why: it decides what is learned")
        )
    closed = _closing(job, mix, section, at_s, over, why)
    events: list[Event] = [closed]
    if tesserae:
        bare = bare_promises(job, section, tesserae)
        events.append(SectionsDrawn(promises=(*drawn_promises(job), *bare), why=AFTER_LEFT_OVERS))
    spent_since_s = max(0.0, job.reading(mix_number).spent_s - at_s)
    mark = cd.start(closed.grout_s, job.clock, since_s=spent_since_s)
    job.write(*events, marks=[(cure_key(mix_number), mark)])


@dataclass(frozen=True)
class _Left:
    """What a glue-up leaves over. assumed: only a number was told, so the open edge is taken."""

    tesserae: tuple[int, ...]
    pieces: int
    patches: int
    assumed: bool


def _left(job: Job, mix: Mix, section: Section, left: int | Sequence[int]) -> _Left:
    """Return what is left over, told as a number of what was to be set or as tesserae of the drawing."""
    pieces, drawn = section.piece_count, len(section.tesserae)
    whole, unit = to_set(job, mix)
    if isinstance(left, int):
        if not 0 <= left <= whole:
            raise CountOutOfRange(left, 0, whole, unit, left=True)
        on_drawing = drawn if left == whole else min(drawn - 1, round(left * drawn / whole))
        if left and not on_drawing:
            on_drawing = min(1, drawn - 1)
        of_pieces = left if mix.patches is None else _share(left, whole, pieces)
        return _Left(edge_strip(job, section, on_drawing), of_pieces, left, left > 0)
    chosen = tuple(sorted(set(left)))
    if not set(chosen) <= set(section.tesserae):
        raise WrongOrder(
            say("a piece is not of section {section}", section=section.number),
            say("tap only pieces of this section"),
        )
    if len(chosen) == drawn:
        return _Left(chosen, pieces, whole, False)
    bed_mm2 = bed_area_mm2(job.panel)
    part = float(bed_mm2[list(chosen)].sum() / bed_mm2[list(section.tesserae)].sum())
    patches = min(whole - 1, round(part * whole))  # something was set
    return _Left(chosen, min(pieces, round(len(chosen) * pieces / drawn)), patches, False)


def _share(left: int, whole: int, pieces: int) -> int:
    """Return the pieces in so many of the patches: all in all of them, none in none, else at least one."""
    return pieces if left == whole else max(min(1, left), min(pieces - 1, round(pieces * left / whole)))


def _closing(
    job: Job,
    mix: Mix,
    section: Section,
    at_s: float,
    over: _Left,
    why: WhyLeft | None,
) -> MixClosed:
    assert mix.contact_utc is not None
    assert mix.label_s is not None
    placed = section.piece_count - over.pieces
    setting_s, steps_assumed, paused_s = setting_span_s(job, mix, section, at_s)
    size = sizer(job, mix.temperature_C)
    kept = np.asarray([t for t in section.tesserae if t not in set(over.tesserae)], dtype=np.int32)
    small, medium, large = _by_class(size.counts(kept) if kept.size else np.zeros(3), placed)
    product = job.product(section.adhesive)
    return MixClosed(
        mix=mix.number,
        section=section.number,
        contact_utc=mix.contact_utc,
        placed=placed,
        left=over.tesserae,
        left_assumed=over.assumed and bool(over.tesserae),
        why_left=why if over.pieces else None,
        small=small,
        medium=medium,
        large=large,
        setting_s=setting_s,
        steps_assumed=steps_assumed,
        paused_s=paused_s,
        finished_after_s=at_s,
        stringy_after_s=mix.stringy_s,
        temperature_C=mix.temperature_C,
        label_s=mix.label_s,
        adhesive=section.adhesive,
        firm_s=cure_s(product, "firm", mix.temperature_C),
        grout_s=cure_s(product, "grout", mix.temperature_C),
        in_time=not over.pieces and at_s <= (mix.stringy_s or math.inf),
        hands=job.state.bench.hands,
        unsure=job.reading(mix.number).unsure,
        patches=None if mix.patches is None else mix.patches - over.patches,
        bed_mm2=size.bed_mm2(kept),
    )


def _by_class(counts: np.ndarray, placed: int) -> tuple[int, int, int]:
    """Share the pieces placed out over small, medium and large as the drawing has them."""
    total = float(counts.sum())
    if total == 0 or placed == 0:
        return (0, placed, 0)
    exact = counts / total * placed
    whole = np.floor(exact).astype(int)
    for k in np.argsort(whole - exact, kind="stable")[: placed - int(whole.sum())]:
        whole[k] += 1
    return (int(whole[0]), int(whole[1]), int(whole[2]))


def setting_span_s(job: Job, mix: Mix, section: Section, at_s: float) -> tuple[float, bool, float]:
    """Return the setting alone, pauses out; whether steps are assumed; and the pauses. [s]

    A step that was not told takes its usual time, but never more than a fifth of the whole each, so
    that a quick glue-up does not come out as no setting at all.
    """
    bed_mm2 = float(bed_area_mm2(job.panel)[list(section.tesserae)].sum())
    routine = routine_of_mix(job.product(section.adhesive), mix)
    usual_start_s = min(routine.stir_s + routine.spread_s(bed_mm2), 0.4 * at_s)
    usual_clean_s = min(routine.clean_s(bed_mm2), 0.2 * at_s)
    start_s = mix.steps_s.get("set", usual_start_s)
    end_s = min(mix.steps_s.get("clean", at_s - usual_clean_s), at_s)
    paused_s = mix.paused_s(at_s)
    resting_s = mix.paused_s(end_s) - mix.paused_s(start_s)
    assumed = "set" not in mix.steps_s or "clean" not in mix.steps_s
    return max(0.0, end_s - start_s - resting_s), assumed, paused_s


def cup_went(job: Job, mix_number: int, *, after_s: float) -> None:
    """Say, afterwards, when the left-over in the cup was found to have gone; it was so by then at least."""
    mix = job.mix(mix_number)
    if mix.closed is None:
        raise WrongOrder(say("the glue-up is not closed"), say("say 'stringy' while it runs"))
    if not (math.isfinite(after_s) and 0 < after_s <= 48 * 3600):
        raise TimeOutOfRange(after_s, 48 * 3600)
    job.write(CupWent(mix=mix_number, at_s=after_s))
