"""What happened to bottles, in plain words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from bench.adhesive.part_words import part_word
from bench.book import events as e
from bench.speech import said, say


def part_words(part: str, lot: str) -> str:
    """Name a bottle by what is in it and its lot."""
    if not lot:
        return say("{part}, no lot", part=part_word(part))
    return say("{part}, lot {lot}", part=part_word(part), lot=lot)


def _taken(x: e.BottleTaken) -> str:
    told = say("Out of bottle {bottle}: {part}", bottle=x.bottle, part=part_words(x.part, x.lot))
    return say("{told}; past its date, and known", told=told) if x.knowing else told


def _bottle_opened(x: e.BottleOpened) -> str:
    return say(
        "Bottle {bottle} opened: {product}, {part}, {net_g:g} g",
        bottle=x.bottle,
        product=said(x.product),
        part=part_words(x.part, x.lot),
        net_g=x.net_g,
    )


def _bottle_bought(x: e.BottleBought) -> str:
    return say(
        "Bottle {bottle} stands ready, unopened: {product}, {part}, {net_g:g} g",
        bottle=x.bottle,
        product=said(x.product),
        part=part_words(x.part, x.lot),
        net_g=x.net_g,
    )


WORDS: dict[type, Callable[[Any], str]] = {
    e.BottleTaken: _taken,
    e.BottleOpened: _bottle_opened,
    e.BottleBought: _bottle_bought,
    e.BottleUnsealed: lambda x: say("Bottle {bottle} opened", bottle=x.bottle),
    e.BottleWeighed: lambda x: say(
        "Bottle {bottle} weighed: {left_g:g} g left", bottle=x.bottle, left_g=x.left_g
    ),
    e.BottleEmptied: lambda x: say("Bottle {bottle} is empty", bottle=x.bottle),
}
