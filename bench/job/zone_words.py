"""A zone in figures and words, for the card that opens when it is tapped; and what the sun asks for."""

from __future__ import annotations

from bench.finish import SUN_WORDS, ZonesPlan, bed_in_sun, fading_of, fugitive
from bench.job.finish_days import finish_steps, step_words
from bench.job.finish_state import Chosen
from bench.job.finish_words import opened
from bench.job.job import Job
from bench.job.zones import Laid, glass_colour

_EXAMPLES = (("Red", (178, 38, 42)), ("A vivid yellow", (232, 180, 20)), ("Grey", (140, 139, 136)))


def zone_lines(job: Job, laid: Laid, plan: ZonesPlan, number: int) -> tuple[str, ...]:
    """Return what a person is told of a zone, first what must not be missed."""
    k = laid.numbers.index(number)
    one, planned = job.state.finish.zones.get(number), plan.zones[k]
    batch = next(g.batch for g in plan.grouts if k in g.zones)
    width = f", {planned.widths.p50_mm:.1f} mm wide" if planned.widths else ""
    lines = [f"{planned.joint_mm2 / 100:.0f} cm²{width}"]
    lines.append(f"{grams(planned.grout.powder_g)} {planned.sand}")
    lines.append(f"{grams(planned.grout.water_g)} water")
    if batch is not None and batch.count > 1:
        lines.append(f"{batch.count} × {grams(batch.powder_g)} of this grout")
    if planned.tape_mm and (one is None or one.grouted is None):
        lines.append(f"Tape {planned.tape_mm / 10:.0f} cm, film {planned.masked_mm2 / 100:.0f} cm²")
    return (*_done(job, number), *zone_in_sun(job, laid, number), *lines)


def grams(mass_g: float) -> str:
    """Say a mass: with a tenth of a gram where it is small."""
    return f"{mass_g:.1f} g" if mass_g < 10 else f"{mass_g:.0f} g"


def _done(job: Job, number: int) -> tuple[str, ...]:
    one = job.state.finish.zones.get(number)
    if one is None:
        return ()
    said = []
    if one.grouted is not None:
        said.append(f"Grouted: {one.grouted.name}")
    elif one.grout is not None:
        said.append(f"Grout: {one.grout.name}{', masked' if one.masked else ''}")
    if one.inked is not None:
        said.append(f"Inked: {one.inked.name}")
    elif one.ink is not None:
        said.append(f"Ink: {one.ink.name}")
    return tuple(said)


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
    return ("In this sun: no ink",)


def sun_lines(job: Job) -> tuple[str, ...]:
    """Return all that the sun asks of this panel, rough as it is; one line before the sun is told."""
    sun = job.state.finish.sun
    if sun is None:
        return ("Say where it will hang first.",)
    lines = [f"{opened(SUN_WORDS[sun])}. All of this is rough, and common practice without a source."]
    count = int(fugitive(job.panel, sun).sum())
    if count:
        lines.append(
            f"{count} pieces are red or vivid: where the joints are to match, give them a zone of "
            "through-coloured grout. Inks fade there, reds first."
        )
    lines += [f"{name}: {fading_of(colour, sun).words}." for name, colour in _EXAMPLES]
    lines.append("Blue wool classes as in ISO 105-B01, 1 the soonest to fade, each step about twice as long.")
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
