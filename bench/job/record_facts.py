"""All that the papers of this panel tell, gathered from the state, the book and the drawing.

Work after the last section is taken from the book in its own words: name the kinds of its events in
AFTER_SETTING, and they stand in the record.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from bench.book import events as e
from bench.drawing.colour import code_of
from bench.drawing.picture import picture_png
from bench.finish.beheld import tint_said
from bench.finish.bend import BOARDS_GPA, board_said
from bench.finish.glass import GlassList, glass_list, kind_said
from bench.finish.money import Money
from bench.finish.record import Done, GlassRow, Record, SectionRow, Shown, care_lines
from bench.finish.told import letters_of
from bench.finish.units import Units
from bench.job.costs import adhesive_of, money_of, poured_g
from bench.job.finish_state import Zone
from bench.job.finish_words import zone_words
from bench.job.finishing import finishing
from bench.job.fold import undone_acts
from bench.job.hanging import figures_of, hanging_lines
from bench.job.job import Job
from bench.job.remembered import Made, made_of
from bench.job.seeing import colour_told
from bench.job.state import Mix
from bench.job.stock import joined_lot
from bench.job.templates import LIKE_DE
from bench.job.words import words
from bench.speech import all_of, large_first, said, say, short_date

if TYPE_CHECKING:
    from PIL.Image import Image

PICTURE_PX = 1600
MOST_NAMED = 6  # colours of glass in the client's paper
AFTER_SETTING = ("zone_grouted", "zone_inked", "panel_sealed", "panel_hung")


def record_of(job: Job, units: Units, *, money: Money | None = None) -> Record:
    """Return the record of the panel as it stands; money: None for what was kept."""
    listed = glass_list(job.panel, like_de=LIKE_DE)
    rows = section_rows(job)
    return Record(
        shown=_shown(job, listed, rows),
        written=job.clock.utc(),
        sections=rows,
        unset=sum(s.stage != "set" for s in job.state.sections.values()),
        glass=_glass_rows(job, listed),
        grout=_grout(job, units),
        done=later_work(job),
        hanging=tuple(hanging_lines(job, units)),
        money=money_of(job) if money is None else money,
        notes=_notes(job),
        numbered=_numbered(job),
    )


def section_rows(job: Job) -> tuple[SectionRow, ...]:
    """Return every glue-up that was closed, in the order of its mixes."""
    made = {one.event.mix: one for one in made_of(job.store.events(job.panel_id))}
    rows = (_section_row(job, mix, made.get(n)) for n, mix in sorted(job.state.mixes.items()))
    return tuple(row for row in rows if row is not None)


def _section_row(job: Job, mix: Mix, made: Made | None) -> SectionRow | None:
    closed = mix.closed
    if closed is None:
        return None
    grams = {part: g for (_, part), g in poured_g(job, mix).items()}
    now = job.state.sections.get(mix.section)
    return SectionRow(
        section=mix.section,
        mix=mix.number,
        day=closed.contact_utc.astimezone().date(),
        pieces=closed.placed,
        adhesive=_called(job, adhesive_of(job, mix) or closed.adhesive),
        resin_g=grams.get("resin", grams.get("", 0.0)),
        hardener_g=grams.get("hardener", 0.0),
        weighed=mix.poured_resin_g is not None,
        lot=joined_lot({part: taken.lot for part, taken in mix.taken.items()}) or "",
        temperature_C=closed.temperature_C,
        working_time_s=mix.working_time_s or closed.label_s,
        took_s=closed.finished_after_s,
        promised=None if made is None else made.promised,
        kept=None if made is None else made.kept,
        stage="chipped out" if now is None or now.mix != mix.number else job.life(now.number),
    )


def later_work(job: Job) -> tuple[Done, ...]:
    """Return what the book has of work after the last section, oldest first; nothing taken back."""
    entries = job.store.events(job.panel_id)
    undone = undone_acts(entries)
    return tuple(
        Done(x.at_utc.astimezone().date(), words(x.event))
        for x in entries
        if x.act_id not in undone and x.event.kind in AFTER_SETTING
    )


def _called(job: Job, adhesive: str) -> str:
    return job.product(adhesive).name


def _glass_rows(job: Job, listed: GlassList) -> tuple[GlassRow, ...]:
    letter = letters_of(listed, np.arange(job.panel.tessera_count))
    rows = (
        GlassRow(letter[k], glass.name, glass.kind, glass.pieces, glass.area_mm2)
        for k, glass in enumerate(listed.glasses)
    )
    return tuple(sorted(rows, key=lambda row: (len(row.letter), row.letter)))


def _grout(job: Job, units: Units) -> tuple[str, ...]:
    found = finishing(job)
    grout = found.grout
    return (
        say(
            "Joints: {area}, {depth} deep; reckoned {powder_g:.0f} g of powder and {water_g:.0f} g of "
            "water, waste included.",
            area=units.area(grout.joint_area_mm2),
            depth=units.plain(found.depth_mm),
            powder_g=grout.powder_g,
            water_g=grout.water_g,
        ),
        *(_coloured(job, zone) for zone in job.state.finish.in_order if zone.grout is not None),
    )


def _coloured(job: Job, zone: Zone) -> str:
    """Say the colour of a zone's joints, and whether it was measured."""
    assert zone.grout is not None
    told = {
        "zone": large_first(zone_words(zone.name)),
        "grout": tint_said(zone.grout.name),
        "code": code_of(zone.grout.colour),
        "known": colour_told(job, zone.grout.name),
    }
    if zone.inked is None:
        return say("{zone}: {grout}, {code} {known}.", **told)
    return say("{zone}: {grout}, {code} {known}, inked {ink}.", **told, ink=tint_said(zone.inked.name))


def _notes(job: Job) -> tuple[str, ...]:
    entries = job.store.events(job.panel_id)
    undone = undone_acts(entries)
    return tuple(
        f"{short_date(x.at_utc.astimezone())}: {x.event.text}"
        for x in entries
        if isinstance(x.event, e.NoteWritten) and x.act_id not in undone
    )


def _shown(job: Job, listed: GlassList, rows: tuple[SectionRow, ...]) -> Shown:
    panel, days = job.panel, [row.day for row in rows]
    return Shown(
        name=job.state.name or panel.name,
        width_mm=panel.width_mm,
        height_mm=panel.height_mm,
        pieces=panel.tessera_count,
        begun=min(days, default=None),
        ended=max(days, default=None),
        weight=finishing(job).weight,
        materials=_materials(job, listed, rows),
        care=care_lines(),
        picture=picture_png(panel, long_side_px=PICTURE_PX),
    )


def _materials(job: Job, listed: GlassList, rows: tuple[SectionRow, ...]) -> tuple[str, ...]:
    """Say what the panel is made of, without a figure of what it took."""
    kinds = list(dict.fromkeys(glass.kind for glass in listed.glasses))
    named = [glass.name.rpartition(" #")[0] for glass in listed.glasses]
    colours = list(dict.fromkeys(named))
    lines = [_glass_line(kinds, colours)] if named else []
    adhesives = list(dict.fromkeys(row.adhesive for row in rows))
    if adhesives:
        lines.append(say("Set in {adhesives}.", adhesives=all_of([said(name) for name in adhesives])))
    lines += _joint_lines(job)
    told = figures_of(job)
    if told.board_mm is not None and told.board in BOARDS_GPA:
        lines.append(say("On a backer of {board}.", board=board_said(told.board)))
    return tuple(lines)


def _glass_line(kinds: Sequence[str], colours: Sequence[str]) -> str:
    told = {"kinds": all_of([kind_said(kind) for kind in kinds]), "colours": ", ".join(colours[:MOST_NAMED])}
    if len(colours) <= MOST_NAMED:
        return say("Glass, {kinds}: {colours}.", **told)
    return say("Glass, {kinds}: {colours}, and {more} more.", **told, more=len(colours) - MOST_NAMED)


def _joint_lines(job: Job) -> list[str]:
    """Say what the joints are filled with, what they were inked with, and the seal."""
    zones, sealed = job.state.finish.in_order, job.state.finish.sealed
    grouts = list(dict.fromkeys(z.grouted.name for z in zones if z.grouted is not None))
    inks = list(dict.fromkeys(z.inked.name for z in zones if z.inked is not None))
    lines = []
    if grouts:
        named = all_of([tint_said(name) for name in grouts])
        over = all_of([tint_said(name) for name in inks])
        lines = [say("Joints grouted in {grouts}.", grouts=named)]
        if inks:
            lines = [say("Joints grouted in {grouts}, inked {inks}.", grouts=named, inks=over)]
    if sealed is not None and sealed.name:
        lines.append(say("Sealed with {name}.", name=sealed.name))
    return lines


def _numbered(job: Job) -> Image:
    """Return the picture with the sections that are on the panel."""
    numbers = sorted(job.state.sections)
    label = np.full(job.panel.tessera_count, -1, np.int32)
    for k, number in enumerate(numbers):
        label[list(job.state.sections[number].tesserae)] = k
    return picture_png(job.panel, label, numbers=numbers, long_side_px=PICTURE_PX)
