"""Weight, loads and stiffness in words: the figures, where each comes from, and whose duty the rest is."""

from __future__ import annotations

from bench.finish.bend import STONE_SPAN, TILE_SPAN, Bend
from bench.finish.hanging import Hung, newtons
from bench.finish.units import Units
from bench.finish.weight import Weight, pounds
from bench.speech import say


def duty() -> str:
    """Say whose duty the hanging is."""
    return say(
        "Rated fixings, a wall that bears the load, and local rules are the maker's and the installer's "
        "duty: nothing here stands in for them."
    )


def part_said(part: str) -> str:
    """Say a part of the weight, one of SPREADS."""
    return {
        "glass": say("glass"),
        "backer": say("board"),
        "bed": say("adhesive"),
        "grout": say("grout"),
        "frame": say("frame"),
    }[part]


def weight_words(weight: Weight) -> str:
    """Say the total with its spread in kg and lb, e.g. '3.20 kg (2.95 to 3.45), 7.1 lb (6.5 to 7.6)'."""
    low, high = weight.p10_g, weight.p90_g
    return say(
        "{kg:.2f} kg ({low_kg:.2f} to {high_kg:.2f}), {lb:.1f} lb ({low_lb:.1f} to {high_lb:.1f})",
        kg=weight.total_g / 1000,
        low_kg=low / 1000,
        high_kg=high / 1000,
        lb=pounds(weight.total_g),
        low_lb=pounds(low),
        high_lb=pounds(high),
    )


def part_lines(weight: Weight) -> tuple[str, ...]:
    """Return each part that weighs anything with its own spread, a line each."""
    return tuple(
        say(
            "{part} {grams:.0f} g ± {percent:.0f} %",
            part=part_said(name),
            grams=grams,
            percent=100 * weight.spreads[name],
        )
        for name, grams in weight.parts_g.items()
        if grams > 0
    )


def hung_lines(hung: Hung) -> tuple[str, ...]:
    """Say what each fixing and a wire bear, reckoned with the heavier end of the weight."""
    lines = []
    if hung.points == 1:
        lines.append(say("One fixing carries {load}.", load=_load(hung.each_g)))
    else:
        lines.append(
            say(
                "{count} fixings carry {load} each where all carry alike.",
                count=hung.points,
                load=_load(hung.each_g),
            )
        )
        if hung.worst_g > hung.each_g * 1.005:
            lines.append(_worst(hung))
    if hung.angle_deg is not None and hung.tension_g is not None and hung.inward_g is not None:
        lines.append(
            say(
                "The wire slopes {angle:.0f}° and pulls {pull}, W / (2 sin angle); "
                "it draws the rings together with {inward}.",
                angle=hung.angle_deg,
                pull=_load(hung.tension_g),
                inward=_load(hung.inward_g),
            )
        )
    return tuple(lines)


def _worst(hung: Hung) -> str:
    load = _load(hung.worst_g)
    if hung.points > 2:
        return say("Choose each for {load}: two alone may bear a stiff panel.", load=load)
    return say("Choose each for {load}: its weight lies to one side.", load=load)


def _load(mass_g: float) -> str:
    return say(
        "{kg:.2f} kg ({lb:.1f} lb, {newtons:.0f} N)",
        kg=mass_g / 1000,
        lb=pounds(mass_g),
        newtons=newtons(mass_g),
    )


def bend_lines(bend: Bend, units: Units) -> tuple[str, str]:
    """Say how the board bends when it is carried flat, then the rule and where that comes from."""
    says = {
        "stiff": say("stiff enough"),
        "doubtful": say("a bending board breaks joints, so carry it upright or stiffen its back"),
        "flexes": say("too soft, joints will break; take a stiffer board, or ribs or a frame behind it"),
    }
    return (
        say(
            "Carried flat by its edges the board sags {sag} over {span}, 1/{ratio:.0f} of that: {verdict}.",
            sag=units.thickness(bend.sag_mm),
            span=units.side(bend.span_mm),
            ratio=bend.ratio,
            verdict=says[bend.verdict],
        ),
        say(
            "The tile trade allows 1/{tile:.0f} under tile and 1/{stone:.0f} under stone: ANSI A108 "
            "and its handbook, from memory.",
            tile=TILE_SPAN,
            stone=STONE_SPAN,
        ),
    )
