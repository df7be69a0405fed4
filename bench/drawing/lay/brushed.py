"""How a study is laid, with every stroke of a finger since: kept, it lays the same again."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field

from bench.drawing.lay.brush import along, relaid
from bench.drawing.lay.laid import Lay, Progress, lay
from bench.drawing.study.model import Flow, Region, Study

Point = tuple[float, float]


class _Said(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Brush(_Said):
    """A stroke over pieces, and how they are laid instead.

    larger: factor of the piece's edge. follow: rows run along the stroke. flow: rows run so; `follow` wins.
    """

    stroke_mm: tuple[Point, ...] = Field(min_length=1, max_length=5000)
    radius_mm: float = Field(gt=0)
    larger: float = Field(default=1.0, ge=0.2, le=5.0)
    flow: Flow | None = None
    follow: bool = False

    def changed(self, region: Region) -> Region:
        """Return how a region's pieces are laid under the stroke."""
        flow = along(self.stroke_mm) if self.follow else self.flow or region.flow
        return region.model_copy(update={"piece_mm": region.piece_mm * self.larger, "flow": flow})


class LayHow(_Said):
    joint_mm: float = Field(default=0.8, ge=0)
    seed: int = Field(default=0, ge=0)
    brushes: tuple[Brush, ...] = ()

    def brushed(self, brush: Brush) -> LayHow:
        """Return this and one stroke more."""
        return self.model_copy(update={"brushes": (*self.brushes, brush)})

    def taken_back(self) -> LayHow:
        """Return this without the last stroke."""
        return self.model_copy(update={"brushes": self.brushes[:-1]})


def laid(study: Study, how: LayHow, progress: Progress | None = None, last: Lay | None = None) -> Lay:
    """Return the study laid so, stroke by stroke. Raises what lay and relaid raise.

    last: what all but the last stroke made, where that is at hand; then only the last one is laid.
    """
    if last is not None and how.brushes:
        return _stroked(last, how, len(how.brushes) - 1, progress)
    found = lay(study, joint_mm=how.joint_mm, seed=how.seed, progress=progress)
    for turn in range(len(how.brushes)):
        found = _stroked(found, how, turn, progress)
    return found


def _stroked(found: Lay, how: LayHow, turn: int, progress: Progress | None) -> Lay:
    brush = how.brushes[turn]
    return relaid(found, brush.stroke_mm, brush.radius_mm, brush.changed, seed=turn + 1, progress=progress)
