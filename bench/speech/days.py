"""Days and times as they are said: the time of day, a day of this year, a day with its year, a moment."""

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


# -- a day of this year ------------------------------------------------------------------------------------


def day_of_month(day: date) -> str:
    """Say a day of this year: '31 March'."""
    return say("{day} {month}", day=day.day, month=month(day))


def short_day(day: date) -> str:
    """Say a day where there is little room: 'Tue 24 Nov'."""
    return say("{weekday} {day} {month}", weekday=short_weekday(day), day=day.day, month=month(day)[:3])


def brief_day(day: date) -> str:
    """Say a day of the coming months in as few signs as it takes, "14 Mar"."""
    return say("{day} {month}", day=day.day, month=month(day)[:3])


def weekday_and_time(at: datetime) -> str:
    """Say a time within the week: 'Tuesday 17:05'."""
    return say("{weekday} {time}", weekday=weekday(at), time=clock_time(at))


def moment_of_year(at: datetime) -> str:
    """Say a moment of this year: 'Tuesday 24 November, 17:05'."""
    return say(
        "{weekday} {day} {month}, {time}",
        weekday=weekday(at),
        day=at.day,
        month=month(at),
        time=clock_time(at),
    )


# -- a day with its year -----------------------------------------------------------------------------------


def full_date(day: date) -> str:
    """Say a day in full: '31 March 2027'."""
    return say("{day} {month} {year}", day=day.day, month=month(day), year=day.year)


def short_date(day: date) -> str:
    """Say a day where days stand below each other: '05 Mar 2027'."""
    return say("{day:02d} {month} {year}", day=day.day, month=month(day)[:3], year=day.year)


def brief_date(day: date) -> str:
    """Say a day within a sentence that has little room: '5 Mar 2027'."""
    return say("{day} {month} {year}", day=day.day, month=month(day)[:3], year=day.year)


def weekday_and_date(day: date) -> str:
    """Say a day in full with its name: 'Tuesday 24 November 2026'."""
    return say(
        "{weekday} {day} {month} {year}", weekday=weekday(day), day=day.day, month=month(day), year=day.year
    )


def moment(at: datetime) -> str:
    """Say a moment in full: '24 November 2026, 17:05'."""
    return say("{day} {month} {year}, {time}", day=at.day, month=month(at), year=at.year, time=clock_time(at))


def weekday_and_moment(at: datetime) -> str:
    """Say a moment in full with the day's name: 'Tuesday 24 November 2026, 17:05'."""
    return say(
        "{weekday} {day} {month} {year}, {time}",
        weekday=weekday(at),
        day=at.day,
        month=month(at),
        year=at.year,
        time=clock_time(at),
    )
