"""Weight, loads and stiffness in words: the figures, where each comes from, and whose duty the rest is."""

from __future__ import annotations

from bench.finish.bend import STONE_SPAN, TILE_SPAN, Bend
from bench.finish.hanging import Hung, newtons
from bench.finish.units import Units
from bench.finish.weight import Weight, pounds

PART_NAMES = {"glass": "glass", "backer": "board", "bed": "adhesive", "grout": "grout", "frame": "frame"}
DUTY = (
    "Rated fixings, a wall that bears the load, and local rules are the maker's and the installer's duty: "
    "nothing here stands in for them."
)


def weight_words(weight: Weight) -> str:
    """Say the total with its spread in kg and lb, e.g. '3.20 kg (2.95 to 3.45), 7.1 lb (6.5 to 7.6)'."""
    low, high = weight.p10_g, weight.p90_g
    return (
        f"{weight.total_g / 1000:.2f} kg ({low / 1000:.2f} to {high / 1000:.2f}), "
        f"{pounds(weight.total_g):.1f} lb ({pounds(low):.1f} to {pounds(high):.1f})"
    )


def part_lines(weight: Weight) -> tuple[str, ...]:
    """Return each part that weighs anything with its own spread, a line each."""
    return tuple(
        f"{PART_NAMES[name]} {grams:.0f} g ± {100 * weight.spreads[name]:.0f} %"
        for name, grams in weight.parts_g.items()
        if grams > 0
    )


def hung_lines(hung: Hung) -> tuple[str, ...]:
    """Say what each fixing and a wire bear, reckoned with the heavier end of the weight."""
    lines = []
    if hung.points == 1:
        lines.append(f"One fixing carries {_load(hung.each_g)}.")
    else:
        lines.append(f"{hung.points} fixings carry {_load(hung.each_g)} each where all carry alike.")
        if hung.worst_g > hung.each_g * 1.005:
            why = "two alone may bear a stiff panel" if hung.points > 2 else "its weight lies to one side"
            lines.append(f"Choose each for {_load(hung.worst_g)}: {why}.")
    if hung.angle_deg is not None and hung.tension_g is not None and hung.inward_g is not None:
        lines.append(
            f"The wire slopes {hung.angle_deg:.0f}° and pulls {_load(hung.tension_g)}, W / (2 sin angle); "
            f"it draws the rings together with {_load(hung.inward_g)}."
        )
    return tuple(lines)


def _load(mass_g: float) -> str:
    return f"{mass_g / 1000:.2f} kg ({pounds(mass_g):.1f} lb, {newtons(mass_g):.0f} N)"


def bend_lines(bend: Bend, units: Units) -> tuple[str, str]:
    """Say how the board bends when it is carried flat, then the rule and where that comes from."""
    says = {
        "stiff": "stiff enough",
        "doubtful": "a bending board breaks joints, so carry it upright or stiffen its back",
        "flexes": "too soft, joints will break; take a stiffer board, or ribs or a frame behind it",
    }
    return (
        f"Carried flat by its edges the board sags {units.thickness(bend.sag_mm)} over "
        f"{units.side(bend.span_mm)}, 1/{bend.ratio:.0f} of that: {says[bend.verdict]}.",
        f"The tile trade allows 1/{TILE_SPAN:.0f} under tile and 1/{STONE_SPAN:.0f} under stone: ANSI A108 "
        "and its handbook, from memory.",
    )
