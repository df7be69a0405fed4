"""The book's entries in plain words: an event in one sentence, in the language spoken."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from pathlib import PurePath
from typing import Any

from bench.book import events as e
from bench.job import bottle_words, finish_words
from bench.job.key_words import division_reasons, pieces_or_patches, why_left
from bench.speech import line_length, plain_length, plain_temperature, say, say_n


def short_name(adhesive: str) -> str:
    """Name an adhesive; of a file only its own name, not the folders above it."""
    return PurePath(adhesive).stem if adhesive.endswith(".toml") else adhesive


def _pieces(count: int, patches: int | None = None) -> str:
    """Say so many pieces, and in how many patches they are set; None: piece by piece."""
    pieces = pieces_or_patches(count, "pieces")
    if patches is None:
        return pieces
    return say("{pieces}, in {patches}", pieces=pieces, patches=pieces_or_patches(patches, "patches"))


def _minutes(seconds: float) -> str:
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"


def _drawn(x: e.SectionsDrawn) -> str:
    return say_n(
        "{count} section drawn: {why}",
        "{count} sections drawn: {why}",
        len(x.promises),
        why=division_reasons(x.why),
    )


def _closed(x: e.MixClosed) -> str:
    how = say("all placed")
    if x.why_left is not None:
        how = say("some left ({why})", why=why_left(x.why_left))
        if x.left_assumed:
            how = say("some left ({why}), assumed to be at the open edge", why=why_left(x.why_left))
    told = say(
        "Section {section}: {pieces} set in {time}, {how}",
        section=x.section,
        pieces=_pieces(x.placed, x.patches or None),
        time=_minutes(x.finished_after_s),
        how=how,
    )
    return say("{told}; the clock changed, so nothing is learned from it", told=told) if x.unsure else told


def _bench(x: e.BenchSet) -> str:
    return say(
        "Bench set: {adhesive}, sure of {sure:.0f} in 100, {warmth}, bed {bed}",
        adhesive=short_name(x.adhesive),
        sure=100 * x.sure,
        warmth=plain_temperature(x.temperature_C),
        bed=plain_length(x.bed_mm),
    )


def _shaped(x: e.SectionsShaped) -> str:
    now = ", ".join(f"{p.number} ({_pieces(len(p.tesserae))})" for p in x.promises)
    told = {
        "joined": say("By hand, joined: section {sections}", sections=now),
        "split": say("By hand, split: section {sections}", sections=now),
        "moved": say("By hand, moved: section {sections}", sections=now),
    }
    return told[x.how]


def _timed(x: e.LayingTimed) -> str:
    hours = x.seconds / 3600
    return say(
        "Section {section}: {hours:.3g} h to lay {pieces}",
        section=x.section,
        hours=hours,
        pieces=_pieces(x.pieces),
    )


def _photographed(x: e.DryPhotographed) -> str:
    found = _pieces(x.found)
    if x.found == x.said:
        return say(
            "Section {section} photographed: {pieces} found, as counted", section=x.section, pieces=found
        )
    return say(
        "Section {section} photographed: {pieces} found, {said} counted",
        section=x.section,
        pieces=found,
        said=x.said,
    )


def _edge(x: e.EdgeTraced) -> str:
    long = line_length(sum(_length_mm(line) for line in x.lines_mm))
    if x.found:
        return say("Edge of what is set found in a photo: {length}", length=long)
    return say("Edge of what is set drawn by finger on a photo: {length}", length=long)


def _length_mm(line: Sequence[e.Place]) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(line))


def _revised(x: e.DrawingRevised) -> str:
    told = say(
        "Drawing revised to {name}: {changed} changed, {added} added, {gone} gone",
        name=x.drawing_name,
        changed=x.changed,
        added=x.added,
        gone=x.gone,
    )
    if not x.stay:
        return told
    return say_n(
        "{told}; {count} piece dry or set stays", "{told}; {count} pieces dry or set stay", x.stay, told=told
    )


def _split(x: e.SectionSplit) -> str:
    parts = ", ".join(str(p.number) for p in x.parts)
    return say("Section {section} split into {parts}, a mix each", section=x.section, parts=parts)


def _at_cup(x: e.MixOpened) -> str:
    warmth = plain_temperature(x.temperature_C)
    if x.adhesive_C is None:
        return say("At the cup for section {section}, {warmth}", section=x.section, warmth=warmth)
    return say(
        "At the cup for section {section}, {warmth}, bottles at {bottles}",
        section=x.section,
        warmth=warmth,
        bottles=plain_temperature(x.adhesive_C),
    )


def _prescribed(x: e.BatchPrescribed) -> str:
    return say(
        "Batch: {resin_g:.1f} g resin, {hardener_g:.1f} g hardener, {time} to work",
        resin_g=x.resin_g,
        hardener_g=x.hardener_g,
        time=_minutes(x.working_time_s),
    )


def _resin(x: e.ResinPoured) -> str:
    return say(
        "{resin_g:g} g resin in the cup, {hardener_g:.2f} g hardener to it",
        resin_g=round(x.resin_g, 2),  # no scale at a bench shows more
        hardener_g=x.hardener_target_g,
    )


def _hardener(x: e.HardenerPoured) -> str:
    at, off = _minutes(x.at_s), 100 * abs(x.ratio_error)
    grams = {"resin_g": round(x.resin_g, 2), "hardener_g": round(x.hardener_g, 2)}
    if x.ratio_error > 0:
        told = say(
            "{at}: {resin_g:g} g resin and {hardener_g:g} g hardener in the cup, "
            "{off:.1f} % too much hardener",
            at=at,
            off=off,
            **grams,
        )
    else:
        told = say(
            "{at}: {resin_g:g} g resin and {hardener_g:g} g hardener in the cup, "
            "{off:.1f} % too little hardener",
            at=at,
            off=off,
            **grams,
        )
    if x.working_time_s is None:
        return told
    return say("{told}; {time} to work", told=told, time=_minutes(x.working_time_s))


def _weighed_cup(x: e.CupWeighed) -> str:
    grams = {"stayed_g": max(0.0, x.gross_g - x.tare_g), "mixed_g": x.mixed_g}
    told = {
        "scraped": say("Cup weighed: {stayed_g:.1f} g of {mixed_g:.1f} g stayed, scraped clean", **grams),
        "over": say("Cup weighed: {stayed_g:.1f} g of {mixed_g:.1f} g stayed, some left over", **grams),
        "short": say("Cup weighed: {stayed_g:.1f} g of {mixed_g:.1f} g stayed, it ran short", **grams),
    }
    return told[x.cup]


def _step(x: e.StepBegun) -> str:
    at = _minutes(x.at_s)
    told = {
        "stir": say("{at}: stir", at=at),
        "spread": say("{at}: spread", at=at),
        "set": say("{at}: set", at=at),
        "clean": say("{at}: clean", at=at),
    }
    return told[x.step]


def _cured(x: e.CureConfirmed) -> str:
    if x.stage == "firm":
        return say("Section {section} tried by hand: firm", section=x.section)
    return say("Section {section} tried by hand: hard", section=x.section)


def _cautions(x: e.CautionsAcknowledged) -> str:
    if x.burns:
        return say("Cautions read before gloves went on; the hardener's label lists H314")
    return say("Cautions read before gloves went on")


def _allowed(x: e.LifeAllowed) -> str:
    name = short_name(x.adhesive)
    if not x.longer:
        return say("{name} is held to its label again", name=name)
    return say(
        "{name} may last {more:.0f} % longer than its label, as {count} mixes have shown",
        name=name,
        more=100 * (x.ratio - 1),
        count=x.exact,
    )


WORDS: dict[type, Callable[[Any], str]] = {
    e.PanelOpened: lambda x: say("Opened {name} from {drawing}", name=x.name, drawing=x.drawing_name),
    e.BenchSet: _bench,
    e.SectionsDrawn: _drawn,
    e.SectionsShaped: _shaped,
    e.DrawingRevised: _revised,
    e.SectionLaid: lambda x: say(
        "Section {section} lies dry: {pieces}", section=x.section, pieces=_pieces(x.pieces, x.patches)
    ),
    e.LayingTimed: _timed,
    e.DryPhotographed: _photographed,
    e.EdgeTraced: _edge,
    e.SectionTakenUp: lambda x: say("Section {section} was taken up", section=x.section),
    e.SectionSplit: _split,
    e.MixOpened: _at_cup,
    e.CautionsAcknowledged: _cautions,
    e.BatchPrescribed: _prescribed,
    e.ResinPoured: _resin,
    e.HardenerPoured: _hardener,
    e.MixPutAway: lambda x: say("The cup was put away unmixed"),
    e.ContactMade: lambda x: say("First contact; {time} to work", time=_minutes(x.working_time_s)),
    e.ContactCorrected: lambda x: say("First contact was {time} earlier", time=_minutes(x.earlier_by_s)),
    e.StepBegun: _step,
    e.PiecesCounted: lambda x: say("{at}: {placed} down", at=_minutes(x.at_s), placed=x.placed),
    e.MixPaused: lambda x: say("{at}: paused", at=_minutes(x.at_s)),
    e.MixResumed: lambda x: say("{at}: went on", at=_minutes(x.at_s)),
    e.WentStringy: lambda x: say("{at}: stringy", at=_minutes(x.at_s)),
    e.MixClosed: _closed,
    e.CupWent: lambda x: say("The left-over in the cup had gone by {at}", at=_minutes(x.at_s)),
    e.CupWeighed: _weighed_cup,
    e.LifeAllowed: _allowed,
    e.CureConfirmed: _cured,
    e.SectionChipped: lambda x: say("Section {section} chipped out", section=x.section),
    e.NoteWritten: lambda x: x.text,
    e.PhotoAttached: lambda x: say("Photo attached"),
    **bottle_words.WORDS,
    **finish_words.WORDS,
    e.ActUndone: lambda x: say("Took back the act before"),
}
