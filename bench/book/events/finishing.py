"""What happens to a panel once it is hard: zones, grout, ink, seal, and the wall it hangs on."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from bench.book.events.base import Entry, Grams, Index, Lot, Tesserae
from bench.book.events.photo import Place

Byte = Annotated[int, Field(ge=0, le=255)]
Rgb = tuple[Byte, Byte, Byte]
Span = tuple[Index, Annotated[int, Field(ge=1)]]
Name = Annotated[str, Field(min_length=1, max_length=60)]
ZoneNumber = Annotated[int, Field(ge=1)]


class ZoneDrawn(BaseModel):
    """One zone: its pieces as (first, how many) of the drawing's order; their joints go with them."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    number: ZoneNumber
    name: Name
    spans: tuple[Span, ...]

    @property
    def tesserae(self) -> Tesserae:
        return tuple(t for first, count in self.spans for t in range(first, first + count))


class ZonesDrawn(Entry):
    """Zones were drawn or changed, each given whole; gone: zones that are no more."""

    kind: Literal["zones_drawn"] = "zones_drawn"
    zones: tuple[ZoneDrawn, ...] = ()
    gone: tuple[int, ...] = ()


class ColourChosen(Entry):
    """A grout, or an ink over it, was chosen for a zone; an ink of no name takes the ink away again."""

    kind: Literal["colour_chosen"] = "colour_chosen"
    zone: ZoneNumber
    of: Literal["grout", "ink"]
    name: Annotated[str, Field(max_length=60)]
    colour: Rgb


class SunTold(Entry):
    """Where the panel will hang, as the sun sees it."""

    kind: Literal["sun_told"] = "sun_told"
    sun: Literal["direct", "indirect", "indoors"]


class ZoneMasked(Entry):
    """The ground beside a zone was taped and covered."""

    kind: Literal["zone_masked"] = "zone_masked"
    zone: ZoneNumber
    tape_mm: float = Field(ge=0, allow_inf_nan=False)


class SampleMeasured(Entry):
    """The colour of a grout was measured on a tile of the same glass; it takes the place of a guess.

    photo: the hash of the picture, which the book keeps. corner_px: of the tile in it, from top left
    clockwise. at_mm, card_mm: where joint and white card were tapped, on the tile squared up to size_mm.
    """

    kind: Literal["sample_measured"] = "sample_measured"
    grout: Name
    state: Literal["dry", "sealed"]
    colour: Rgb
    photo: str = Field(min_length=64, max_length=64)
    corner_px: tuple[Place, Place, Place, Place]
    size_mm: Place
    at_mm: Place
    card_mm: Place | None = None


class GroutCautionsRead(Entry):
    """The cautions of cement grout were shown before a mix, and read. shown: the words as they stood."""

    kind: Literal["grout_cautions_read"] = "grout_cautions_read"
    zone: ZoneNumber
    shown: tuple[str, ...]


class ZoneGrouted(Entry):
    """The joints of a zone were filled. lot: as it stands on the bag, "" where it does not."""

    kind: Literal["zone_grouted"] = "zone_grouted"
    zone: ZoneNumber
    name: Name
    colour: Rgb
    powder_g: Grams
    water_g: Grams
    lot: Lot = ""


class GroutTried(Entry):
    """The maker tried a grouted zone by hand and says that it is dry enough to tint, or to seal."""

    kind: Literal["grout_tried"] = "grout_tried"
    zone: ZoneNumber
    dry_to: Literal["tint", "seal"]


class InkTried(Entry):
    """An ink was tried on an offcut of the same grout."""

    kind: Literal["ink_tried"] = "ink_tried"
    name: Name
    grout: Name


class ZoneInked(Entry):
    """The joints of a zone were coloured with an ink."""

    kind: Literal["zone_inked"] = "zone_inked"
    zone: ZoneNumber
    name: Name
    colour: Rgb
    lot: Lot = ""


class PanelSealed(Entry):
    """The whole panel was sealed."""

    kind: Literal["panel_sealed"] = "panel_sealed"
    name: Annotated[str, Field(max_length=60)] = ""


class PanelHung(Entry):
    """The panel hangs where it will stay."""

    kind: Literal["panel_hung"] = "panel_hung"
    where: Literal["outdoors", "indoors"]
