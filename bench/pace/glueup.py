"""One glue-up as the book remembers it: what was set, in how long, and what the adhesive did."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime

from bench.fault import Fault

LONGEST_S = 6 * 3600.0  # a glue-up of more hours was a clock left running, not work
MOST_PIECES = 100_000
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
    seconds: setting alone, pauses left out. [s]
    paused_s: pauses; they count for the adhesive, not for the pace. [s]
    finished_after_s, stringy_after_s: from first contact, pauses in; None: it did not happen. [s]
    all_placed: no piece of the section was left over.
    closed: the maker said 'done'; if not, the pieces took longer than `seconds`, nobody knows how long.
    label_s: working time by the label at that temperature and mass; None: the one given when learning. [s]
    lot: of the adhesive, as it stands on its bottles; None: not known.
    patches, area_mm2: patches set and their bed, where it was set by the patch; 0: piece by piece. [mm²]
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

    def __post_init__(self) -> None:
        self._check_pieces()
        if self.learn_pace or self.learn_life:
            self._check_times()
        low, high = TEMPERATURE_SPAN_C
        if not low <= self.temperature_C <= high:
            what = f"a room of {self.temperature_C:g} °C cannot be"
            raise BadGlueUp("temperature_C", what, f"give {low:g} to {high:g}")
        if self.started_utc is not None and self.started_utc.tzinfo is None:
            what = f"{self.started_utc.isoformat()} has no time zone"
            raise BadGlueUp("started_utc", what, "write it in UTC with a Z at the end")

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
    def clock_s(self) -> float:
        """Shortest time from first contact that the record proves. [s]"""
        return max(self.seconds + self.paused_s, self.finished_after_s or 0.0)

    def _check_pieces(self) -> None:
        for name in CLASSES:
            count = getattr(self, name)
            if not 0 <= count <= MOST_PIECES:
                what = f"{count} pieces in one glue-up cannot be"
                raise BadGlueUp(name, what, f"give 0 to {MOST_PIECES} whole pieces")
        self._check_patches()
        if self.pieces == 0 and not self.is_by_patch and self.learn_pace:
            what = "a glue-up of 0 pieces tells no pace"
            raise BadGlueUp("small, medium, large", what, "count the pieces set, or leave it out")

    def _check_patches(self) -> None:
        if not 0 <= self.patches <= MOST_PIECES:
            what = f"{self.patches} patches in one glue-up cannot be"
            raise BadGlueUp("patches", what, f"give 0 to {MOST_PIECES} whole patches")
        if not (math.isfinite(self.area_mm2) and 0 <= self.area_mm2 <= MOST_AREA_MM2):
            what = f"a bed of {self.area_mm2 / 100:g} cm² in one glue-up cannot be"
            raise BadGlueUp("area_cm2", what, f"give 0 to {MOST_AREA_MM2 / 100:.0f} cm²")
        if self.is_by_patch and self.area_mm2 == 0:
            what = f"{self.patches} patches without a bed cannot be"
            raise BadGlueUp("area_cm2", what, "give the cm² that the patches cover")

    def _check_times(self) -> None:
        if self.learn_pace and not self.seconds > 0:
            what = f"a glue-up of {self.seconds:g} s of setting cannot be"
            raise BadGlueUp("seconds", what, "give the seconds of setting, pauses left out")
        for name in ("seconds", "paused_s", "finished_after_s", "stringy_after_s", "label_s"):
            value = getattr(self, name)
            if value is not None and not (math.isfinite(value) and value >= 0):
                raise BadGlueUp(name, f"{value:g} s cannot be", "give seconds from 0 up")
            if name != "label_s" and value is not None and value > LONGEST_S:
                what = f"{value / 3600:.3g} h is longer than any glue-up"
                raise BadGlueUp(name, what, f"give at most {LONGEST_S:.0f} s, or leave the glue-up out")
        if self.label_s == 0:
            raise BadGlueUp("label_s", "a working time of 0 s cannot be", "give the label's working time")
        if self.stringy_after_s == 0:
            what = "stringy at first contact cannot be"
            raise BadGlueUp("stringy_after_s", what, "give seconds from first contact, or leave it empty")
        # A second of rounding in each of the two parts is no contradiction.
        if self.finished_after_s is not None and self.finished_after_s < self.seconds + self.paused_s - 2:
            what = (
                f"finished {self.finished_after_s:g} s after first contact, but setting and pauses "
                f"alone took {self.seconds + self.paused_s:g} s"
            )
            raise BadGlueUp("finished_after_s", what, "count it from first contact, pauses in")
