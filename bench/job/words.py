"""The book in plain words, newest first."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from itertools import pairwise
from pathlib import PurePath
from typing import Any

from bench.book import events as e
from bench.book.events import Envelope
from bench.job import finish_words
from bench.job.fold import undone_acts
from bench.job.job import Job


@dataclass(frozen=True)
class Line:
    """One entry of the book as a person reads it."""

    seq: int
    act_id: str
    at_utc: datetime
    section: int | None
    text: str
    taken_back: bool
    photo: e.DryPhotographed | None = None
    notes: tuple[str, ...] = ()  # the maker's words on it
    may_be_noted: bool = False
    attached: tuple[str, ...] = ()  # the hashes of photos, the newest first
    may_have_photo: bool = False

    @property
    def day(self) -> date:
        """The day at the bench's own place."""
        return self.at_utc.astimezone().date()


def book_lines(
    job: Job, *, section: int | None = None, day: date | None = None, panel_id: int | None = None
) -> list[Line]:
    """Return the book's entries in words, newest first; of one section or one local day only, if asked.

    panel_id: another panel of the book.
    """
    entries = job.store.events(job.panel_id if panel_id is None else panel_id)
    undone = undone_acts(entries)
    of_mix = {x.event.mix: x.event.section for x in entries if isinstance(x.event, e.MixOpened)}
    notes, attached = notes_on(entries), _attached(entries, undone)
    told = {x.seq: x.event for x in entries}
    lines = [
        Line(
            x.seq,
            x.act_id,
            x.at_utc,
            _section_of(x, of_mix),
            _on_the_other(x) or _in_place(x.event, told),
            x.act_id in undone,
            x.event if isinstance(x.event, e.DryPhotographed) else None,
            notes.get(x.seq, ()),
            x.act_id not in undone and not isinstance(x.event, e.NoteWritten | e.ActUndone),
            attached.get(x.seq, ()),
            x.act_id not in undone and not isinstance(x.event, e.PhotoAttached | e.ActUndone),
        )
        for x in reversed(entries)
    ]
    return [
        line
        for line in lines
        if (section is None or line.section == section) and (day is None or line.day == day)
    ]


def notes_on(entries: Sequence[Envelope]) -> dict[int, tuple[str, ...]]:
    """Return the words on each entry that has some, oldest first, by the entry's number."""
    undone = undone_acts(entries)
    found: dict[int, tuple[str, ...]] = {}
    for x in entries:
        if isinstance(x.event, e.NoteWritten) and x.event.about is not None and x.act_id not in undone:
            found[x.event.about] = (*found.get(x.event.about, ()), x.event.text)
    return found


def _in_place(event: e.Event, told: Mapping[int, e.Event]) -> str:
    """Say an event; of a note or a photo also what it is on."""
    if isinstance(event, e.PhotoAttached):
        on = told.get(event.about)
        return words(event) if on is None else f"{words(event)} to: {words(on)}"
    about = told.get(event.about or 0) if isinstance(event, e.NoteWritten) else None
    return words(event) if about is None else f"{words(event)} (on: {words(about)})"


def _attached(entries: Sequence[Envelope], undone: set[str]) -> dict[int, tuple[str, ...]]:
    """Return the photos of each entry that has some; the entry of a photo has that photo."""
    found: dict[int, tuple[str, ...]] = {}
    for x in entries:
        if isinstance(x.event, e.PhotoAttached):
            found[x.seq] = (x.event.photo,)
            if x.act_id not in undone:
                found[x.event.about] = (x.event.photo, *found.get(x.event.about, ()))
    return found


def _section_of(entry: Envelope, of_mix: dict[int, int]) -> int | None:
    number = getattr(entry.event, "section", None)
    return number if number is not None else of_mix.get(getattr(entry.event, "mix", -1))


def _on_the_other(entry: Envelope) -> str:
    """Say of which tablet a bottle is that was named there; "" for all that is said as it is here."""
    if not entry.book or not isinstance(entry.event, e.BottleTaken):
        return ""
    return f"{words(entry.event)}; a bottle of the other tablet"


def words(event: e.Event) -> str:
    """Say an event in one sentence."""
    return _WORDS[type(event)](event)


def _pieces(count: int) -> str:
    return "1 piece" if count == 1 else f"{count} pieces"


def _minutes(seconds: float) -> str:
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"


def _closed(x: e.MixClosed) -> str:
    how = "all placed" if x.why_left is None else f"some left ({x.why_left})"
    where = ", taken from the open edge" if x.left_assumed else ""
    unsure = "; the clock changed, so nothing is learned from it" if x.unsure else ""
    return (
        f"Section {x.section}: {_pieces(x.placed)}{_in_patches(x.patches or None)} set in "
        f"{_minutes(x.finished_after_s)}, "
        f"{how}{where}{unsure}"
    )


def _bench(x: e.BenchSet) -> str:
    return (
        f"Bench set: {short_name(x.adhesive)}, sure of {100 * x.sure:.0f} in 100, {x.temperature_C:g} °C, "
        f"bed {x.bed_mm:g} mm"
    )


def _shaped(x: e.SectionsShaped) -> str:
    now = ", ".join(f"{p.number} ({_pieces(len(p.tesserae))})" for p in x.promises)
    return f"By hand, {x.how}: section {now}"


def _photographed(x: e.DryPhotographed) -> str:
    as_found = f"{_pieces(x.found)} found, as counted"
    return f"Section {x.section} photographed: " + (
        as_found if x.found == x.said else f"{_pieces(x.found)} found, {x.said} counted"
    )


def _edge(x: e.EdgeTraced) -> str:
    how = "found in a photo" if x.found else "drawn by finger on a photo"
    return f"Edge of what is set {how}: {sum(_length_mm(line) for line in x.lines_mm) / 10:.0f} cm"


def _length_mm(line: Sequence[e.Place]) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(line))


def _revised(x: e.DrawingRevised) -> str:
    told = f"Drawing revised to {x.drawing_name}: {x.changed} changed, {x.added} added, {x.gone} gone"
    return f"{told}; {_pieces(x.stay)} dry or set stay{'s' if x.stay == 1 else ''}" if x.stay else told


def short_name(adhesive: str) -> str:
    """Name an adhesive; of a file only its own name, not the folders above it."""
    return PurePath(adhesive).stem if adhesive.endswith(".toml") else adhesive


def _prescribed(x: e.BatchPrescribed) -> str:
    return (
        f"Batch: {x.resin_g:.1f} g resin, {x.hardener_g:.1f} g hardener, {_minutes(x.working_time_s)} to work"
    )


def _hardener(x: e.HardenerPoured) -> str:
    side = "too much" if x.ratio_error > 0 else "too little"
    off = f"{100 * abs(x.ratio_error):.1f} % {side} hardener"
    shorter = "" if x.working_time_s is None else f"; {_minutes(x.working_time_s)} to work"
    poured = f"{x.resin_g:g} g resin and {x.hardener_g:g} g hardener in the cup"
    return f"{_minutes(x.at_s)}: {poured}, {off}{shorter}"


_CUP = {"scraped": "scraped clean", "over": "some left over", "short": "it ran short"}


def part_words(part: str, lot: str) -> str:
    """Name a bottle by what is in it and its lot."""
    return f"{part}, lot {lot}" if lot else f"{part}, no lot"


def _taken(x: e.BottleTaken) -> str:
    knowing = "; past its date, and known" if x.knowing else ""
    return f"Out of bottle {x.bottle}: {part_words(x.part, x.lot)}{knowing}"


def _in_patches(patches: int | None) -> str:
    if patches is None:
        return ""
    return ", in 1 patch" if patches == 1 else f", in {patches} patches"


def _allowed(x: e.LifeAllowed) -> str:
    name = short_name(x.adhesive)
    if not x.longer:
        return f"{name} is held to its label again"
    return f"{name} may last {100 * (x.ratio - 1):.0f} % longer than its label, as {x.exact} mixes have shown"


_WORDS: dict[type, Callable[[Any], str]] = {
    e.PanelOpened: lambda x: f"Opened {x.name} from {x.drawing_name}",
    e.BenchSet: _bench,
    e.SectionsDrawn: lambda x: f"{len(x.promises)} sections drawn: {x.why}",
    e.SectionsShaped: _shaped,
    e.DrawingRevised: _revised,
    e.SectionLaid: lambda x: f"Section {x.section} lies dry: {_pieces(x.pieces)}{_in_patches(x.patches)}",
    e.LayingTimed: lambda x: f"Section {x.section}: {x.seconds / 3600:.3g} h to lay {_pieces(x.pieces)}",
    e.DryPhotographed: _photographed,
    e.EdgeTraced: _edge,
    e.SectionTakenUp: lambda x: f"Section {x.section} was taken up",
    e.SectionSplit: lambda x: (
        f"Section {x.section} split into {', '.join(str(p.number) for p in x.parts)}, a mix each"
    ),
    e.MixOpened: lambda x: (
        f"At the cup for section {x.section}, {x.temperature_C:g} °C"
        + ("" if x.adhesive_C is None else f", bottles at {x.adhesive_C:g} °C")
    ),
    e.BottleTaken: _taken,
    e.CautionsAcknowledged: lambda x: (
        "Cautions read before gloves went on" + ("; the hardener's label lists H314" if x.burns else "")
    ),
    e.BatchPrescribed: _prescribed,
    e.ResinPoured: lambda x: f"{x.resin_g:g} g resin in the cup, {x.hardener_target_g:.2f} g hardener to it",
    e.HardenerPoured: _hardener,
    e.MixPutAway: lambda x: "The cup was put away unmixed",
    e.ContactMade: lambda x: f"First contact; {_minutes(x.working_time_s)} to work",
    e.ContactCorrected: lambda x: f"First contact was {_minutes(x.earlier_by_s)} earlier",
    e.StepBegun: lambda x: f"{_minutes(x.at_s)}: {x.step}",
    e.PiecesCounted: lambda x: f"{_minutes(x.at_s)}: {x.placed} down",
    e.MixPaused: lambda x: f"{_minutes(x.at_s)}: paused",
    e.MixResumed: lambda x: f"{_minutes(x.at_s)}: went on",
    e.WentStringy: lambda x: f"{_minutes(x.at_s)}: stringy",
    e.MixClosed: _closed,
    e.CupWent: lambda x: f"The left-over in the cup had gone by {_minutes(x.at_s)}",
    e.CupWeighed: lambda x: (
        f"Cup weighed: {max(0.0, x.gross_g - x.tare_g):.1f} g of {x.mixed_g:.1f} g stayed, {_CUP[x.cup]}"
    ),
    e.LifeAllowed: _allowed,
    e.CureConfirmed: lambda x: f"Section {x.section} tried by hand: {x.stage}",
    e.SectionChipped: lambda x: f"Section {x.section} chipped out",
    e.NoteWritten: lambda x: x.text,
    e.PhotoAttached: lambda x: "Photo attached",
    e.BottleOpened: lambda x: (
        f"Bottle {x.bottle} opened: {x.product}, {part_words(x.part, x.lot)}, {x.net_g:g} g"
    ),
    e.BottleBought: lambda x: (
        f"Bottle {x.bottle} stands ready, unopened: {x.product}, {part_words(x.part, x.lot)}, {x.net_g:g} g"
    ),
    e.BottleUnsealed: lambda x: f"Bottle {x.bottle} opened",
    e.BottleWeighed: lambda x: f"Bottle {x.bottle} weighed: {x.left_g:g} g left",
    e.BottleEmptied: lambda x: f"Bottle {x.bottle} is empty",
    **finish_words.WORDS,
    e.ActUndone: lambda x: "Took back the act before",
}
