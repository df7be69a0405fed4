"""Learn a maker's hands and the adhesive's life from the book, and say how much fits one batch."""

from bench.pace.capacity import (
    PROMISES,
    Capacity,
    SureOutOfRange,
    WorkingTimeTooShort,
    capacity,
    probability_in_time,
)
from bench.pace.coverage import BadWeighing, Coverage, Cup, Weighing, coverage_of, learn_coverage
from bench.pace.csv_file import read_glue_ups, write_glue_ups
from bench.pace.dry import DryCount, judge_count, laid_per_drawn
from bench.pace.forecast import Forecast, HoursOutOfRange, forecast
from bench.pace.glueup import BadGlueUp, GlueUp
from bench.pace.hands import DEFAULT_PACE_PER_MIN, Hands, PaceOutOfRange, learn_hands
from bench.pace.laying import Laying, Spell, learn_laying
from bench.pace.life import Life, WorkingTimeNotPositive, learn_life
from bench.pace.likely import Outlook, outlook
from bench.pace.patches import ByPatch, PatchOutOfRange, patch_counts
from bench.pace.routine import Routine
from bench.pace.trends import Trend, class_effort, life_on_warm_days, practice_and_tiring
from bench.table import BadTable

__all__ = [
    "DEFAULT_PACE_PER_MIN",
    "PROMISES",
    "BadGlueUp",
    "BadTable",
    "BadWeighing",
    "ByPatch",
    "Capacity",
    "Coverage",
    "Cup",
    "DryCount",
    "Forecast",
    "GlueUp",
    "Hands",
    "HoursOutOfRange",
    "Laying",
    "Life",
    "Outlook",
    "PaceOutOfRange",
    "PatchOutOfRange",
    "Routine",
    "Spell",
    "SureOutOfRange",
    "Trend",
    "Weighing",
    "WorkingTimeNotPositive",
    "WorkingTimeTooShort",
    "capacity",
    "class_effort",
    "coverage_of",
    "forecast",
    "judge_count",
    "laid_per_drawn",
    "learn_coverage",
    "learn_hands",
    "learn_laying",
    "learn_life",
    "life_on_warm_days",
    "outlook",
    "patch_counts",
    "practice_and_tiring",
    "probability_in_time",
    "read_glue_ups",
    "write_glue_ups",
]
