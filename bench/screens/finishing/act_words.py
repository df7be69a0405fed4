"""The acts of finishing and the looks of zones, as they stand on the screen."""

from __future__ import annotations

from bench.job.finish_advice import Act
from bench.speech import say


def does(act: Act) -> str:
    """Say the one big act, as it stands on its key."""
    return {
        "sun": say("Say where"),
        "choose": say("Choose a grout"),
        "mask": say("It is masked"),
        "grout": say("Mix and grout"),
        "try_ink": say("It was tried"),
        "ink": say("It is inked"),
        "try_dry": say("Say how dry"),
        "seal": say("It is sealed"),
        "hang": say("It hangs"),
        "wait": say("See when"),
        "done": say("To the book"),
    }[act]


def stage_word(stage: str) -> str:
    """Say what a zone's look means: a grouted one is drawn as what is hard, all others as bare."""
    return say("grouted") if stage == "hard" else say("drawn")
