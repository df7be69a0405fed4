"""What is said to a person passes through here: in the language, marks and units that were chosen."""

from bench.speech.days import clock_time, day_and_month, short_day, weekday_and_time
from bench.speech.measures import (
    area,
    area_unit,
    in_length,
    length,
    length_unit,
    mm_typed,
    plain_length,
    plain_size,
    rough_length,
    size,
    temperature,
    temperature_unit,
    unbroken,
)
from bench.speech.said import say, say_n
from bench.speech.tongue import LANGUAGES, Tongue, speak, tongue

__all__ = [
    "LANGUAGES",
    "Tongue",
    "area",
    "area_unit",
    "clock_time",
    "day_and_month",
    "in_length",
    "length",
    "length_unit",
    "mm_typed",
    "plain_length",
    "plain_size",
    "rough_length",
    "say",
    "say_n",
    "short_day",
    "size",
    "speak",
    "temperature",
    "temperature_unit",
    "tongue",
    "unbroken",
    "weekday_and_time",
]
