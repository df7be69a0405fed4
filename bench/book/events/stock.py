"""What happens to the bottles of the workshop: they belong to no panel, and their book is one of its own."""

from datetime import date
from typing import Literal

from pydantic import Field

from bench.book.events.base import Entry, Grams, Lot, Part


class BottleOpened(Entry):
    """A bottle, tube or tin was opened: what is in it, by its label.

    product: the name on the label, as the adhesive's file has it. net_g: what is in it when it is told of.
    bought, made, best_before: None where nobody knows, or nothing is printed.
    """

    kind: Literal["bottle_opened"] = "bottle_opened"
    bottle: int = Field(ge=1)
    product: str = Field(min_length=1, max_length=80)
    part: Part
    lot: Lot = ""
    net_g: Grams
    opened: date
    bought: date | None = None
    made: date | None = None
    best_before: date | None = None
    shelf_life_months: int | None = Field(default=None, ge=1, le=240)


class BottleWeighed(Entry):
    """A bottle was weighed: so much is left in it, whatever was reckoned."""

    kind: Literal["bottle_weighed"] = "bottle_weighed"
    bottle: int = Field(ge=1)
    left_g: Grams


class BottleEmptied(Entry):
    """A bottle is empty, or was put out of use with what was left in it."""

    kind: Literal["bottle_emptied"] = "bottle_emptied"
    bottle: int = Field(ge=1)


class BottleBought(Entry):
    """An unopened bottle, tube or tin stands ready: what is in it, by its label.

    bought, made, best_before: None where nobody knows, or nothing is printed. It is opened by a
    BottleUnsealed of the same number.
    """

    kind: Literal["bottle_bought"] = "bottle_bought"
    bottle: int = Field(ge=1)
    product: str = Field(min_length=1, max_length=80)
    part: Part
    lot: Lot = ""
    net_g: Grams
    bought: date | None = None
    made: date | None = None
    best_before: date | None = None
    shelf_life_months: int | None = Field(default=None, ge=1, le=240)


class BottleUnsealed(Entry):
    """A bottle that stood ready was opened, and is in use from that day on."""

    kind: Literal["bottle_unsealed"] = "bottle_unsealed"
    bottle: int = Field(ge=1)
    opened: date
