"""How a line drawing is to be read, and what the maker mends on it by hand."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field


class LineHow(BaseModel):
    """How a picture of lines becomes pieces; every value has a default that suits a scan.

    gap_mm: breaks in a line up to this are closed. least_mm2: closed regions smaller than this are specks.
    tolerance_mm: how far an outline may lie off the edge of its line; None: a pixel, though at least
    0.05 mm and at most a third of a line's width.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    gap_mm: float = Field(default=1.5, ge=0, le=5)
    least_mm2: float = Field(default=1.0, ge=0, le=10_000)
    tolerance_mm: float | None = Field(default=None, gt=0, le=5)


class Stroke(BaseModel):
    """A line drawn by the maker over the picture. points_mm: at least one, from the picture's top left."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    points_mm: tuple[tuple[float, float], ...] = Field(min_length=1)
    width_mm: float = Field(default=0.8, gt=0, le=20)
