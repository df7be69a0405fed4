"""A label while it is read out, field by field: what is known so far, what is wrong with it, and its file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Literal, Self

from pydantic import BaseModel, ConfigDict, ValidationError

from bench.adhesive.faults import AdhesiveFileFault, FieldMissing
from bench.adhesive.product import Product
from bench.adhesive.product_file import lists_as_tuples, parse_product, tables_toml
from bench.adhesive.product_words import faults_of

Way = Literal["", "by_mass", "by_volume", "equivalents"]
Value = str | bool | float | int | tuple[Any, ...]

# The ways to give one ratio; another way takes the place of what was given before.
RATIO_FIELDS = (
    "ratio.by_mass",
    "ratio.by_volume",
    "ratio.eew_g_per_eq",
    "ratio.ahew_g_per_eq",
    "ratio.eew_blend",
    "ratio.ahew_blend",
)
_WAYS: dict[str, Way] = {
    "ratio.by_mass": "by_mass",
    "ratio.by_volume": "by_volume",
    "ratio.eew_g_per_eq": "equivalents",
    "ratio.ahew_g_per_eq": "equivalents",
    "ratio.eew_blend": "equivalents",
    "ratio.ahew_blend": "equivalents",
}
_OF_HARDENER = ("density.hardener_g_per_cm3", "hazard.hardener.statements")
_ONLY_TWO_PART = (*RATIO_FIELDS, "ratio.tolerance", *_OF_HARDENER)


class Label(BaseModel):
    """Answers by the dotted names of the file's fields.

    silent: fields that the label does not state. way: how it gives the ratio, "" while that is not known.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")

    answers: dict[str, Any] = {}
    silent: tuple[str, ...] = ()
    way: Way = ""

    @classmethod
    def of(cls, product: Product) -> Self:
        """Return the label of a product, to be changed; it is no longer a typical one."""
        flat = dict(_flat(product.model_dump(exclude_none=True)))
        answers = {key: value for key, value in flat.items() if key != "typical" and value != ()}
        return cls(answers=answers, silent=_silent(flat), way=_way(answers))

    @classmethod
    def from_json(cls, text: str | None) -> Self:
        """Return what was kept; an empty label where nothing was, or what was kept cannot be read."""
        try:
            kept = cls.model_validate_json(text or "{}")
        except ValidationError:
            return cls()
        return kept.model_copy(update={"answers": lists_as_tuples(kept.answers)})

    def to_json(self) -> str:
        return self.model_dump_json()

    def get(self, field: str) -> Any:
        """Return an answer, None where there is none."""
        return self.answers.get(field)

    def knows(self, field: str) -> bool:
        """Tell whether a field was answered, be it that the label is silent."""
        return field in self.answers or field in self.silent

    def by(self, way: Way) -> Self:
        """Return the label with its ratio given in one way; what was given in another is dropped."""
        fields = [field for field in RATIO_FIELDS if _WAYS[field] != way]
        answers = {key: value for key, value in self.answers.items() if key not in fields}
        return self.model_copy(update={"answers": answers, "way": way})

    def told(self, field: str, value: Value | None) -> Self:
        """Return the label with an answer; None: the label does not state it.

        A ratio takes the place of one given in another way; an adhesive that is ready has no hardener.
        """
        answers = {k: v for k, v in self.answers.items() if k != field and not _gives_way(k, field)}
        silent = tuple(k for k in self.silent if k != field)
        if value is None:
            silent = (*silent, field)
        else:
            answers[field] = value
        if answers.get("kind") == "ready":
            answers = {k: v for k, v in answers.items() if k not in _ONLY_TWO_PART}
        way = _way(answers) or (self.way if answers.get("kind") != "ready" else "")
        return self.model_copy(update={"answers": answers, "silent": silent, "way": way})

    def tables(self) -> dict[str, Any]:
        """Return the answers as the nested tables of the file."""
        nested: dict[str, Any] = {}
        for field, value in self.answers.items():
            *path, key = field.split(".")
            table = nested
            for name in path:
                table = table.setdefault(name, {})
            table[key] = value
        if "hazard" in nested:  # a part without a statement is told as such, not left out
            for part in ("resin", "hardener") if self.get("kind") != "ready" else ("resin",):
                if f"hazard.{part}.statements" in self.silent:
                    nested["hazard"].setdefault(part, {"statements": ()})
        return nested

    def toml(self) -> str:
        """Return the file as far as it goes."""
        return tables_toml(self.tables())

    def product(self, where: str) -> Product:
        """Return the product, by way of its file. Raises the AdhesiveFileFault that the file would."""
        return parse_product(self.toml().encode(), where)

    def fault_at(self, fields: Iterable[str], where: str) -> AdhesiveFileFault | None:
        """Return what is wrong with these fields as the file would tell it, whatever else is missing."""
        try:
            Product.model_validate(lists_as_tuples(self.tables()))
        except ValidationError as error:
            wanted = tuple(fields)
            for fault in faults_of(error, where):
                if not isinstance(fault, FieldMissing) and fault.field in wanted:
                    return fault
        return None


def _way(answers: Mapping[str, Any]) -> Way:
    return next((_WAYS[field] for field in RATIO_FIELDS if field in answers), "")


def _gives_way(known: str, told: str) -> bool:
    """Tell whether an answer is another way to give what is told now."""
    if known not in RATIO_FIELDS or told not in RATIO_FIELDS:
        return False
    part = {"eew_g_per_eq": "resin", "eew_blend": "resin"}
    part |= {"ahew_g_per_eq": "hardener", "ahew_blend": "hardener"}
    of = [part.get(field.removeprefix("ratio.")) for field in (known, told)]
    return None in of or of[0] == of[1]


def _flat(tables: Mapping[str, Any], above: str = "") -> Iterable[tuple[str, Any]]:
    for key, value in tables.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{above}{key}.")
        else:
            yield f"{above}{key}", value


def _silent(flat: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the fields that a file may leave out and this one does, or states to be empty."""
    optional = (
        "form",
        "shelf_life_months",
        "working_time.method",
        "working_time.film_open_minutes",
        "working_time.activation_kJ_per_mol",
        "working_time.range_C",
        "service.range_C",
        "hazard.resin.statements",
        "hazard.hardener.statements",
    )
    return tuple(field for field in optional if not flat.get(field))
