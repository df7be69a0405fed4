"""An adhesive as its label and data sheet describe it: the model of the adhesive file.

Every limit here is meant to catch a slip of the pen (hours for minutes, kg/m³ for g/cm³, °F for °C),
never to judge a product. `product_words` turns what pydantic finds into one line for a person. Annotations
are evaluated here, as in `book.events`: pydantic reads them out of text more slowly.
"""

import math
import re
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, FiniteFloat, model_validator
from pydantic_core import PydanticCustomError

from bench.adhesive import product_rules as rules
from bench.adhesive import ratio as mix

# The working time shrinks 1.5 to 2.5 times from 23 to 33 °C (common practice, no source), which is
# 30.56 to 69.07 kJ/mol; a hair wider here, so that the rounded figures are allowed.
ACTIVATION_SPAN_KJ_PER_MOL = (30.5, 69.1)
DEFAULT_ACTIVATION_KJ_PER_MOL = 55.0
USUAL_RANGE_C = (5.0, 40.0)

_PRINTABLE = r"^[^\x00-\x1f\x7f]*[^\x00-\x20\x7f][^\x00-\x1f\x7f]*$"
_CODE = re.compile(r"(EUH|H|P)\d{3}[A-Za-z]{0,2}(\+(EUH|H|P)\d{3}[A-Za-z]{0,2})*")


def _code(text: str) -> str:
    if not _CODE.fullmatch(text):
        raise PydanticCustomError("code", "not_a_code")
    return text


Minutes = Annotated[FiniteFloat, Field(ge=3, le=480)]
Hours = Annotated[FiniteFloat, Field(gt=0, le=336)]
Grams = Annotated[FiniteFloat, Field(ge=5, le=5000)]
Celsius = Annotated[FiniteFloat, Field(ge=-10, le=60)]
ServiceCelsius = Annotated[FiniteFloat, Field(ge=-60, le=300)]
Density = Annotated[FiniteFloat, Field(ge=0.5, le=4)]
Equivalent = Annotated[FiniteFloat, Field(ge=10, le=10_000)]
Parts = Annotated[FiniteFloat, Field(gt=0, le=10_000)]
Component = tuple[Parts, Annotated[FiniteFloat, Field(ge=0, le=10_000)]]
Blend = Annotated[tuple[Component, ...], Field(min_length=1, max_length=20)]
Code = Annotated[str, AfterValidator(_code)]


class _Table(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class RatioTable(_Table):
    """The mix ratio, given in exactly one way, and how far the mix may be off it.

    A blend lists [parts by mass, equivalent weight] of each component, 0 for one that does not react.
    """

    by_mass: tuple[Parts, Parts] | None = None
    by_volume: tuple[Parts, Parts] | None = None
    eew_g_per_eq: Equivalent | None = None
    ahew_g_per_eq: Equivalent | None = None
    eew_blend: Blend | None = None
    ahew_blend: Blend | None = None
    tolerance: Annotated[FiniteFloat, Field(ge=0.005, le=0.25)] = 0.05

    @model_validator(mode="after")
    def _exactly_one_way(self) -> Self:
        rules.ratio_is_given_one_way(self)
        return self

    @property
    def resin_g_per_eq(self) -> float:
        """Epoxy equivalent weight, of a blend that of all of it; NaN where the ratio is given otherwise."""
        return _equivalent(self.eew_g_per_eq, self.eew_blend)

    @property
    def hardener_g_per_eq(self) -> float:
        """Amine hydrogen equivalent weight, in the same way."""
        return _equivalent(self.ahew_g_per_eq, self.ahew_blend)


class DensityTable(_Table):
    """Density of each part, before mixing; a ready adhesive has only the first."""

    resin_g_per_cm3: Density
    hardener_g_per_cm3: Density | None = None


class WorkingTimeTable(_Table):
    """Working time with the mass, temperature and method it was measured at: it means nothing without.

    Of a ready adhesive it is the open time, which has no test mass.
    """

    minutes: Minutes
    test_mass_g: Grams | None = None
    test_temperature_C: Celsius
    method: Annotated[str, Field(max_length=120)] | None = None
    film_open_minutes: Annotated[FiniteFloat, Field(ge=1, le=480)] | None = None
    activation_kJ_per_mol: (
        Annotated[FiniteFloat, Field(ge=ACTIVATION_SPAN_KJ_PER_MOL[0], le=ACTIVATION_SPAN_KJ_PER_MOL[1])]
        | None
    ) = None
    range_C: tuple[Celsius, Celsius] | None = None


class CureTable(_Table):
    """Hours from first contact until others may be set against it, it may be handled, and grouted."""

    firm_h: Hours
    handle_h: Hours
    grout_h: Hours
    temperature_C: Celsius


class ServiceTable(_Table):
    """The temperatures that the cured adhesive may see for years."""

    range_C: tuple[ServiceCelsius, ServiceCelsius]


class PartHazards(_Table):
    """Codes of the statements on the label of one part."""

    statements: Annotated[tuple[Code, ...], Field(max_length=40)]


class HazardTable(_Table):
    """What the labels of both parts state, and by which revision of the GHS."""

    resin: PartHazards
    hardener: PartHazards | None = None
    revision: Annotated[str, Field(pattern=r"^GHS (1[01]|[1-9])$")]


class Product(_Table):
    """One adhesive. Frozen; an invalid one cannot be made."""

    name: Annotated[str, Field(min_length=1, max_length=80, pattern=_PRINTABLE)]
    kind: Literal["two-part", "ready"]
    colour: Literal["clear", "white", "tinted"]
    form: Literal["liquid", "paste"] | None = None
    shelf_life_months: Annotated[int, Field(ge=1, le=240)] | None = None
    ratio: RatioTable | None = None
    density: DensityTable
    working_time: WorkingTimeTable
    cure: CureTable
    service: ServiceTable | None = None
    hazard: HazardTable
    typical: bool = False

    @model_validator(mode="after")
    def _fields_agree(self) -> Self:
        rules.parts_fit_the_kind(self)
        rules.ratio_is_sane(self)
        rules.range_holds_the_test(self)
        rules.cure_goes_forward(self)
        rules.service_is_sane(self)
        return self

    @property
    def is_two_part(self) -> bool:
        return self.kind == "two-part"

    @property
    def mass_ratio(self) -> float:
        """Grams of hardener for each gram of resin; 0 for a ready adhesive."""
        return mass_ratio_of(self.ratio, self.density) if self.ratio else 0.0

    @property
    def mixed_density_g_per_cm3(self) -> float:
        """Density of the mix; of a ready adhesive, its own. [g/cm³]"""
        return mix.mixed_density_g_per_cm3(
            self.mass_ratio,
            resin_g_per_cm3=self.density.resin_g_per_cm3,
            hardener_g_per_cm3=self.density.hardener_g_per_cm3 or self.density.resin_g_per_cm3,
        )

    @property
    def tolerance(self) -> float:
        """How far the mix ratio may be off, as a fraction of it."""
        return self.ratio.tolerance if self.ratio else 0.05

    @property
    def range_C(self) -> tuple[float, float]:
        """Temperatures in which it may be used: its own, else 5 to 40 °C and its test temperature."""
        test_C = self.working_time.test_temperature_C
        usual_C = (min(USUAL_RANGE_C[0], test_C), max(USUAL_RANGE_C[1], test_C))
        return self.working_time.range_C or usual_C

    @property
    def activation_kJ_per_mol(self) -> float:
        return self.working_time.activation_kJ_per_mol or DEFAULT_ACTIVATION_KJ_PER_MOL


def mass_ratio_of(ratio: RatioTable, density: DensityTable) -> float:
    """Return grams of hardener for each gram of resin, whichever way the table gives it."""
    if ratio.by_mass:
        return mix.by_mass(*ratio.by_mass)
    if ratio.by_volume:
        return mix.by_volume(
            *ratio.by_volume,
            resin_g_per_cm3=density.resin_g_per_cm3,
            hardener_g_per_cm3=density.hardener_g_per_cm3 or math.nan,
        )
    return mix.by_equivalents(eew_g_per_eq=ratio.resin_g_per_eq, ahew_g_per_eq=ratio.hardener_g_per_eq)


def _equivalent(weight: float | None, blend: Blend | None) -> float:
    if blend is not None:
        return mix.blend_equivalent_g_per_eq((mass, one or None) for mass, one in blend)
    return math.nan if weight is None else weight
