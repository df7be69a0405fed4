"""What is said to a person passes through here: in the language, marks and units that were chosen."""

from bench.speech.dates import day_of_month, full_date, short_date
from bench.speech.days import clock_time, day_and_month, short_day, weekday_and_time
from bench.speech.lists import all_of
from bench.speech.measures import (
    area,
    area_unit,
    in_length,
    length,
    length_unit,
    line_length,
    mm_typed,
    plain_length,
    plain_size,
    plain_temperature,
    rough_length,
    size,
    temperature,
    temperature_unit,
    unbroken,
)
from bench.speech.said import said, say, say_n
from bench.speech.tongue import LANGUAGES, Tongue, speak, tongue

__all__ = [
    "LANGUAGES",
    "Tongue",
    "all_of",
    "area",
    "area_unit",
    "clock_time",
    "day_and_month",
    "day_of_month",
    "full_date",
    "in_length",
    "length",
    "length_unit",
    "line_length",
    "mm_typed",
    "plain_length",
    "plain_size",
    "plain_temperature",
    "rough_length",
    "said",
    "say",
    "say_n",
    "short_date",
    "short_day",
    "size",
    "speak",
    "temperature",
    "temperature_unit",
    "tongue",
    "unbroken",
    "weekday_and_time",
]
