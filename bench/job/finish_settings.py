"""How this panel is grouted: drying times, pace, pot life and water, as the maker set them."""

from __future__ import annotations

from dataclasses import asdict, fields
from typing import Any

from pydantic import BaseModel, ConfigDict, ValidationError

from bench.finish.batches import AREA_PACE_CM2_MIN, MOST_WATER_SHARE, POT_LIFE_MIN, GroutPace
from bench.finish.drying import DryingTimes
from bench.finish.grout import WATER_SHARE
from bench.job import settings
from bench.job.faults import FigureOutOfRange
from bench.job.job import Job

_USUAL = DryingTimes()


class Grouting(BaseModel):
    """All that can be set of grouting. Hours, each from the act before: see `DryingTimes`.

    scratches: the glass takes scratches from sand, whatever its kind.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")
    beside_h: float = _USUAL.beside_h
    tint_h: float = _USUAL.tint_h
    seal_h: float = _USUAL.seal_h
    ink_h: float = _USUAL.ink_h
    outdoors_h: float = _USUAL.outdoors_h
    area_cm2_min: float = AREA_PACE_CM2_MIN
    pot_life_min: float = POT_LIFE_MIN
    water_share: float = WATER_SHARE
    scratches: bool = False

    @property
    def drying(self) -> DryingTimes:
        return DryingTimes(**{f.name: getattr(self, f.name) for f in fields(DryingTimes)})

    @property
    def pace(self) -> GroutPace:
        return GroutPace(self.area_cm2_min, self.pot_life_min)


def grouting(job: Job) -> Grouting:
    """Return what was set for this panel; what cannot be read any more is as usual."""
    kept = job.store.setting(f"{settings.GROUTING}:{job.panel_id}")
    if kept is None:
        return Grouting()
    try:
        return checked(Grouting.model_validate_json(kept))
    except (ValidationError, ValueError):
        return Grouting()


def set_grouting(job: Job, **changes: Any) -> None:
    """Set some of it for this panel. Raises AmountOutOfRange or FigureOutOfRange; nothing is kept then."""
    changed = Grouting(**{**grouting(job).model_dump(), **changes})
    checked(changed)
    job.store.set_setting(f"{settings.GROUTING}:{job.panel_id}", changed.model_dump_json())


def checked(given: Grouting) -> Grouting:
    """Return what was given, or raise the fault that is in it."""
    asdict(given.drying)
    asdict(given.pace)
    if not 0 < given.water_share <= MOST_WATER_SHARE:
        raise FigureOutOfRange(given.water_share, 0.0, MOST_WATER_SHARE)
    return given
