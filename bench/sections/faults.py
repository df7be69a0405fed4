"""What can be wrong with a ground that is to be divided."""

from __future__ import annotations

from bench.fault import Fault

PREFERENCES = ("forms", "fewest")


class CapacityNotPositive(Fault):
    def __init__(self, capacity_s: float, adhesive: int) -> None:
        super().__init__(
            f"a capacity of {capacity_s:g} s holds no tessera",
            where=f"adhesive {adhesive}",
            todo="give a working time longer than stirring, spreading and cleaning",
        )
        self.capacity_s = capacity_s
        self.adhesive = adhesive


class ExpectedTimeInvalid(Fault):
    def __init__(self, seconds: float, tessera: int) -> None:
        super().__init__(
            f"an expected time of {seconds:g} s for one tessera",
            where=f"tessera number {tessera}",
            todo="expected times are finite and at least 0",
        )
        self.seconds = seconds
        self.tessera = tessera


class LengthsDiffer(Fault):
    def __init__(self, name: str, found: int, wanted: int) -> None:
        super().__init__(f"{name} has {found} entries, not {wanted}", todo="give one for each tessera")
        self.name = name
        self.found = found
        self.wanted = wanted


class UnknownPreference(Fault):
    def __init__(self, prefer: str) -> None:
        super().__init__(f"'{prefer}' is no way of dividing", todo=f"choose {' or '.join(PREFERENCES)}")
        self.prefer = prefer
        self.choices = PREFERENCES


class NoSuchSection(Fault):
    def __init__(self, section: int, count: int) -> None:
        super().__init__(f"there is no section {section}", todo=f"choose one of 0 to {count - 1}")
        self.section = section
        self.count = count


class NoSuchTessera(Fault):
    def __init__(self, tessera: int, count: int) -> None:
        super().__init__(f"there is no tessera {tessera}", todo=f"choose among 0 to {count - 1}")
        self.tessera = tessera
        self.count = count


class StrokeDividesNothing(Fault):
    def __init__(self, section: int) -> None:
        super().__init__(
            "the stroke does not part the section",
            where=f"section {section}",
            todo="draw it right across, from edge to edge, between the tesserae",
        )
        self.section = section


class RuleBroken(Fault):
    """Say which hard rule a change by hand would break; rule is its name."""

    rule = ""

    def __init__(self, section: int, what: str, todo: str) -> None:
        super().__init__(what, where=f"section {section}", todo=todo)
        self.section = section


class NotConnected(RuleBroken):
    rule = "connected"

    def __init__(self, section: int, pieces: tuple[int, ...]) -> None:
        counts = ", ".join(map(str, pieces))
        super().__init__(
            section,
            f"the section would fall into {len(pieces)} pieces of {counts} tesserae",
            "choose tesserae that face each other",
        )
        self.pieces = pieces


class OverCapacity(RuleBroken):
    rule = "within capacity"

    def __init__(self, section: int, total_s: float, capacity_s: float) -> None:
        super().__init__(
            section,
            f"the section would take {total_s:.0f} s and its adhesive allows {capacity_s:.0f} s",
            f"leave out at least {total_s - capacity_s:.1f} s of tesserae",
        )
        self.total_s = total_s
        self.capacity_s = capacity_s


class MixedAdhesives(RuleBroken):
    rule = "one adhesive"

    def __init__(self, section: int, adhesives: tuple[int, ...]) -> None:
        super().__init__(
            section,
            f"the section would need {len(adhesives)} adhesives",
            "keep tesserae of one adhesive together",
        )
        self.adhesives = adhesives
