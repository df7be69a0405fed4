"""What can be wrong with an adhesive, its file, or what is asked of it; each fault carries its data."""

from bench.fault import Fault


class AdhesiveFileFault(Fault):
    """Something in an adhesive file is wrong. field: its dotted name, "" for the file as a whole."""

    def __init__(self, what: str, *, where: str, todo: str, field: str = "") -> None:
        super().__init__(what, where=where, todo=todo)
        self.field = field


class NotAnAdhesiveFile(AdhesiveFileFault):
    """The file cannot be read as an adhesive file at all."""


class FieldMissing(AdhesiveFileFault):
    """A field that is needed is not there."""


class FieldUnknown(AdhesiveFileFault):
    """A field is there that no adhesive file has."""


class FieldDoubled(AdhesiveFileFault):
    """A field, or the mix ratio, is given more than once."""


class FieldNotAllowed(AdhesiveFileFault):
    """A field has the wrong type or a value outside what is allowed."""


class FieldsDisagree(AdhesiveFileFault):
    """Two fields that are each allowed contradict each other."""


class NoSuchAdhesive(Fault):
    """Nothing answers to the name. choices: the names that would do."""

    def __init__(self, asked: str, choices: tuple[str, ...]) -> None:
        super().__init__(
            f"there is no adhesive {asked if len(asked) <= 60 else asked[:57] + '...'!r}",
            todo=f"choose {', '.join(choices)}, or give the path of an adhesive file (.toml)",
        )
        self.asked = asked
        self.choices = choices


class OutsideRange(Fault):
    """It is too cold or too hot for the adhesive. The range is the product's own, or the usual one.

    bottles: it is they that are too cold or too hot, not the room.
    """

    def __init__(
        self, name: str, temperature_C: float, range_C: tuple[float, float], *, bottles: bool = False
    ) -> None:
        low_C, high_C = range_C
        self.remedy = (
            "warm the room and the bottles" if temperature_C < low_C else "work in a cooler hour or room"
        )
        if bottles:
            self.remedy = "let the closed bottles come to the room's temperature"
        told = f"bottles at {temperature_C:g} °C are" if bottles else f"{temperature_C:g} °C is"
        super().__init__(
            f"{told} outside the {low_C:g} to {high_C:g} °C in which {name} may be used",
            where="temperature",
            todo=f"{self.remedy}, and ask the data sheet; {_unit_hint(temperature_C)}".removesuffix("; "),
        )
        self.temperature_C = temperature_C
        self.range_C = range_C


class AmountNotAllowed(Fault):
    """A figure of the batch is not a sane one. field: its name in the code; value: as given."""

    def __init__(self, field: str, value: float, what: str, todo: str) -> None:
        super().__init__(what, where=field.rpartition("_")[0].replace("_", " ") or field, todo=todo)
        self.field = field
        self.value = value


def _unit_hint(temperature_C: float) -> str:
    if 50 <= temperature_C <= 110:
        return f"if {temperature_C:g} °F is meant, that is {(temperature_C - 32) / 1.8:.0f} °C"
    return ""
