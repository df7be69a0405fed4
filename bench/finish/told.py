"""What a template says: pieces numbered as they are read, and a letter for each glass."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.drawing.template import Told
from bench.finish.glass import GlassList
from bench.speech import large_first, say, say_n

ROW_MM = 7.0  # pieces are numbered row by row, as a page is read
LEGEND_LETTERS, MOST_LEGEND, MOST_NAME = 120, 6, 40
_HARD_SPACE = "\N{NO-BREAK SPACE}"


def mirrored_said() -> str:
    """Say that a template is mirrored."""
    return say("mirrored: glass is laid face down")


def told_of(
    panel: Panel,
    tesserae: NDArray[np.integer],
    listed: GlassList,
    *,
    section: int | None = None,
    name: str = "",
    notes: Sequence[str] = (),
) -> Told:
    """Return a title, what each of these pieces is called, and which letter is which glass.

    section: its number, None for the whole panel. name: of the panel, else as its drawing is called. notes:
    said under the title, e.g. `mirrored_said()`.
    """
    letter = letters_of(listed, tesserae)
    marks = [""] * panel.tessera_count
    for turn, k in enumerate(in_reading_order(panel, tesserae).tolist(), start=1):
        marks[k] = f"{turn}{letter[int(listed.of[k])]}"
    glasses = [f"{told} {listed.glasses[g].name}" for g, told in letter.items()]
    together = "; ".join(glass.replace(" ", _HARD_SPACE) for glass in glasses)
    legend = [line.replace(_HARD_SPACE, " ") for line in textwrap.wrap(together, LEGEND_LETTERS)]
    if len(legend) > MOST_LEGEND:
        legend = [*legend[: MOST_LEGEND - 1], say("… and more: the glass list names them all")]
    pieces = say_n("{count} piece", "{count} pieces", len(tesserae))
    called = (name or panel.name)[:MOST_NAME]
    if section is None:
        title = say("{panel}, the whole panel, {pieces}", panel=called, pieces=pieces)
    else:
        title = say("{panel}, section {section}, {pieces}", panel=called, section=section, pieces=pieces)
    return Told(title, (*map(_sentence, notes), *legend), marks)


def _sentence(note: str) -> str:
    return f"{large_first(note)}."


def letters_of(listed: GlassList, tesserae: NDArray[np.integer]) -> dict[int, str]:
    """Return the letter of each glass among these pieces by its place in the list; that of most is a."""
    of, count = np.unique(listed.of[tesserae], return_counts=True)
    order = np.argsort(-count, kind="stable").tolist()
    return {int(of[k]): letters(turn) for turn, k in enumerate(order)}


def in_reading_order(panel: Panel, tesserae: NDArray[np.integer]) -> NDArray[np.integer]:
    """Return these pieces row by row, each row from the left."""
    row = np.round(panel.centroid_mm[tesserae, 1] / ROW_MM)
    return tesserae[np.lexsort((panel.centroid_mm[tesserae, 0], row))]


def letters(turn: int) -> str:
    """Return a, b, … z, aa, ab …"""
    return (letters(turn // 26 - 1) if turn >= 26 else "") + chr(ord("a") + turn % 26)
