"""What can be wrong with a ground that is to be divided."""

from __future__ import annotations

import math

from bench.fault import Fault
from bench.speech import say, say_n

PREFERENCES = ("forms", "fewest")


class CapacityNotPositive(Fault):
    def __init__(self, capacity_s: float, adhesive: int) -> None:
        super().__init__(
            say("a capacity of {capacity:g} s holds no tessera", capacity=capacity_s),
            where=say("adhesive {number}", number=adhesive),
            todo=say("give a working time longer than stirring, spreading and cleaning"),
        )
        self.capacity_s = capacity_s
        self.adhesive = adhesive


class ExpectedTimeInvalid(Fault):
    def __init__(self, seconds: float, tessera: int) -> None:
        super().__init__(
            say("an expected time of {seconds:g} s for one tessera", seconds=seconds),
            where=say("tessera number {number}", number=tessera),
            todo=say("expected times are finite and at least 0"),
        )
        self.seconds = seconds
        self.tessera = tessera


class LengthsDiffer(Fault):
    def __init__(self, name: str, found: int, wanted: int) -> None:
        super().__init__(
            say("{name} has {found} entries, not {wanted}", name=name, found=found, wanted=wanted),
            todo=say("give one for each tessera"),
        )
        self.name = name
        self.found = found
        self.wanted = wanted


class UnknownPreference(Fault):
    def __init__(self, prefer: str) -> None:
        super().__init__(
            say("'{prefer}' is no way of dividing", prefer=prefer),
            todo=say("choose {this} or {that}", this=PREFERENCES[0], that=PREFERENCES[1]),
        )
        self.prefer = prefer
        self.choices = PREFERENCES


class NoSuchSection(Fault):
    def __init__(self, section: int, count: int) -> None:
        super().__init__(
            say("there is no section {section}", section=section),
            todo=say("choose one of 0 to {last}", last=count - 1),
        )
        self.section = section
        self.count = count


class NoSuchTessera(Fault):
    def __init__(self, tessera: int, count: int) -> None:
        super().__init__(
            say("there is no tessera {tessera}", tessera=tessera),
            todo=say("choose among 0 to {last}", last=count - 1),
        )
        self.tessera = tessera
        self.count = count


class StrokeDividesNothing(Fault):
    def __init__(self, section: int) -> None:
        super().__init__(
            say("the stroke does not part the section"),
            where=say("section {section}", section=section),
            todo=say("draw it right across, from edge to edge, between the pieces"),
        )
        self.section = section


class RuleBroken(Fault):
    """Say which hard rule a change by hand would break; rule is its name."""

    rule = ""

    def __init__(self, section: int, what: str, todo: str) -> None:
        super().__init__(what, where=say("section {section}", section=section), todo=todo)
        self.section = section


class NotConnected(RuleBroken):
    rule = "connected"

    def __init__(self, section: int, pieces: tuple[int, ...]) -> None:
        counts = ", ".join(map(str, pieces))
        super().__init__(
            section,
            say(
                "the section would fall into {count} parts of {counts} pieces",
                count=len(pieces),
                counts=counts,
            ),
            say("choose pieces that face each other"),
        )
        self.pieces = pieces


class OverCapacity(RuleBroken):
    """Too much for one mix; told in whole minutes, one too many at least, and in pieces as they are here."""

    rule = "within capacity"

    def __init__(self, section: int, total_s: float, capacity_s: float, pieces: int) -> None:
        excess = math.ceil(pieces * (1 - capacity_s / total_s))
        allowed_min = round(capacity_s / 60)
        super().__init__(
            section,
            say(
                "the section would take {total:.0f} min and its adhesive allows {capacity:.0f} min",
                total=max(round(total_s / 60), allowed_min + 1),
                capacity=allowed_min,
            ),
            say_n("leave out about {count} piece", "leave out about {count} pieces", excess),
        )
        self.total_s = total_s
        self.capacity_s = capacity_s
        self.pieces = pieces


class MixedAdhesives(RuleBroken):
    rule = "one adhesive"

    def __init__(self, section: int, adhesives: tuple[int, ...]) -> None:
        super().__init__(
            section,
            say("the section would need {count} adhesives", count=len(adhesives)),
            say("keep pieces of one adhesive together"),
        )
        self.adhesives = adhesives
