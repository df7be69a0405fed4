"""What can be set at the bench, the choices for each, and how the present one is said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bench.adhesive import find_product, shipped_products
from bench.book import data_folder
from bench.book.events import BenchSet
from bench.fault import Fault
from bench.job.job import Job
from bench.job.own_adhesives import own_folder
from bench.job.settings import PHOTOS
from bench.screens.drawings import drawing_files, usual_folders
from bench.screens.theme import theme


@dataclass(frozen=True)
class Option:
    """One choice: its value, its name, and a line about it."""

    value: Any
    text: str
    says: str = ""


@dataclass(frozen=True)
class Number:
    """What the pad asks for, and within what bounds."""

    title: str
    unit: str
    least: float
    most: float


@dataclass(frozen=True)
class Setting:
    """One thing to set: a field of the bench, of the book, or, where OF_THEME names it, of this tablet."""

    key: str
    name: str
    options: tuple[Option, ...] = ()
    number: Number | None = None
    say: Callable[[Any], str] = str
    when: Callable[[BenchSet], bool] = lambda bench: True  # it is asked only then


SETTINGS = (
    Setting("adhesive", "Adhesive"),
    Setting(
        "pace_per_min",
        "Pace",
        (Option(None, "Left to the book", "What your glue-ups so far have shown"),),
        Number("Medium pieces set in a minute", "a minute", 0.2, 60),
        lambda x: f"{x:g} pieces a minute",
        lambda bench: not bench.by_patch,
    ),
    Setting(
        "patches_per_min",
        "Pace",
        (Option(None, "Left to the book", "What your glue-ups so far have shown"),),
        Number("Patches of the usual size set in a minute", "a minute", 0.05, 20),
        lambda x: f"{x:g} patches a minute",
        lambda bench: bench.by_patch,
    ),
    Setting(
        "half_life",
        "Memory",
        (
            Option(6.0, "6 glue-ups", "Soon follows a hand that changes"),
            Option(12.0, "12 glue-ups", "After as many, one counts half"),
            Option(24.0, "24 glue-ups", "Slow to follow, and steady"),
            Option(None, "All count alike", "However long ago"),
        ),
        say=lambda x: f"{x:g} glue-ups",
    ),
    Setting(
        "sure",
        "Promise",
        (
            Option(0.75, "Sure of 3 in 4", "Larger sections; one in four goes stringy"),
            Option(0.9, "Sure of 9 in 10", "One glue-up in ten goes stringy"),
            Option(0.95, "Sure of 19 in 20", "Small sections, a calm hand"),
        ),
        say=lambda x: f"Sure of {100 * x:.0f} in 100",
    ),
    Setting(
        "prefer",
        "Sections",
        (
            Option("forms", "Follow the forms", "Whole motifs and rows; a few sections more"),
            Option("fewest", "Fewest", "As few mixes as there can be"),
        ),
    ),
    Setting(
        "scale_g",
        "Scale",
        (Option(1.0, "Steps of 1 g"), Option(0.1, "Steps of 0.1 g"), Option(0.01, "Steps of 0.01 g")),
        say=lambda x: f"Steps of {x:g} g",
    ),
    Setting(
        "cumulative",
        "Weighing",
        (
            Option(False, "Tared between", "The scale is set to 0 before the hardener"),
            Option(True, "One on the other", "Never tared: both are known to a step only"),
        ),
    ),
    Setting(
        "bed_mm",
        "Bed",
        number=Number("Thickness of the bed", "mm", 0.1, 5),
        say=lambda x: f"{x:g} mm thick",
    ),
    Setting(
        "temperature_C",
        "Room",
        number=Number("Temperature of the room", "°C", 0, 45),
        say=lambda x: f"{x:g} °C",
    ),
    Setting(
        "transfer",
        "Transfer",
        (
            Option("single", "One by one", "Each piece is lifted off the film"),
            Option("patch", "By the patch", "A film over the faces, a patch goes down at once"),
            Option("face-down", "Face down", "Laid mirrored, the film on the faces"),
        ),
    ),
    Setting(
        "patch_cm2",
        "Patch",
        number=Number("Bed of a usual patch", "cm²", 1, 2000),
        say=lambda x: f"{x:g} cm² as a rule",
        when=lambda bench: bench.by_patch,
    ),
    Setting(
        "hands",
        "Hands",
        (
            Option(1, "One pair", "You alone"),
            Option(2, "Two pairs", "Twice as fast, each with an edge of their own"),
            Option(3, "Three pairs"),
            Option(4, "Four pairs"),
        ),
    ),
    Setting(
        "hours_a_day",
        "Hours",
        number=Number("Hours of glueing up a day", "h", 0.5, 24),
        say=lambda x: f"{x:g} h a day",
    ),
    Setting(
        "laying_hours_a_day",
        "Laying",
        number=Number("Hours of laying dry a day", "h", 0.25, 24),
        say=lambda x: f"{x:g} h a day",
    ),
    Setting("hand", "Hand", (Option("right", "Right-handed"), Option("left", "Left-handed"))),
    Setting(
        "photos",
        "Photos",
        (
            Option("bare", "Place taken out", "Place, time and camera are not kept with a picture"),
            Option("whole", "Place kept", "A picture's file is kept as it is, with all it tells"),
        ),
    ),
    Setting(
        "look",
        "Look",
        (Option("light", "Light", "For daylight"), Option("dark", "Dark", "For lamp light")),
    ),
    Setting(
        "text_scale",
        "Text",
        (Option(0.85, "Small"), Option(1.0, "Usual"), Option(1.25, "Large"), Option(1.5, "Largest")),
        say=lambda x: f"{100 * x:.0f} %",
    ),
    Setting(
        "still",
        "Motion",
        (
            Option(False, "Flashes", "Each alarm flashes, at most twice a second"),
            Option(True, "None", "Nothing moves: an alarm darkens the screen for a moment"),
        ),
    ),
)
OF_THEME = ("look", "text_scale", "still")
OF_BOOK = ("photos",)


def value_of(job: Job, setting: Setting) -> Any:
    """Return what is set now."""
    if setting.key in OF_BOOK:
        return job.store.setting(PHOTOS) or "bare"
    return getattr(theme if setting.key in OF_THEME else job.state.bench, setting.key)


def options_of(job: Job, setting: Setting) -> tuple[Option, ...]:
    """Return the choices; for the adhesive the shipped types, then the maker's own files."""
    return setting.options if setting.key != "adhesive" else _adhesives(job)


def said_now(job: Job, setting: Setting) -> str:
    """Say what is set now."""
    value = value_of(job, setting)
    if setting.key == "adhesive":
        return job.product(value).name
    named = next((o.text for o in setting.options if o.value == value), None)
    return named if named is not None else setting.say(value)


def _adhesives(job: Job) -> tuple[Option, ...]:
    shipped = [Option(name, job.product(name).name, "A typical one") for name in shipped_products()]
    folder = own_folder(data_folder())
    own = [
        Option(str(path), _name_in(path) or path.stem, f"Your own file: {path.name}")
        for path in drawing_files([folder], (".toml",))
    ]
    elsewhere = [path for path in drawing_files(usual_folders(), (".toml",)) if path.parent != folder]
    found = [
        Option(str(path), name, f"Found in {path.parent.name}")
        for path in elsewhere
        if (name := _name_in(path))
    ]
    return (*shipped, *own, *found)


def _name_in(path: Path) -> str:
    """Return the name of the adhesive that a file describes, "" where it describes none."""
    try:
        return find_product(str(path)).name
    except Fault:
        return ""


def adhesive_note(job: Job) -> str:
    """Say which pieces will not follow the panel's adhesive, because the drawing names their own."""
    named = [name for name in job.panel.adhesive if name]
    if not named:
        return ""
    kinds = "; ".join(sorted({job.product(name).name for name in named}))
    count = "all" if len(named) == job.panel.tessera_count else f"{len(named)}"
    return f"The drawing names the adhesive of {count} pieces, and they keep it: {kinds}."
