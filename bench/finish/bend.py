"""Whether the board is stiff enough: how far it sags where it is carried flat, against the tile trade's rule.

A strip of the board as a beam on two edges with its load spread evenly, stiffened as a plate is:
sag = 5·q·L⁴/(384·D), D = E·t³/(12·(1 − ν²)) (Euler and Bernoulli; textbook formula, from memory). Glass and
grout stiffen a panel further, and are left out: the safe side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from bench.finish.faults import AmountOutOfRange
from bench.finish.hanging import STANDARD_GRAVITY
from bench.speech import say

# A floor under tile may bend by a 360th of its span, one under stone by a 720th: from memory of the North
# American tile trade's installation rules (ANSI A108 and the handbook beside it). Small glass in stiff grout
# is held to the stricter one here: common practice, no source.
STONE_SPAN, TILE_SPAN = 720.0, 360.0
POISSON = 0.25  # of boards and most building materials: from memory

# Bending moduli, from memory: what the board's maker states comes first. [GPa]
BOARDS_GPA = {"cement board": 4.0, "fibre cement": 6.0, "plywood": 6.0, "foam board with mesh": 0.2}



def board_said(board: str) -> str:
    """Say a kind of board, one of BOARDS_GPA."""
    said = {
        "cement board": say("cement board"),
        "fibre cement": say("fibre cement"),
        "plywood": say("plywood"),
        "foam board with mesh": say("foam board with mesh"),
    }
    return said.get(board, board)


Verdict = Literal["stiff", "doubtful", "flexes"]


@dataclass(frozen=True)
class Bend:
    """How a panel carried flat by two opposite edges sags. ratio: span ÷ sag. [mm]"""

    span_mm: float
    sag_mm: float
    ratio: float

    @property
    def verdict(self) -> Verdict:
        if self.ratio >= STONE_SPAN:
            return "stiff"
        return "doubtful" if self.ratio >= TILE_SPAN else "flexes"


def bend_of(mass_g: float, *, span_mm: float, width_mm: float, board_mm: float, board_GPa: float) -> Bend:
    """Return how far a panel sags under its own weight between two edges span_mm apart.

    Its mass lies evenly on span × width. Raises AmountOutOfRange for what is 0 or below, or not finite.
    """
    given = {
        say("weight"): mass_g,
        say("span"): span_mm,
        say("width"): width_mm,
        say("board thickness"): board_mm,
        say("board stiffness"): board_GPa,
    }
    for name, value in given.items():
        if not (math.isfinite(value) and value > 0):
            raise AmountOutOfRange(name, value, say("more than 0"))
    span_m = span_mm / 1000.0
    load = mass_g / 1000.0 * STANDARD_GRAVITY / (span_m * width_mm / 1000.0)  # N/m²
    stiffness = board_GPa * 1e9 * (board_mm / 1000.0) ** 3 / (12.0 * (1.0 - POISSON**2))  # N·m
    sag_mm = 5.0 * load * span_m**4 / (384.0 * stiffness) * 1000.0
    return Bend(span_mm, sag_mm, span_mm / sag_mm)
