"""What can be set at the bench, and the choices for each."""

from __future__ import annotations

from typing import Any

from bench.job.job import Job
from bench.job.settings import PHOTOS
from bench.screens.setting import Number, Option, Setting
from bench.speech import (
    area_unit,
    celsius_typed,
    in_area,
    in_length,
    in_unit,
    length_unit,
    mm2_typed,
    mm_typed,
    plain_area,
    plain_length,
    plain_temperature,
    say,
    temperature_unit,
)
from bench.speech.measures import MM2_PER_CM2


def bench_settings() -> tuple[Setting, ...]:
    """Return what is set of a panel, and of the book where OF_BOOK names it, in the language spoken."""
    return (*_hands(), *_promise(), *_mixing(), *_days())


def _hands() -> tuple[Setting, ...]:
    learned = Option(None, say("Left to the book"), say("What your glue-ups so far have shown"))
    return (
        Setting("adhesive", say("Adhesive")),
        Setting(
            "pace_per_min",
            say("Pace"),
            (learned,),
            Number(say("Medium pieces set in a minute"), say("a minute"), 0.2, 60),
            lambda x: say("{pace:g} pieces a minute", pace=x),
            lambda bench: not bench.by_patch,
        ),
        Setting(
            "patches_per_min",
            say("Pace"),
            (learned,),
            Number(say("Patches of the usual size set in a minute"), say("a minute"), 0.05, 20),
            lambda x: say("{pace:g} patches a minute", pace=x),
            lambda bench: bench.by_patch,
        ),
        Setting(
            "half_life",
            say("Memory"),
            (
                Option(6.0, _glue_ups(6), say("Soon follows a hand that changes")),
                Option(12.0, _glue_ups(12), say("After as many, one counts half")),
                Option(24.0, _glue_ups(24), say("Slow to follow, and steady")),
                Option(None, say("All count alike"), say("However long ago")),
            ),
            words=_glue_ups,
        ),
    )


def _glue_ups(count: float) -> str:
    return say("{count:g} glue-ups", count=count)


def _promise() -> tuple[Setting, ...]:
    return (
        Setting(
            "sure",
            say("Promise"),
            (
                Option(0.75, say("Sure of 3 in 4"), say("Larger sections; one in four goes stringy")),
                Option(0.9, say("Sure of 9 in 10"), say("One glue-up in ten goes stringy")),
                Option(0.95, say("Sure of 19 in 20"), say("Small sections, a calm hand")),
            ),
            words=lambda x: say("Sure of {hundredths:.0f} in 100", hundredths=100 * x),
        ),
        Setting(
            "prefer",
            say("Sections"),
            (
                Option("forms", say("Follow the forms"), say("Whole motifs and rows; a few sections more")),
                Option("fewest", say("Fewest"), say("As few mixes as there can be")),
            ),
        ),
    )


def _mixing() -> tuple[Setting, ...]:
    return (
        Setting(
            "scale_g",
            say("Scale"),
            tuple(Option(step_g, _steps(step_g)) for step_g in (1.0, 0.1, 0.01)),
            words=_steps,
        ),
        Setting(
            "cumulative",
            say("Weighing"),
            (
                Option(False, say("Tared between"), say("The scale is set to 0 before the hardener")),
                Option(True, say("One on the other"), say("Never tared: both are known to a step only")),
            ),
        ),
        Setting(
            "bed_mm",
            say("Bed"),
            number=Number(say("Thickness of the bed"), length_unit(), 0.1, 5, in_length, mm_typed, 3),
            words=lambda x: say("{thickness} thick", thickness=plain_length(x)),
        ),
        Setting(
            "temperature_C",
            say("Room"),
            number=Number(say("Temperature of the room"), temperature_unit(), 0, 45, in_unit, celsius_typed),
            words=plain_temperature,
        ),
        _transfer(),
        Setting(
            "patch_cm2",
            say("Patch"),
            number=Number(
                say("Bed of a usual patch"),
                area_unit(),
                1,
                2000,
                lambda cm2: in_area(cm2 * MM2_PER_CM2),
                lambda value: mm2_typed(value) / MM2_PER_CM2,
            ),
            words=lambda x: say("{area} as a rule", area=plain_area(x * MM2_PER_CM2)),
            when=lambda bench: bench.by_patch,
        ),
    )


def _steps(step_g: float) -> str:
    return say("Steps of {step_g:g} g", step_g=step_g)


def _transfer() -> Setting:
    return Setting("transfer", say("Transfer"), transfer_options())


def transfer_options() -> tuple[Option, ...]:
    """Return how pieces may go over to the panel."""
    return (
        Option("single", say("One by one"), say("Each piece is lifted off the film")),
        Option("patch", say("By the patch"), say("A film over the faces, a patch goes down at once")),
        Option("face-down", say("Face down"), say("Laid mirrored, the film on the faces")),
    )


def _days() -> tuple[Setting, ...]:
    return (
        Setting(
            "hands",
            say("Hands"),
            (
                Option(1, say("One pair"), say("You alone")),
                Option(2, say("Two pairs"), say("Twice as fast, each with an edge of their own")),
                Option(3, say("Three pairs")),
                Option(4, say("Four pairs")),
            ),
        ),
        Setting(
            "hours_a_day",
            say("Hours"),
            number=Number(say("Hours of glueing up a day"), "h", 0.5, 24),
            words=_hours,
        ),
        Setting(
            "laying_hours_a_day",
            say("Laying"),
            number=Number(say("Hours of laying dry a day"), "h", 0.25, 24),
            words=_hours,
        ),
        Setting(
            "hand", say("Hand"), (Option("right", say("Right-handed")), Option("left", say("Left-handed")))
        ),
        Setting(
            "photos",
            say("Photos"),
            (
                Option(
                    "bare", say("Place taken out"), say("Place, time and camera are not kept with a picture")
                ),
                Option(
                    "whole", say("Place kept"), say("A picture's file is kept as it is, with all it tells")
                ),
            ),
        ),
    )


def _hours(hours: float) -> str:
    return say("{hours:g} h a day", hours=hours)


OF_BOOK = ("photos",)


def value_of(job: Job, key: str) -> Any:
    """Return what is set now of a panel or of the book."""
    if key in OF_BOOK:
        return job.store.setting(PHOTOS) or "bare"
    return getattr(job.state.bench, key)
