"""A colour study as regions: where each one lies on the panel, and how it is to be laid, in which glass."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Literal

import numpy as np
from numpy.typing import NDArray
from pydantic import BaseModel, ConfigDict, Field, model_validator

Byte = Annotated[int, Field(ge=0, le=255)]
Colour = tuple[Byte, Byte, Byte]


class _Frozen(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Glass(_Frozen):
    """One glass of a mix: its colour in sRGB, and the share of the region's pieces cut from it."""

    name: str = Field(min_length=1, max_length=80)
    colour: Colour
    share: float = Field(gt=0, le=1)
    finish: Literal["opaque", "clear", "iridised"] = "opaque"
    side: Literal["smooth", "textured"] = "smooth"


class Flow(_Frozen):
    """How rows run: along the region's own contour, straight at an angle, or loose (no rows at all).

    angle_deg counts from the x axis towards y, i.e. clockwise on the panel; only straight rows use it.
    """

    kind: Literal["contour", "straight", "loose"] = "contour"
    angle_deg: float = Field(default=0.0, ge=-180, le=180)


class Region(_Frozen):
    """A patch of the study laid in one way: piece size, flow, and a mix of glass whose shares sum to 1.

    piece_mm: edge of a piece across its row. aspect: its edge along the row ÷ across.
    """

    name: str = Field(min_length=1, max_length=80)
    piece_mm: float = Field(default=6.0, gt=0)
    aspect: float = Field(default=1.0, ge=0.4, le=2.5)
    flow: Flow = Flow()
    mix: tuple[Glass, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _whole(self) -> Region:
        total = sum(glass.share for glass in self.mix)
        if abs(total - 1) > 1e-6:
            raise ValueError(f"the shares of the mix sum to {total:g}, not to 1")
        return self


@dataclass(frozen=True, eq=False)
class Study:
    """Regions on a grid of pixels, as near to square as the size allows. Origin top left, x right, y down.

    labels: (rows, columns) 0 where nothing is laid (beyond the outline, a hole), k where regions[k - 1]
    lies. size_mm: width and height of the page. board: (rows, columns) index into board_names, None for one
    board; a seam between two boards is a border like a contour.
    """

    labels: NDArray[np.int32]
    size_mm: tuple[float, float]
    regions: tuple[Region, ...]
    board: NDArray[np.int32] | None = None
    board_names: tuple[str, ...] = ()
    name: str = ""

    @property
    def mm_per_px(self) -> float:
        return edge_mm(self.size_mm, self.labels.shape)

    def area_mm2(self) -> NDArray[np.float64]:
        """Return the area of each region, (regions,); 0 for one that lies nowhere. [mm²]"""
        count = np.bincount(self.labels.ravel(), minlength=len(self.regions) + 1)
        return count[1:].astype(np.float64) * self.mm_per_px**2


def edge_mm(size_mm: tuple[float, float], shape: tuple[int, ...]) -> float:
    """Return the edge of a square as large as a pixel of a grid (rows, columns) over a page. [mm]"""
    return math.sqrt(size_mm[0] * size_mm[1] / (shape[0] * shape[1]))


def pixel_mm(size_mm: tuple[float, float], shape: tuple[int, ...]) -> NDArray[np.float64]:
    """Return width and height of a pixel of a grid (rows, columns) over a page, (2,). [mm]"""
    return np.array([size_mm[0] / shape[1], size_mm[1] / shape[0]])
