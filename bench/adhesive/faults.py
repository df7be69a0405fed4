"""What can be wrong with an adhesive, its file, or what is asked of it; each fault carries its data."""

from bench.fault import Fault
from bench.speech import plain_temperature, said, say, temperatures, tongue


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
            say(
                "there is no adhesive {asked}", asked=repr(asked if len(asked) <= 60 else f"{asked[:57]}...")
            ),
            todo=say(
                "choose {choices}, or give the path of an adhesive file (.toml)", choices=", ".join(choices)
            ),
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
        told, may, called = plain_temperature(temperature_C), temperatures(*range_C), said(name)
        if bottles:
            what = say(
                "bottles at {told} are outside the {may} in which {name} may be used",
                told=told,
                may=may,
                name=called,
            )
            self.remedy = say("let the closed bottles come to the room's temperature")
        else:
            what = say(
                "{told} is outside the {may} in which {name} may be used", told=told, may=may, name=called
            )
            cold = temperature_C < range_C[0]
            self.remedy = (
                say("warm the room and the bottles") if cold else say("work in a cooler hour or room")
            )
        todo = say("{remedy}, and ask the data sheet", remedy=self.remedy)
        hint = _unit_hint(temperature_C)
        super().__init__(what, where=say("temperature"), todo=f"{todo}; {hint}" if hint else todo)
        self.temperature_C = temperature_C
        self.range_C = range_C


class AmountNotAllowed(Fault):
    """A figure of the batch is not a sane one. field: its name in the code; value: as given."""

    def __init__(self, field: str, value: float, what: str, todo: str) -> None:
        super().__init__(what, where=_field_words(field), todo=todo)
        self.field = field
        self.value = value


def _field_words(field: str) -> str:
    words = {
        "bed_area_mm2": say("bed area"),
        "bed_mm": say("bed"),
        "waste": say("waste"),
        "residue_g": say("residue"),
        "scale_g": say("scale"),
        "mix_g": say("mix"),
        "poured_resin_g": say("poured resin"),
        "poured_hardener_g": say("poured hardener"),
    }
    return words.get(field, field)


def _unit_hint(temperature_C: float) -> str:
    """Guess that °F were given for °C; who is spoken to in °F sees it by the figure."""
    if 50 <= temperature_C <= 110 and not tongue().fahrenheit:
        return say(
            "if {told:g} °F is meant, that is {celsius:.0f} °C",
            told=temperature_C,
            celsius=(temperature_C - 32) / 1.8,
        )
    return ""
