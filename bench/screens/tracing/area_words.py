"""What is said of areas, in plain words. No Kivy here."""

from __future__ import annotations

from collections.abc import Sequence

from bench.drawing.study.model import Flow, Glass, Region
from bench.job.drafts import Draft
from bench.speech import area, large_first, plain_length, say, say_n, unbroken

MOST_TOLD = 3  # glasses of a mix


def trade_words() -> tuple[str, ...]:
    """Return words of the trade that an area may be named with."""
    return (
        say("foreground"),
        say("background"),
        say("border"),
        say("outline row"),
        say("highlight"),
        say("shadow"),
        say("cloth"),
        say("fruit"),
        say("leaf"),
        say("flower"),
        say("bowl"),
        say("table"),
        say("wall"),
        say("sky"),
        say("water"),
        say("ground"),
    )


def share_words(share: float) -> str:
    """Return a share as one says it at the bench."""
    shares = (
        (0.995, say("all")),
        (0.85, say("nearly all")),
        (0.7, say("three quarters")),
        (0.6, say("two thirds")),
        (0.53, say("more than half")),
        (0.47, say("a half")),
        (0.37, say("two fifths")),
        (0.3, say("a third")),
        (0.23, say("a quarter")),
        (0.17, say("a fifth")),
        (0.08, say("a tenth")),
        (0.0, say("a pinch")),
    )
    return next(words for least, words in shares if share >= least)


def mix_words(mix: Sequence[Glass], most: int = MOST_TOLD) -> str:
    """Return a mix in words, the largest share first; of more glasses than `most` only their number."""
    ordered = sorted(mix, key=lambda glass: -glass.share)
    told = [
        say("{share} {glass}", share=share_words(glass.share), glass=glass.name) for glass in ordered[:most]
    ]
    more = len(mix) - most
    return ", ".join([*told, *([say("and {count} more", count=more)] if more > 0 else [])])


def flow_words(flow: Flow) -> str:
    if flow.kind == "straight":
        return say("straight, {angle:.0f}°", angle=flow.angle_deg)
    return say("loose") if flow.kind == "loose" else say("contour")


def piece_words(region: Region) -> str:
    """Return what the pieces of an area are like."""
    across = unbroken(plain_length(region.piece_mm))
    return say("{size}, {shape}", size=across, shape=aspect_words(region.aspect))


def pieces_of_size(piece_mm: float) -> str:
    return say("Pieces of {size}", size=unbroken(plain_length(piece_mm)))


def aspect_words(aspect: float) -> str:
    return say("square") if abs(aspect - 1) < 0.01 else say("{times:g} × as long", times=aspect)


def facts(region: Region, area_mm2: float, pieces: int) -> str:
    """Return the facts of an area in a line or two."""
    return say_n(
        "{area}, about {count:,} piece of {pieces}",
        "{area}, about {count:,} pieces of {pieces}",
        pieces,
        area=area(area_mm2, 1),
        pieces=piece_words(region),
    )


def pieces_counted(count: int) -> str:
    return say_n("{count:,} piece", "{count:,} pieces", count)


def areas_counted(count: int) -> str:
    return say_n("{count:,} area", "{count:,} areas", count)


def areas_and_pieces(areas: int, pieces: int) -> str:
    """Return how many areas, and about how many pieces."""
    number = areas_counted(areas)
    if pieces < 10_000:
        return say("{areas}, about {pieces}", areas=number, pieces=pieces_counted(pieces))
    return say("{areas}, about {thousands:,.0f} thousand pieces", areas=number, thousands=pieces / 1000)


def length_or_ask(length_mm: float | None) -> str:
    """Return a length, or the request to type it."""
    return say("type it") if length_mm is None else plain_length(round(length_mm, 1))


def todo_alone(told: str) -> str:
    """Return of a fault that is told only what to do, where there is no room for more."""
    todo = told.partition("; ")[2] or told
    return large_first(todo)


def how_to(draft: Draft) -> str:
    """Return what to do with the areas, and what becomes of what was said of them."""
    before, edits = draft.study_before, draft.study.edits
    if not edits and before:
        return say_n(
            "{count:,} change went with the old areas: 'Take back' brings them.",
            "{count:,} changes went with the old areas: 'Take back' brings them.",
            len(before[-1].edits),
        )
    if edits and draft.kind != "empty":
        return say_n(
            "Another number drops {count:,} change; 'Take back' brings them.",
            "Another number drops {count:,} changes; 'Take back' brings them.",
            len(edits),
        )
    return say("Tap an area to change it, or draw one.")


def offered_names(region: Region) -> list[str]:
    """Return names to choose from: the colours of the area's glass, and words of the trade."""
    colours = [glass.name.split(",")[0] for glass in region.mix]
    return list(dict.fromkeys([*colours, *trade_words()]))
