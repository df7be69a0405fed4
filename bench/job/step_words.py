"""The steps of finishing in words: what may be done now, from when on, or once something else is done.

of: the section's number; zone: as it is called within a sentence; at: a moment in words.
"""

from __future__ import annotations

from typing import Literal

from bench.speech import say

Kind = Literal["harden", "grout", "ink", "seal", "hang"]


def now_said(kind: Kind, of: int, zone: str) -> str:
    """Say what may be done now."""
    return {
        "harden": say("section {number} is hard now.", number=of),
        "grout": say("{zone} may be grouted now.", zone=zone),
        "ink": say("{zone} may be tinted now.", zone=zone),
        "seal": say("the panel may be sealed now."),
        "hang": say("the panel may hang outdoors now."),
    }[kind]


def once_said(kind: Kind, of: int, zone: str) -> str:
    """Say what nobody can date yet."""
    return {
        "harden": say("section {number} is hard once what is left of it is set and hard.", number=of),
        "grout": say("{zone} may be grouted once what is left of it is set and hard.", zone=zone),
        "ink": say("{zone} may be tinted once what is left of it is set and hard.", zone=zone),
        "seal": say("the panel may be sealed once what is left of it is set and hard."),
        "hang": say("the panel may hang outdoors once what is left of it is set and hard."),
    }[kind]


def from_said(kind: Kind, of: int, zone: str, at: str) -> str:
    """Say what may be done from a moment on."""
    return {
        "harden": say("From {at} section {number} is hard.", at=at, number=of),
        "grout": say("From {at} {zone} may be grouted.", at=at, zone=zone),
        "ink": say("From {at} {zone} may be tinted.", at=at, zone=zone),
        "seal": say("From {at} the panel may be sealed.", at=at),
        "hang": say("From {at} the panel may hang outdoors.", at=at),
    }[kind]


def foreseen_said(kind: Kind, of: int, zone: str, at: str) -> str:
    """Say what is foreseen, since it rests on work that is not done."""
    return {
        "harden": say("Foreseen from {at}: section {number} is hard.", at=at, number=of),
        "grout": say("Foreseen from {at}: {zone} may be grouted.", at=at, zone=zone),
        "ink": say("Foreseen from {at}: {zone} may be tinted.", at=at, zone=zone),
        "seal": say("Foreseen from {at}: the panel may be sealed.", at=at),
        "hang": say("Foreseen from {at}: the panel may hang outdoors.", at=at),
    }[kind]


def unsure_said(kind: Kind, of: int, zone: str) -> str:
    """Say that a clock cannot be trusted, and the way out."""
    return {
        "harden": say(
            "The clock changed: section {number} counts as not ready. Try it by hand.", number=of
        ),
        "grout": say(
            "The clock changed: {zone} counts as not ready. "
            "Try its sections by hand, and say so on the panel.",
            zone=zone,
        ),
        "ink": say(
            "The clock changed: {zone} counts as not ready. Try its grout by hand and say so.", zone=zone
        ),
        "seal": say(
            "The clock changed: the panel counts as not ready. Try the grout by hand and say so."
        ),
        "hang": say("The clock changed: the panel counts as not ready. Wait the seal's time once more."),
    }[kind]
