"""A zone in figures and words, for the card that opens when it is tapped; and what the sun asks for."""

from __future__ import annotations

from bench.finish.beheld import tint_said
from bench.finish.joint_width import sand_said
from bench.finish.sun import bed_in_sun, fading_of, fugitive, sun_said
from bench.finish.zone_plan import ZonesPlan
from bench.job.finish_days import finish_steps, step_words
from bench.job.finish_state import Chosen
from bench.job.job import Job
from bench.job.zones import Laid, glass_colour
from bench.speech import area, large_first, length, line_length, say, say_n

_RED, _YELLOW, _GREY = (178, 38, 42), (232, 180, 20), (140, 139, 136)


def zone_lines(job: Job, laid: Laid, plan: ZonesPlan, number: int) -> tuple[str, ...]:
    """Return what a person is told of a zone, first what must not be missed."""
    k = laid.numbers.index(number)
    one, planned = job.state.finish.zones.get(number), plan.zones[k]
    batch = next(g.batch for g in plan.grouts if k in g.zones)
    joints = area(planned.joint_mm2)
    if planned.widths:
        joints = say("{area}, {width} wide", area=joints, width=length(planned.widths.p50_mm, 1))
    lines = [joints]
    lines.append(
        say("{mass} {sand}", mass=grams(planned.grout.powder_g), sand=sand_said(planned.sand))
    )
    lines.append(say("{mass} water", mass=grams(planned.grout.water_g)))
    if batch is not None and batch.count > 1:
        lines.append(
            say("{count} × {mass} of this grout", count=batch.count, mass=grams(batch.powder_g))
        )
    if planned.tape_mm and (one is None or one.grouted is None):
        tape, film = line_length(planned.tape_mm), area(planned.masked_mm2)
        lines.append(say("Tape {tape}, film {film}", tape=tape, film=film))
    return (*_done(job, number), *zone_in_sun(job, laid, number), *lines)


def grams(mass_g: float) -> str:
    """Say a mass: with a tenth of a gram where it is small."""
    if mass_g < 10:
        return say("{mass_g:.1f} g", mass_g=mass_g)
    return say("{mass_g:.0f} g", mass_g=mass_g)


def _done(job: Job, number: int) -> tuple[str, ...]:
    one = job.state.finish.zones.get(number)
    if one is None:
        return ()
    told = []
    if one.grouted is not None:
        told.append(say("Grouted: {name}", name=tint_said(one.grouted.name)))
    elif one.grout is not None and one.masked:
        told.append(say("Grout: {name}, masked", name=tint_said(one.grout.name)))
    elif one.grout is not None:
        told.append(say("Grout: {name}", name=tint_said(one.grout.name)))
    if one.inked is not None:
        told.append(say("Inked: {name}", name=tint_said(one.inked.name)))
    elif one.ink is not None:
        told.append(say("Ink: {name}", name=tint_said(one.ink.name)))
    return tuple(told)


def zone_in_sun(job: Job, laid: Laid, number: int) -> tuple[str, ...]:
    """Say where a zone's ink would fade too soon: its own where one is chosen, else one like its glass."""
    sun = job.state.finish.sun
    if sun is None:
        return ()
    one = job.state.finish.zones.get(number)
    ink: Chosen | None = one.ink if one is not None else None
    colour = ink.colour if ink is not None else glass_colour(job, laid.members(number))
    fading = fading_of(colour, sun)
    if not fading.through:
        return ()
    return (say("In this sun: no ink"),)


def sun_lines(job: Job) -> tuple[str, ...]:
    """Return all that the sun asks of this panel, rough as it is; one line before the sun is told."""
    sun = job.state.finish.sun
    if sun is None:
        return (say("Say where it will hang first."),)
    rough = say("All of this is rough, and common practice without a source.")
    lines = [f"{large_first(sun_said(sun))}. {rough}"]
    count = int(fugitive(job.panel, sun).sum())
    if count:
        lines.append(
            say_n(
                "{count} piece is red or vivid: where the joints are to match, give it a zone of "
                "through-coloured grout. Inks fade there, reds first.",
                "{count} pieces are red or vivid: where the joints are to match, give them a zone of "
                "through-coloured grout. Inks fade there, reds first.",
                count,
            )
        )
    examples = ((say("Red"), _RED), (say("A vivid yellow"), _YELLOW), (say("Grey"), _GREY))
    lines += [f"{name}: {fading_of(colour, sun).words}." for name, colour in examples]
    lines.append(
        say("Blue wool classes as in ISO 105-B01, 1 the soonest to fade, each step about twice as long.")
    )
    names = dict.fromkeys(s.adhesive for s in job.state.sections.values())
    beds = [line for name in names for line in bed_in_sun(job.panel, job.product(name), sun)]
    return (*lines, *dict.fromkeys(beds))


def ready_line(job: Job) -> str:
    """Return in one sentence what may be done now, or what soonest; '' once the panel hangs."""
    steps = [s for s in finish_steps(job, foresee=False) if s.kind != "harden"]
    now = next((s for s in steps if s.now), None)
    timed = sorted((s for s in steps if s.at_utc and not s.unsure), key=lambda s: s.at_utc or job.clock.utc())
    found = now or next(iter(timed), None) or next(iter(steps), None)
    return step_words(job, found) if found is not None else ""
