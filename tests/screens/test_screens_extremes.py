"""Every screen stands whatever the bench is set to: the extremes of all settings, mixed at random.

A screen that judges what lies on the bench must say so where nothing can be judged.
"""

import random

import pytest

from bench.fault import Fault
from bench.job.acts import dry, opening
from bench.screens.house import SCREENS
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, set_section, start_mix
from tests.fakes.drawings import grid_svg

SETTINGS = {
    "sure": (0.5, 0.99),
    "hands": (1, 4),
    "prefer": ("forms", "fewest"),
    "pace_per_min": (None, 0.01, 0.2, 120.0),
    "patches_per_min": (None, 0.02, 120.0),
    "temperature_C": (10.0, 35.0),
    "working_time_s": (None, 60.0, 300.0, 30_000.0),
    "bed": ("spread", "buttered"),
    "bed_mm": (0.1, 10.0),
    "waste": (0.0, 2.0),
    "residue_g": (0.0, 100.0),
    "scale_g": (0.01, 50.0),
    "cumulative": (False, True),
    "half_life": (None, 0.5, 1000.0),
    "hours_a_day": (0.05, 24.0),
    "laying_hours_a_day": (0.05, 24.0),
    "transfer": ("single", "patch", "face-down"),
    "patch_cm2": (1.0, 2000.0),
}
OFTEN = 0.45  # how likely a setting is at an extreme


@pytest.mark.parametrize("lies", ["dry", "runs", "set"])
def test_every_screen_stands_at_the_extremes_of_the_bench(stage: Stage, lies) -> None:
    rng = random.Random(lies)
    told = {name: rng.choice(values) for name, values in SETTINGS.items() if rng.random() < OFTEN}
    if lies == "dry":
        told["pace_per_min"] = 0.01  # not a single piece is sure
    with at_the_bench(stage, grid_svg(12, 8)) as desk:
        job, number = desk.job, min(desk.job.state.sections)
        if lies == "set":
            set_section(job, number, minutes=20)
        else:
            dry.lay(job, number)
        if lies == "runs":
            desk.mix = start_mix(job, number)
        bench = job.state.bench.model_copy(update=told)
        try:
            opening.set_bench(job, bench)
        except Fault:
            job.write(bench)  # as an older book may hold it
        desk.section = number
        changed(desk)
        for place in SCREENS:
            desk.go(place)
            stage.frame(2)
            assert stage.texts(), (place, told)
        desk.go("panel")
        stage.frame(2)
