"""What every entry of the book is made of.

The modules of events evaluate their annotations as they are imported (no `from __future__`): pydantic would
read each out of its text, a quarter of what fifty models cost a start.
"""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Tesserae = tuple[int, ...]
Index = Annotated[int, Field(ge=0)]
Run = tuple[Index, Index, Annotated[int, Field(ge=1)]]
Seconds = Annotated[float, Field(ge=0, allow_inf_nan=False)]
Grams = Annotated[float, Field(ge=0, allow_inf_nan=False)]
Share = Annotated[float, Field(ge=0, le=1)]
Hands = Annotated[int, Field(ge=1, le=4)]  # pairs of hands at one mix
WhyLeft = Literal["stringy", "did not fit", "dropped", "changed my mind", "called away"]
Step = Literal["stir", "spread", "set", "clean"]
Part = Literal["resin", "hardener", "adhesive"]  # adhesive: of one that is ready, its only part
Lot = Annotated[str, Field(max_length=40)]  # as it stands on the bottle; "" where none does


class Entry(BaseModel):
    """Base of all events: frozen, and nothing unknown in it.

    An event that changes overrides `version` with the next number, as default and as both bounds, and
    gives `upcast.UPCASTS` the step that leads to it. Pydantic builds the check of a kind when the first of it
    is met: a start meets few of the fifty.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    version: int = Field(default=1, ge=1, le=1)
