"""Grouts seen before they are mixed, for `potwatch finish`: how strongly joints cut up, and a picture."""

from __future__ import annotations

import argparse
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from bench.commands.finish_zones import Zoned
from bench.commands.output import table
from bench.drawing.colour import code_of
from bench.drawing.grouted import grouted, side_by_side, ungrouted
from bench.drawing.panel import Panel
from bench.finish.beheld import Cut, cut_up, inked, inked_name, tint_said
from bench.finish.faults import NamelessColour, TooManyColours, UnknownColour
from bench.finish.grout_colours import GROUT_WORDS, NEUTRAL
from bench.finish.zone_plan import Tint
from bench.job.seeing import MOST_SEEN, cut_words
from bench.speech import say
from bench.whole import write_file

PICTURE_PX = 1000
_CODE = re.compile(r"#([0-9a-f]{6})", re.IGNORECASE)
OVER = " over "


@dataclass(frozen=True)
class Look:
    """A grout, and how strongly its joints cut up the panel, first, and each zone."""

    tint: Tint
    cuts: tuple[Cut, ...]


def add_seeing(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--see",
        metavar=say("COLOUR,…"),
        help=say(
            "up to {most} grouts to compare: a plain word, NAME=#RRGGBB, or INK over GROUT", most=MOST_SEEN
        ),
    )
    parser.add_argument(
        "--picture", type=Path, metavar=say("FILE.png"), help=say("draw it in each, side by side")
    )


def seen_in(args: argparse.Namespace, panel: Panel, zones: Zoned) -> tuple[Look, ...]:
    """Return the grouts asked for; the neutral where only a picture is.

    Raises NamelessColour, UnknownColour or TooManyColours.
    """
    if args.see is None and args.picture is None:
        return ()
    asked = NEUTRAL if args.see is None else args.see
    tints = {tint.name: tint for tint in map(tint_of, asked.split(","))}
    if len(tints) > MOST_SEEN:
        raise TooManyColours(len(tints), MOST_SEEN)
    looks = []
    for tint in tints.values():
        grout = np.broadcast_to(np.array(tint.colour, np.uint8), panel.colour.shape)
        looks.append(Look(tint, cut_up(panel, grout, zones.label, len(zones.names))))
    return tuple(looks)


def tint_of(text: str) -> Tint:
    """Return a grout from a plain word, `NAME=#RRGGBB`, or `INK over GROUT`."""
    name, equals, code = (" ".join(part.split()) for part in text.partition("="))
    if not name or (not equals and _CODE.fullmatch(name)):
        raise NamelessColour("grout")
    if equals:
        found = _CODE.fullmatch(code)
        if found is None:
            raise UnknownColour(f"{name} ({code or say('nothing')})", [say("a plain word"), "NAME=#RRGGBB"])
        red, green, blue = bytes.fromhex(found[1])
        return Tint(name, (red, green, blue))
    ink, over, grout = name.partition(OVER)
    if over:
        return Tint(inked_name(grout, ink), inked(_word(grout), _word(ink)))
    return Tint(name, _word(name))


def _word(name: str) -> tuple[int, int, int]:
    try:
        return GROUT_WORDS[name]
    except KeyError:
        raise UnknownColour(name, list(GROUT_WORDS)) from None


def seen_lines(looks: Sequence[Look], names: Sequence[str]) -> list[str]:
    """Return the grouts for a person to read, and by zone where there are several."""
    if not looks:
        return []
    rows = [(tint_said(look.tint.name), code_of(look.tint.colour), cut_words(look.cuts[0])) for look in looks]
    lines = ["", table((say("seen"), say("colour"), say("between glass and joint")), rows)]
    if len(names) > 1:
        by_zone = [
            (name, *(cut_words(look.cuts[1 + k]) for look in looks)) for k, name in enumerate(names)
        ]
        lines += ["", table((say("zone"), *(tint_said(look.tint.name) for look in looks)), by_zone)]
    guess = say("colours of words, and of inks over a grout, are a guess: measure them on a sample tile")
    return [*lines, guess]


def seen_json(looks: Sequence[Look], names: Sequence[str]) -> dict[str, Any]:
    """Return the grouts as JSON: mean ΔE00 between glass and joint; null where no pieces face each other."""
    return {
        "seen": [
            {
                "name": look.tint.name,
                "colour": code_of(look.tint.colour),
                "delta_e": look.cuts[0].delta_e,
                "words": look.cuts[0].words,
                "zones": [
                    {"name": name, "delta_e": cut.delta_e, "words": cut.words}
                    for name, cut in zip(names, look.cuts[1:], strict=True)
                ],
            }
            for look in looks
        ]
    }


def write_seen(path: Path, panel: Panel, looks: Sequence[Look]) -> None:
    """Write the panel in each grout as a PNG. Raises CannotWrite."""
    glass = ungrouted(panel, long_side_px=PICTURE_PX)
    pictures = [grouted(glass, np.broadcast_to(np.array(x.tint.colour), panel.colour.shape)) for x in looks]
    words = [(tint_said(x.tint.name), x.cuts[0].words) for x in looks]
    data = io.BytesIO()
    side_by_side(pictures, words).save(data, "PNG")
    write_file(path, data.getvalue())
