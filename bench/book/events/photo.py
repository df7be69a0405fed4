"""What a photo of a dry lay told, and what its maker said of it."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from bench.book.events.base import Entry

Place = tuple[
    Annotated[float, Field(allow_inf_nan=False)], Annotated[float, Field(allow_inf_nan=False)]
]  # x, y
Length = Annotated[float, Field(gt=0, allow_inf_nan=False)]


class PhotoCorrection(BaseModel):
    """One word on the pieces that were found, in mm from the top left of the photo's rectangle."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    kind: Literal["added", "taken_away", "parted", "made_one"]
    points_mm: tuple[Place, ...] = Field(min_length=1, max_length=5000)


class PhotoFrame(BaseModel):
    """The rectangle of the panel that the photo shows between its corners."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    x_mm: Annotated[float, Field(allow_inf_nan=False)]
    y_mm: Annotated[float, Field(allow_inf_nan=False)]
    width_mm: Length
    height_mm: Length
    mirrored: bool = False


class EdgeTraced(Entry):
    """The edge of what is set was traced on a photo; it takes the place of one that was traced before.

    photo, corner_px and frame as of a dry lay. lines_mm: along the edge, in mm of the panel. found: they were
    found in the photo and no word changed them, else drawn by finger. sections: those that were set then.
    """

    kind: Literal["edge_traced"] = "edge_traced"
    photo: str = Field(min_length=64, max_length=64)
    corner_px: tuple[Place, Place, Place, Place]
    frame: PhotoFrame
    lines_mm: tuple[Annotated[tuple[Place, ...], Field(min_length=2, max_length=5000)], ...] = Field(
        min_length=1, max_length=500
    )
    found: bool = False
    sections: tuple[int, ...] = ()


class DryPhotographed(Entry):
    """A section was photographed as it lay dry, its pieces found in the photo and counted by its maker.

    photo: the hash of the picture, which the book keeps. corner_px: the corners of the rectangle in it, from
    top left clockwise. found: pieces proposed; said: pieces counted, once corrected.
    """

    kind: Literal["dry_photographed"] = "dry_photographed"
    section: int
    photo: str = Field(min_length=64, max_length=64)
    corner_px: tuple[Place, Place, Place, Place]
    frame: PhotoFrame
    corrections: tuple[PhotoCorrection, ...] = Field(default=(), max_length=5000)
    found: int = Field(ge=0)
    said: int = Field(ge=1)


class PhotoAttached(Entry):
    """A photo was attached to an entry of the panel's book.

    about: the entry, by its number. photo: the hash of the picture, which the book keeps.
    """

    kind: Literal["photo_attached"] = "photo_attached"
    about: int = Field(ge=1)
    photo: str = Field(min_length=64, max_length=64)
