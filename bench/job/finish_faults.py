"""What a person can be told when grout, ink, seal or wall come out of turn: the rule, and what to do."""

from datetime import datetime

from bench.fault import Fault
from bench.finish.zone_called import zone_called
from bench.speech import say, say_n


class NotHardYet(Fault):
    """A zone would be masked or grouted over work that is not hard."""

    def __init__(self, name: str, sections: tuple[int, ...], at: str, *, unsure: bool) -> None:
        self.name, self.sections, self.unsure = name, sections, unsure
        named = ", ".join(map(str, sections[:6])) + (" …" if len(sections) > 6 else "")
        what = say_n(
            "section {named} is not hard", "sections {named} are not hard", len(sections), named=named
        )
        todo = say("wait until {at}", at=at) if at else say("set what is left of it, and let it harden")
        if unsure:
            todo = say("the clock changed: try them by hand, and say on the panel that they are hard")
        super().__init__(what, where=zone_called(name), todo=todo)


class StillWet(Fault):
    """Grout, ink or seal has not dried for certain. name: of a zone; what: in the language spoken."""

    def __init__(self, name: str, what: str, at: str, at_utc: datetime, *, unsure: bool) -> None:
        self.name, self.at_utc, self.unsure = name, at_utc, unsure
        todo = say("wait until {at}", at=at)
        if unsure:
            todo = say("the clock changed, so it counts as wet: try it by hand and say so, or wait")
        super().__init__(what, where=zone_called(name), todo=todo)


class OutOfTurn(Fault):
    """An act of finishing that another has to come before, or that came already.

    name: of a zone; what and todo, and any other name, in the language spoken.
    """

    def __init__(self, name: str, what: str, todo: str) -> None:
        self.name = name
        super().__init__(what, where=zone_called(name), todo=todo)


class WaterOutOfRange(Fault):
    def __init__(self, share: float, most: float) -> None:
        self.share, self.most = share, most
        super().__init__(
            say("{share:.2g} g of water for each g of powder cannot be", share=share),
            where=say("water"),
            todo=say("give grams, more than 0 and up to {most:g} for each g of powder", most=most),
        )


class PowderOutOfRange(Fault):
    def __init__(self, powder_g: float, most_g: float) -> None:
        self.powder_g, self.most_g = powder_g, most_g
        super().__init__(
            say("{powder_g:g} g of powder cannot be", powder_g=powder_g),
            where=say("grout"),
            todo=say("give grams, more than 0 and up to {most_g:g}", most_g=most_g),
        )
