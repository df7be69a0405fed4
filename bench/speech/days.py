"""Days and times of day, their names in the language spoken."""

from __future__ import annotations

from datetime import date, datetime

from bench.speech.said import say


def weekday(day: date) -> str:
    """Name a day of the week: 'Tuesday'."""
    names = (
        say("Monday"),
        say("Tuesday"),
        say("Wednesday"),
        say("Thursday"),
        say("Friday"),
        say("Saturday"),
        say("Sunday"),
    )
    return names[day.weekday()]


def short_weekday(day: date) -> str:
    """Name a day of the week in short: 'Tue'."""
    names = (say("Mon"), say("Tue"), say("Wed"), say("Thu"), say("Fri"), say("Sat"), say("Sun"))
    return names[day.weekday()]


def month(day: date) -> str:
    """Name a month: 'November'."""
    names = (
        say("January"),
        say("February"),
        say("March"),
        say("April"),
        say("May"),
        say("June"),
        say("July"),
        say("August"),
        say("September"),
        say("October"),
        say("November"),
        say("December"),
    )
    return names[day.month - 1]


def clock_time(at: datetime) -> str:
    """Say a time of day: '17:05'."""
    return f"{at:%H:%M}"


def short_day(day: date) -> str:
    """Say a day where there is little room: 'Tue 24 Nov'."""
    return say("{weekday} {day} {month}", weekday=short_weekday(day), day=day.day, month=month(day)[:3])


def day_and_month(day: date) -> str:
    """Say a day of this year in full: 'Tuesday 24 November'."""
    return say("{weekday}, the {day} {month}", weekday=weekday(day), day=day.day, month=month(day))


def weekday_and_time(at: datetime) -> str:
    """Say a time within the week: 'Tuesday 17:05'."""
    return say("{weekday} {time}", weekday=weekday(at), time=clock_time(at))
