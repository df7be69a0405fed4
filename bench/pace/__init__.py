"""Learn a maker's hands and the adhesive's life from the book, and say how much fits one batch."""

from bench.pace.capacity import (
    PROMISES,
    Capacity,
    SureOutOfRange,
    WorkingTimeTooShort,
    capacity,
    probability_in_time,
)
from bench.pace.csv_file import read_glue_ups, write_glue_ups
from bench.pace.glueup import BadGlueUp, GlueUp
from bench.pace.hands import DEFAULT_PACE_PER_MIN, Hands, PaceOutOfRange, learn_hands
from bench.pace.life import Life, WorkingTimeNotPositive, learn_life
from bench.pace.routine import Routine

__all__ = [
    "DEFAULT_PACE_PER_MIN",
    "PROMISES",
    "BadGlueUp",
    "Capacity",
    "GlueUp",
    "Hands",
    "Life",
    "PaceOutOfRange",
    "Routine",
    "SureOutOfRange",
    "WorkingTimeNotPositive",
    "WorkingTimeTooShort",
    "capacity",
    "learn_hands",
    "learn_life",
    "probability_in_time",
    "read_glue_ups",
    "write_glue_ups",
]
