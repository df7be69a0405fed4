"""What the entries of the book teach: glue-ups, weighed cups, hours of laying, lives allowed."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime
from functools import partial

from bench.book import events as e
from bench.book.events import Envelope
from bench.job.fold import undone_acts
from bench.job.stock import joined_lot
from bench.pace.coverage import Weighing
from bench.pace.glueup import LONGEST_S, BadGlueUp, GlueUp
from bench.pace.laying import Spell

LEARNT_FROM = (
    *("mix_closed", "cup_went", "act_undone", "cup_weighed", "bottle_taken"),
    *("laying_timed", "section_taken_up", "life_allowed"),
)


def glue_ups_of(entries: Iterable[Envelope]) -> list[tuple[str, GlueUp]]:
    """Return (adhesive, glue-up) for every closed mix that counts, oldest first.

    A glue-up during which the clock changed is kept, and neither hands nor life are learned from it.
    A glue-up of nothing placed, or of no time at all, teaches nothing of the hands; nor do two that went on
    at once, since nobody knows how the hands were shared. Called away, a maker does not see how long the
    adhesive lasts.
    """
    entries = list(entries)
    undone = undone_acts(entries)
    living = [x for x in entries if x.act_id not in undone]
    cups = {(x.panel_id, x.event.mix): x.event.at_s for x in living if isinstance(x.event, e.CupWent)}
    lots = _lots(living)
    closed = [(x.panel_id, x.event) for x in living if isinstance(x.event, e.MixClosed)]
    found = [
        (event.adhesive, _glue_up(event, cups.get((panel, event.mix)), lots.get((panel, event.mix))))
        for panel, event in closed
    ]
    found.sort(key=lambda pair: pair[1].started_utc or datetime.min)
    at_once = _at_once([glue_up for _, glue_up in found])
    return [
        (name, replace(glue_up, learn_pace=False) if k in at_once else glue_up)
        for k, (name, glue_up) in enumerate(found)
    ]


def _at_once(glue_ups: Sequence[GlueUp]) -> set[int]:
    """Return the places of the glue-ups, oldest first, that went on while another did.

    One that tells no pace, like a mix forgotten overnight, held up no hands.
    """
    found: set[int] = set()
    last, until_s = -1, -math.inf
    for k, glue_up in enumerate(glue_ups):
        if glue_up.started_utc is None or not glue_up.learn_pace:
            continue
        start_s = glue_up.started_utc.timestamp()
        if start_s < until_s:
            found |= {last, k}
        if start_s + glue_up.clock_s > until_s:
            last, until_s = k, start_s + glue_up.clock_s
    return found


def _lots(living: Iterable[Envelope]) -> dict[tuple[int, int], str | None]:
    """Return the lot of each mix that told one, by panel and mix."""
    taken: dict[tuple[int, int], dict[e.Part, str]] = {}
    for x in living:
        if isinstance(x.event, e.BottleTaken):
            taken.setdefault((x.panel_id, x.event.mix), {})[x.event.part] = x.event.lot
    return {mix: joined_lot(lots) for mix, lots in taken.items()}


def _glue_up(event: e.MixClosed, cup_went_s: float | None, lot: str | None) -> GlueUp:
    stringy_s = event.stringy_after_s
    if stringy_s is None and cup_went_s is not None and cup_went_s <= LONGEST_S:
        stringy_s = cup_went_s  # found gone only on the next day, it tells nothing of the adhesive's life
    if stringy_s is None and event.why_left == "stringy":
        stringy_s = event.finished_after_s  # it went before that; when, nobody said
    # done told after hours was a mix forgotten, not a pace: kept, and nothing is learned from it
    placed = event.placed if event.patches is None else event.patches
    patches = (event.patches or 0) if event.bed_mm2 else 0
    worth_learning = not event.unsure and 0 < event.finished_after_s <= LONGEST_S
    told = partial(
        GlueUp,
        started_utc=event.contact_utc,
        small=event.small,
        medium=event.medium,
        large=event.large,
        seconds=event.setting_s * event.hands,  # what one pair alone would have taken
        paused_s=event.paused_s,
        temperature_C=event.temperature_C,
        finished_after_s=event.finished_after_s,
        stringy_after_s=stringy_s or None,
        all_placed=not event.left,
        label_s=event.label_s,
        lot=lot,
        patches=patches,
        area_mm2=event.bed_mm2 or 0.0 if patches else 0.0,
        hands=event.hands,
    )
    try:
        return told(
            learn_pace=worth_learning and placed > 0 and event.setting_s > 0,
            learn_life=worth_learning and (event.why_left != "called away" or bool(stringy_s)),
        )
    except BadGlueUp:  # times that contradict each other teach nothing, and must not stop what others teach
        return told(learn_pace=False, learn_life=False)


def weighings_of(entries: Iterable[Envelope]) -> dict[tuple[str, str], tuple[Weighing, ...]]:
    """Return the weighed cups that teach, by adhesive and how the bed is laid, oldest first.

    A glue-up with pieces left tells nothing of its bed: how much of it was spread nobody knows.
    """
    entries = list(entries)
    undone = undone_acts(entries)
    living = [x for x in entries if x.act_id not in undone]
    closed = {(x.panel_id, x.event.mix): x.event for x in living if isinstance(x.event, e.MixClosed)}
    cups = {(x.panel_id, x.event.mix): x.event for x in living if isinstance(x.event, e.CupWeighed)}
    found: dict[tuple[str, str], list[Weighing]] = {}
    for key, cup in cups.items():
        glue_up = closed.get(key)
        if glue_up is None or glue_up.left or glue_up.why_left is not None:
            continue
        weighing = Weighing(
            glue_up.contact_utc,
            cup.bed_mm2 / 100.0,
            cup.reckoned_g_per_cm2,
            cup.mixed_g,
            max(0.0, cup.gross_g - cup.tare_g),
            cup.cup,
        )
        found.setdefault((cup.adhesive, cup.bed), []).append(weighing)
    return {key: tuple(rows) for key, rows in found.items()}


def spells_of(entries: Iterable[Envelope]) -> list[Spell]:
    """Return the hours of laying that were told, oldest first: the last word on each section as it lay.

    Laid again after it was taken up, a section has another spell.
    """
    entries = list(entries)
    undone = undone_acts(entries)
    turn: Counter[tuple[int, int]] = Counter()
    found: dict[tuple[int, int, int], Spell] = {}
    for x in entries:
        if x.act_id in undone:
            continue
        if isinstance(x.event, e.SectionTakenUp):
            turn[x.panel_id, x.event.section] += 1
        elif isinstance(x.event, e.LayingTimed):
            key = x.panel_id, x.event.section
            found[*key, turn[key]] = Spell(x.event.pieces, x.event.seconds)
    return list(found.values())


def allowed_of(entries: Iterable[Envelope]) -> frozenset[str]:
    """Return the adhesives that the maker lets last longer than their label, by the last word on each."""
    entries = list(entries)
    undone = undone_acts(entries)
    said = {
        x.event.adhesive: x.event.longer
        for x in entries
        if isinstance(x.event, e.LifeAllowed) and x.act_id not in undone
    }
    return frozenset(name for name, longer in said.items() if longer)
