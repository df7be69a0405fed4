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
