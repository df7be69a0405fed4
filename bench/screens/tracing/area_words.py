"""What is said of areas, in plain words. No Kivy here."""

from __future__ import annotations

from collections.abc import Sequence

from bench.drawing.study.model import Flow, Glass, Region
from bench.job.drafts import Draft

TRADE_WORDS = (
    "foreground",
    "background",
    "border",
    "outline row",
    "highlight",
    "shadow",
    "cloth",
    "fruit",
    "leaf",
    "flower",
    "bowl",
    "table",
    "wall",
    "sky",
    "water",
    "ground",
)

MOST_TOLD = 3  # glasses of a mix

_SHARES = (
    (0.995, "all"),
    (0.85, "nearly all"),
    (0.7, "three quarters"),
    (0.6, "two thirds"),
    (0.53, "more than half"),
    (0.47, "half"),
    (0.37, "two fifths"),
    (0.3, "a third"),
    (0.23, "a quarter"),
    (0.17, "a fifth"),
    (0.08, "a tenth"),
    (0.0, "a pinch"),
)


def share_words(share: float) -> str:
    """Return a share as one says it at the bench."""
    return next(words for least, words in _SHARES if share >= least)


def mix_words(mix: Sequence[Glass], most: int = MOST_TOLD) -> str:
    """Return a mix in words, the largest share first; of more glasses than `most` only their number."""
    ordered = sorted(mix, key=lambda glass: -glass.share)
    told = [f"{share_words(glass.share)} {glass.name}" for glass in ordered[:most]]
    more = len(mix) - most
    return ", ".join([*told, *([f"and {more} more"] if more > 0 else [])])


def flow_words(flow: Flow) -> str:
    if flow.kind == "straight":
        return f"straight, {flow.angle_deg:.0f}°"
    return flow.kind


def piece_words(region: Region) -> str:
    """Return what the pieces of an area are like."""
    return f"{region.piece_mm:g}\u00a0mm, {aspect_words(region.aspect)}"


def aspect_words(aspect: float) -> str:
    return "square" if abs(aspect - 1) < 0.01 else f"{aspect:g} × as long"


def facts(region: Region, area_mm2: float, pieces: int) -> str:
    """Return the facts of an area in a line or two."""
    return f"{area_mm2 / 100:,.1f} cm², about {counted(pieces, 'piece')} of {piece_words(region)}"


def counted(count: int, what: str) -> str:
    return f"{count:,} {what}" if count == 1 else f"{count:,} {what}s"


def areas_and_pieces(areas: int, pieces: int) -> str:
    """Return how many areas, and about how many pieces."""
    about = counted(pieces, "piece") if pieces < 10_000 else f"{pieces / 1000:,.0f} thousand pieces"
    return f"{counted(areas, 'area')}, about {about}"


def todo_alone(told: str) -> str:
    """Return of a fault that is told only what to do, where there is no room for more."""
    todo = told.partition("; ")[2] or told
    return f"{todo[:1].upper()}{todo[1:]}"


def how_to(draft: Draft) -> str:
    """Return what to do with the areas, and what becomes of what was said of them."""
    before, edits = draft.study_before, draft.study.edits
    if not edits and before:
        return f"{counted(len(before[-1].edits), 'change')} went with the old areas: 'Take back' brings them."
    if edits and draft.kind != "empty":
        return f"Another number drops {counted(len(edits), 'change')}; 'Take back' brings them."
    return "Tap an area to change it, or draw one."


def offered_names(region: Region) -> list[str]:
    """Return names to choose from: the colours of the area's glass, and words of the trade."""
    colours = [glass.name.split(",")[0] for glass in region.mix]
    return list(dict.fromkeys([*colours, *TRADE_WORDS]))
