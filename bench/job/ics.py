"""The finishing of a panel as an iCalendar file (RFC 5545), for whatever calendar its maker keeps."""

from __future__ import annotations

from datetime import UTC, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from bench.finish.zone_called import zone_called
from bench.job.finish_days import Step, finish_steps, step_words
from bench.job.job import Job
from bench.speech import say, tongue
from bench.whole import CannotWrite, write_file

if TYPE_CHECKING:
    from icalendar import Event

LASTS = timedelta(minutes=30)


def product_id() -> str:
    """Return what names the writer of the file, with the language that its events are written in."""
    return f"-//Potwatch//Finishing//{tongue().language.upper()}"


def title_of(step: Step) -> str:
    """Say a step in a few words, for a line in a calendar."""
    name = zone_called(step.name)
    return {
        "harden": say("Section {number} is hard", number=step.of),
        "grout": say("Grout: {name}", name=name),
        "ink": say("Ink: {name}", name=name),
        "seal": say("Seal the panel"),
        "hang": say("May hang outdoors"),
    }[step.kind]


def calendar_file(job: Job) -> bytes:
    """Return the steps whose moment is known or foreseen, an event each, in UTC, with a reminder.

    An event keeps its UID whenever the file is written again; SEQUENCE counts up with the book, so that a
    calendar takes the newer. What nobody can date is left out; a panel that hangs has no event.
    """
    from icalendar import Calendar

    out = Calendar()
    out.add("prodid", product_id())
    out.add("version", "2.0")
    out.add("calscale", "GREGORIAN")
    out.add("method", "PUBLISH")
    for step in finish_steps(job):
        if step.at_utc is not None and not step.unsure:
            out.add_component(_event(job, step))
    found: bytes = out.to_ical()
    return found


def write_calendar(job: Job, folder: Path) -> Path:
    """Write the file into a folder, made if need be, and return where it is. Raises CannotWrite."""
    name = "".join(c if c.isalnum() or c in " -_" else "-" for c in job.state.name).strip(" -") or "panel"
    path = folder / f"{name}.ics"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise CannotWrite(path, error.strerror or str(error)) from error
    write_file(path, calendar_file(job))
    return path


def _event(job: Job, step: Step) -> Event:
    from icalendar import Alarm, Event

    assert step.at_utc is not None
    start = step.at_utc.astimezone(UTC).replace(microsecond=0)
    event = Event()
    event.add("uid", uid_of(job, step))
    event.add("dtstamp", job.clock.utc().astimezone(UTC).replace(microsecond=0))
    event.add("sequence", job.store.last_seq(job.panel_id))
    event.add("dtstart", start)
    event.add("dtend", start + LASTS)
    title = title_of(step)
    event.add("summary", f"{job.state.name}: {title}")
    event.add("description", step_words(job, step, dated=True))
    event.add("status", "TENTATIVE" if step.foreseen else "CONFIRMED")
    event.add("transp", "TRANSPARENT")
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", title)
    alarm.add("trigger", timedelta(0))
    event.add_component(alarm)
    return event


def uid_of(job: Job, step: Step) -> str:
    """Return what names an event for good: the panel's opening, the step, and what it is of."""
    return f"{job.state.act_ids[0]}-{step.kind}-{step.of}@potwatch"
