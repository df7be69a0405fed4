"""What happens to a mix, from going to the cup until the glue-up is closed."""

from datetime import datetime
from typing import Literal

from pydantic import Field

from bench.book.events.base import Entry, Grams, Hands, Lot, Part, Seconds, Share, Step, Tesserae, WhyLeft


class MixOpened(Entry):
    """The maker went to the cup for a section, with the room's temperature asked again.

    adhesive_C: the bottles', where they were kept colder or warmer than the room; None: as the room.
    """

    kind: Literal["mix_opened"] = "mix_opened"
    mix: int = Field(ge=1)
    section: int
    temperature_C: float = Field(ge=-10, le=60)
    adhesive_C: float | None = Field(default=None, ge=-10, le=60)


class BottleTaken(Entry):
    """A part of this mix comes out of that bottle of the workshop; a later word replaces an earlier one.

    knowing: the maker was told that the bottle is past its date, and takes it all the same.
    """

    kind: Literal["bottle_taken"] = "bottle_taken"
    mix: int
    part: Part
    bottle: int = Field(ge=1)
    lot: Lot = ""
    knowing: bool = False


class CautionsAcknowledged(Entry):
    """The cautions for this mix were read before gloves went on; their wording is kept.

    burns: what the maker found on the hardener's label where its file lists no H314; None: not asked.
    """

    kind: Literal["cautions_acknowledged"] = "cautions_acknowledged"
    mix: int
    product_sha256: str
    shown: tuple[str, ...]
    burns: bool | None = None


class BatchPrescribed(Entry):
    """What the maker was told to weigh, and what it promised."""

    kind: Literal["batch_prescribed"] = "batch_prescribed"
    mix: int
    resin_g: Grams
    hardener_g: Grams
    total_g: Grams
    worst_ratio_error: float | None  # None: without bound on this scale
    scale_ok: bool
    working_time_s: Seconds
    in_time: Share
    label_s: Seconds | None = None  # by the label, where the book has shown another; None: the same


class ResinPoured(Entry):
    """The resin was weighed; the hardener follows it."""

    kind: Literal["resin_poured"] = "resin_poured"
    mix: int
    resin_g: Grams
    hardener_target_g: Grams


class HardenerPoured(Entry):
    """Both parts are in the cup, as the scale showed them; what is added later is told anew.

    working_time_s: where so much may be worked for less long than was promised, the time from first
    contact that counts from here on.
    """

    kind: Literal["hardener_poured"] = "hardener_poured"
    mix: int
    resin_g: Grams
    hardener_g: Grams
    ratio_error: float  # + too much hardener, a fraction of the ratio
    worst_ratio_error: float | None  # None: without bound on this scale
    at_s: Seconds
    working_time_s: Seconds | None = None


class MixPutAway(Entry):
    """The cup was left before resin met hardener; the section lies dry as before."""

    kind: Literal["mix_put_away"] = "mix_put_away"
    mix: int


class ContactMade(Entry):
    """Hardener met resin: the adhesive's clock runs. Back-dated by so many seconds when told late."""

    kind: Literal["contact_made"] = "contact_made"
    mix: int
    back_dated_s: Seconds = 0.0
    working_time_s: Seconds
    label_s: Seconds | None = None  # by the label, where the book has shown another; None: the same
    patches: int | None = Field(default=None, ge=1)  # it is set in; None: piece by piece


class ContactCorrected(Entry):
    """First contact was earlier than told, by so many seconds."""

    kind: Literal["contact_corrected"] = "contact_corrected"
    mix: int
    earlier_by_s: Seconds


class StepBegun(Entry):
    """The maker said that a step of the glue-up began."""

    kind: Literal["step_begun"] = "step_begun"
    mix: int
    step: Step
    at_s: Seconds


class PiecesCounted(Entry):
    """So many pieces of the section were down at that time; patches, where it is set in patches."""

    kind: Literal["pieces_counted"] = "pieces_counted"
    mix: int
    placed: int = Field(ge=0)
    at_s: Seconds


class MixPaused(Entry):
    """The hands stopped; the adhesive did not."""

    kind: Literal["mix_paused"] = "mix_paused"
    mix: int
    at_s: Seconds


class MixResumed(Entry):
    """The hands went on."""

    kind: Literal["mix_resumed"] = "mix_resumed"
    mix: int
    at_s: Seconds


class WentStringy(Entry):
    """The adhesive started to go."""

    kind: Literal["went_stringy"] = "went_stringy"
    mix: int
    at_s: Seconds


class MixClosed(Entry):
    """The glue-up ended. Holds all that the hands and the adhesive's life are learned from."""

    kind: Literal["mix_closed"] = "mix_closed"
    mix: int
    section: int
    contact_utc: datetime
    placed: int = Field(ge=0)
    left: Tesserae = ()
    left_assumed: bool = False  # only a number was known: the open edge is assumed
    why_left: WhyLeft | None = None
    small: int = Field(default=0, ge=0)
    medium: int = Field(default=0, ge=0)
    large: int = Field(default=0, ge=0)
    setting_s: Seconds
    steps_assumed: bool = False  # the maker told no steps: stirring, spreading and cleaning as usual
    paused_s: Seconds = 0.0
    finished_after_s: Seconds
    stringy_after_s: Seconds | None = None
    temperature_C: float
    label_s: Seconds
    adhesive: str
    firm_s: Seconds
    grout_s: Seconds
    in_time: bool
    hands: Hands = 1
    patches: int | None = Field(default=None, ge=0)  # set; None: piece by piece
    bed_mm2: float | None = Field(default=None, ge=0)  # of what was set; None: written before it was kept
    unsure: bool = False  # the clock changed during the glue-up: kept, not learned from


class CupWent(Entry):
    """The left-over in the cup was found to have gone, afterwards."""

    kind: Literal["cup_went"] = "cup_went"
    mix: int
    at_s: Seconds


class LifeAllowed(Entry):
    """The maker lets an adhesive last as long as the book has shown, or holds it to the label again.

    The last word on an adhesive counts, for all panels. ratio: of the median life to the label's, as it was
    shown. exact: mixes that it rested on, seen to go stringy.
    """

    kind: Literal["life_allowed"] = "life_allowed"
    adhesive: str
    longer: bool
    ratio: float = Field(gt=0, allow_inf_nan=False)
    exact: int = Field(ge=0)


class CupWeighed(Entry):
    """Cup and stick were weighed after the glue-up, with what stayed on them; a later word replaces it.

    Holds all that the bed's coverage is learned from. reckoned_g_per_cm2: what the settings, as they stand
    when it is weighed, reckon for a bed, without waste. cup: scraped clean and it sufficed, some was left
    over, or it ran short.
    """

    kind: Literal["cup_weighed"] = "cup_weighed"
    mix: int
    gross_g: Grams
    tare_g: Grams
    mixed_g: Grams
    bed_mm2: float = Field(gt=0)
    reckoned_g_per_cm2: float = Field(gt=0)
    bed: Literal["spread", "buttered"]
    adhesive: str
    cup: Literal["scraped", "over", "short"]
