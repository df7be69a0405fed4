"""One glue-up as the book remembers it: what was set, in how long, and what the adhesive did."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime

from bench.fault import Fault
from bench.speech import say

LONGEST_S = 6 * 3600.0  # a glue-up of more hours was a clock left running, not work
MOST_PIECES = 100_000
MOST_HANDS = 4
MOST_AREA_MM2 = 1e8
TEMPERATURE_SPAN_C = (-20.0, 60.0)
CLASSES = ("small", "medium", "large")  # < 30, 30 to 90, > 90 mm²


class BadGlueUp(Fault):
    """Refuse a glue-up that cannot have happened; `field` names what is wrong with it."""

    def __init__(self, field: str, what: str, todo: str) -> None:
        super().__init__(what, where=field, todo=todo)
        self.field = field


@dataclass(frozen=True)
class GlueUp:
    """A glue-up of one section, from first contact until the joints are picked and the edge is scraped.

    small, medium, large: pieces set, by size class.
    seconds: what one pair of hands alone would have taken to set them, pauses left out. [s]
    paused_s: pauses; they count for the adhesive, not for the pace. [s]
    finished_after_s, stringy_after_s: from first contact, pauses in; None: it did not happen. [s]
    all_placed: no piece of the section was left over.
    closed: the maker said 'done'; if not, the pieces took longer than `seconds`, nobody knows how long.
    label_s: working time by the label at that temperature and mass; None: the one given when learning. [s]
    lot: of the adhesive, as it stands on its bottles; None: not known.
    patches, area_mm2: patches set and their bed, where it was set by the patch; 0: piece by piece. [mm²]
    hands: pairs of hands that set at once.
    learn_pace, learn_life: False keeps the glue-up without learning from it; with both, its times
        are not judged (a clock that jumped).
    """

    started_utc: datetime | None
    small: int
    medium: int
    large: int
    seconds: float
    paused_s: float
    temperature_C: float
    finished_after_s: float | None
    stringy_after_s: float | None
    all_placed: bool
    closed: bool = True
    label_s: float | None = None
    learn_pace: bool = True
    learn_life: bool = True
    lot: str | None = None
    patches: int = 0
    area_mm2: float = 0.0
    hands: int = 1

    def __post_init__(self) -> None:
        self._check_pieces()
        self._check_hands()
        if self.learn_pace or self.learn_life:
            self._check_times()
        low, high = TEMPERATURE_SPAN_C
        if not low <= self.temperature_C <= high:
            what = say("a room of {warmth:g} °C cannot be", warmth=self.temperature_C)
            raise BadGlueUp("temperature_C", what, say("give {low:g} to {high:g}", low=low, high=high))
        if self.started_utc is not None and self.started_utc.tzinfo is None:
            what = say("{time} has no time zone", time=self.started_utc.isoformat())
            raise BadGlueUp("started_utc", what, say("write it in UTC with a Z at the end"))

    @property
    def pieces(self) -> int:
        return self.small + self.medium + self.large

    @property
    def is_by_patch(self) -> bool:
        return self.patches > 0

    @property
    def teaches(self) -> bool:
        """Whether both pace and life are learned from it."""
        return self.learn_pace and self.learn_life

    @property
    def setting_s(self) -> float:
        """How long all hands together took to set, pauses left out. [s]"""
        return self.seconds / self.hands

    @property
    def clock_s(self) -> float:
        """Shortest time from first contact that the record proves. [s]"""
        return max(self.setting_s + self.paused_s, self.finished_after_s or 0.0)

    def _check_pieces(self) -> None:
        for name in CLASSES:
            count = getattr(self, name)
            if not 0 <= count <= MOST_PIECES:
                what = say("{count} pieces in one glue-up cannot be", count=count)
                raise BadGlueUp(name, what, say("give 0 to {most} whole pieces", most=MOST_PIECES))
        self._check_patches()
        if self.pieces == 0 and not self.is_by_patch and self.learn_pace:
            what = say("a glue-up of 0 pieces tells no pace")
            raise BadGlueUp(", ".join(CLASSES), what, say("count the pieces set, or leave it out"))

    def _check_patches(self) -> None:
        if not 0 <= self.patches <= MOST_PIECES:
            what = say("{count} patches in one glue-up cannot be", count=self.patches)
            raise BadGlueUp("patches", what, say("give 0 to {most} whole patches", most=MOST_PIECES))
        if not (math.isfinite(self.area_mm2) and 0 <= self.area_mm2 <= MOST_AREA_MM2):
            what = say("a bed of {area_cm2:g} cm² in one glue-up cannot be", area_cm2=self.area_mm2 / 100)
            raise BadGlueUp("area_cm2", what, say("give 0 to {most:.0f} cm²", most=MOST_AREA_MM2 / 100))
        if self.is_by_patch and self.area_mm2 == 0:
            what = say("{count} patches without a bed cannot be", count=self.patches)
            raise BadGlueUp("area_cm2", what, say("give the cm² that the patches cover"))

    def _check_hands(self) -> None:
        if not 1 <= self.hands <= MOST_HANDS:
            what = say("{count} pairs of hands cannot be", count=self.hands)
            raise BadGlueUp("hands", what, say("give 1 to {most} pairs", most=MOST_HANDS))

    def _check_times(self) -> None:
        if self.learn_pace and not self.seconds > 0:
            what = say("a glue-up of {seconds:g} s of setting cannot be", seconds=self.seconds)
            raise BadGlueUp("seconds", what, say("give the seconds of setting, pauses left out"))
        for name in ("seconds", "paused_s", "finished_after_s", "stringy_after_s", "label_s"):
            value = self.setting_s if name == "seconds" else getattr(self, name)
            if value is not None and not (math.isfinite(value) and value >= 0):
                what = say("{seconds:g} s cannot be", seconds=value)
                raise BadGlueUp(name, what, say("give seconds from 0 up"))
            if name != "label_s" and value is not None and value > LONGEST_S:
                what = say("{hours:.3g} h is longer than any glue-up", hours=value / 3600)
                todo = say("give at most {most:.0f} s, or leave the glue-up out", most=LONGEST_S)
                raise BadGlueUp(name, what, todo)
        if self.label_s == 0:
            what = say("a working time of 0 s cannot be")
            raise BadGlueUp("label_s", what, say("give the label's working time"))
        if self.stringy_after_s == 0:
            what = say("stringy at first contact cannot be")
            raise BadGlueUp(
                "stringy_after_s", what, say("give seconds from first contact, or leave it empty")
            )
        # A second of rounding in each of the two parts is no contradiction.
        if self.finished_after_s is not None and self.finished_after_s < self.setting_s + self.paused_s - 2:
            what = say(
                "finished {finished:g} s after first contact, but setting and pauses alone took {alone:g} s",
                finished=self.finished_after_s,
                alone=self.setting_s + self.paused_s,
            )
            raise BadGlueUp("finished_after_s", what, say("count it from first contact, pauses in"))
