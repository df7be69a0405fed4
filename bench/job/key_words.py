"""Keys of the book and of the code in words, where a person reads them; the keys themselves stay English."""

from __future__ import annotations

import re

from bench.speech import say, say_n

# Why a division was made, as the book keeps it.
FIRST_DIVISION = "first division"
AFTER_GLUE_UP = "divided anew after a glue-up"
AFTER_SETTING = "divided anew after the bench was set"
AFTER_AWAY = "divided anew after days away"

# What became of a section shaped by hand, as the book keeps it with a division.
NO_LONGER_FITS = "section %d was shaped by hand and no longer fits one mix: it is divided anew"
PIECES_CHANGED = "section %d was shaped by hand and its pieces have changed: it is divided anew"


def section_is(number: int, life: str) -> str:
    """Say at which stage of its life a section is."""
    told = {
        "drawn": say("section {number} is drawn", number=number),
        "dry": say("section {number} is dry", number=number),
        "wet": say("section {number} is wet", number=number),
        "soft": say("section {number} is soft", number=number),
        "firm": say("section {number} is firm", number=number),
        "hard": say("section {number} is hard", number=number),
    }
    return told.get(life, life)


def stage_rule(wanted: str, act: str) -> tuple[str, str]:
    """Say at which stage alone an act may be, and which section to choose instead."""
    rules = {
        "shaped by hand": say("only a drawn section can be shaped by hand"),
        "laid": say("only a drawn section can be laid"),
        "timed": say("only a dry section can be timed"),
        "taken up": say("only a dry section can be taken up"),
        "split": say("only a dry section can be split"),
        "mixed for": say("only a dry section can be mixed for"),
        "tried": say("only a set section can be tried"),
        "chipped out": say("only a set section can be chipped out"),
    }
    choices = {
        "drawn": say("choose a drawn section"),
        "dry": say("choose a dry section"),
        "set": say("choose a set section"),
    }
    return rules.get(act, act), choices.get(wanted, wanted)


def day_name(what: str) -> str:
    """Name a day in the life of a bottle."""
    told = {
        "opened": say("opened"),
        "bought": say("bought"),
        "made": say("made"),
        "best_before": say("best before"),
    }
    return told.get(what, what)


def begun_already(step: str) -> str:
    """Say that a step of a glue-up was begun before."""
    told = {
        "stir": say("'stir' was begun already"),
        "spread": say("'spread' was begun already"),
        "set": say("'set' was begun already"),
        "clean": say("'clean' was begun already"),
    }
    return told.get(step, step)


def pieces_or_patches(count: int, unit: str) -> str:
    """Say so many pieces, or patches."""
    if unit == "patches":
        return say_n("{count} patch", "{count} patches", count)
    return say_n("{count} piece", "{count} pieces", count)


def why_left(why: str) -> str:
    """Say why pieces were left over."""
    told = {
        "stringy": say("stringy"),
        "did not fit": say("did not fit"),
        "dropped": say("dropped"),
        "changed my mind": say("changed my mind"),
        "called away": say("called away"),
    }
    return told.get(why, why)


def division_reasons(why: str) -> str:
    """Say why a division was made; the book keeps the reasons in English, parted by semicolons."""
    return "; ".join(map(_division_reason, why.split("; ")))


def _division_reason(why: str) -> str:
    number = re.search(r"\d+", why)
    if number is not None and why == NO_LONGER_FITS % int(number[0]):
        return no_longer_fits(int(number[0]))
    if number is not None and why == PIECES_CHANGED % int(number[0]):
        return pieces_changed(int(number[0]))
    told = {
        "first division": say("first division"),
        "divided anew after a glue-up": say("divided anew after a glue-up"),
        "divided anew after the bench was set": say("divided anew after the bench was set"),
        "divided anew after days away": say("divided anew after days away"),
        "divided anew under the revised drawing": say("divided anew under the revised drawing"),
        "pieces left over": say("pieces left over"),
        "chipped out": say("chipped out"),
    }
    return told.get(why, why)


def no_longer_fits(number: int) -> str:
    """Say what became of a section shaped by hand, which takes longer now than one mix allows."""
    return say(
        "section {number} was shaped by hand and no longer fits one mix: it is divided anew", number=number
    )


def pieces_changed(number: int) -> str:
    """Say what became of a section shaped by hand, under a drawing with other pieces there."""
    return say(
        "section {number} was shaped by hand and its pieces have changed: it is divided anew", number=number
    )
