"""What a person can be told at the cup, and of the clock that it starts: the rule, and what to do instead."""

from bench.adhesive.part_words import part_word
from bench.fault import Fault
from bench.speech import plain_temperature, say


class NoSuchMix(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(
            say("there is no mix {number}", number=number), todo=say("choose one that the book knows")
        )


class CupInUse(Fault):
    def __init__(self, mix: int, section: int) -> None:
        self.mix, self.section = mix, section
        super().__init__(
            say("the cup is already being made ready for section {section}", section=section),
            todo=say("finish that mix or put it away first"),
        )


class CautionsNotRead(Fault):
    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            say("the cautions for this mix have not been read"),
            todo=say("read them and say so before gloves go on and resin meets hardener"),
        )


class LabelNotRead(Fault):
    """The hardener's file lists no H314, and nobody has said whether its label does."""

    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            say("nobody has looked whether H314 is on the hardener's label"),
            todo=say("read the label of the hardener and say whether it is"),
        )


class AlreadyStarted(Fault):
    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            say("resin has met hardener and the clock runs"),
            todo=say("correct first contact if it was earlier; it cannot be taken back"),
        )


class NotRunning(Fault):
    def __init__(self, mix: int) -> None:
        self.mix = mix
        super().__init__(
            say("mix {mix} is not running", mix=mix),
            todo=say("start it at first contact, or look it up in the book"),
        )


class TimeOutOfRange(Fault):
    """A moment was told that lies before first contact or in the time to come."""

    def __init__(self, told_s: float, most_s: float) -> None:
        self.told_s, self.most_s = told_s, most_s
        super().__init__(
            say("{told:.1f} minutes ago is not within this glue-up", told=told_s / 60),
            todo=say("give a time from now back to {most:.1f} minutes ago", most=most_s / 60),
        )


class GramsOutOfRange(Fault):
    def __init__(self, grams: float, most_g: float, part: str = "resin") -> None:
        self.grams, self.most_g, self.part = grams, most_g, part
        super().__init__(
            say("{grams:g} g of {part} cannot be right for this section", grams=grams, part=part_word(part)),
            todo=say("weigh it in grams, more than 0 and up to {most_g:g}", most_g=most_g),
        )


class RunsAway(Fault):
    """One cup of so much would heat itself until it smokes."""

    def __init__(self, mass_g: float, cups: int, temperature_C: float) -> None:
        self.mass_g, self.cups, self.each_g = mass_g, cups, mass_g / cups
        super().__init__(
            say(
                "{mass_g:.1f} g in one cup would run away at {warmth}",
                mass_g=mass_g,
                warmth=plain_temperature(temperature_C),
            ),
            todo=say(
                "split it: {cups} cups of {each_g:.1f} g, one after the other",
                cups=cups,
                each_g=self.each_g,
            ),
        )


class CupGrams(Fault):
    """A weighed cup that cannot be."""

    def __init__(self, what: str, todo: str) -> None:
        super().__init__(what, where=say("cup"), todo=todo)
