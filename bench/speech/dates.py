"""Days with their year, as papers and lists need them."""

from __future__ import annotations

from datetime import date

from bench.speech.days import month
from bench.speech.said import say


def full_date(day: date) -> str:
    """Say a day in full: '31 March 2027'."""
    return say("{day} {month} {year}", day=day.day, month=month(day), year=day.year)


def short_date(day: date) -> str:
    """Say a day where there is little room: '05 Mar 2027'."""
    return say("{day:02d} {month} {year}", day=day.day, month=month(day)[:3], year=day.year)


def day_of_month(day: date) -> str:
    """Say a day of this year: '31 March'."""
    return say("{day} {month}", day=day.day, month=month(day))
