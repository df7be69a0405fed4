"""A trial lay of a draft's areas: laid anew only where something changed, and the panel that it makes.

It is a count and a picture, not an order: the maker lays what the eye wants, and the dry count corrects it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from bench.drawing.lay import Lay, LayHow, LayStopped, laid, panel_of_lay
from bench.drawing.panel import Panel
from bench.drawing.photo import Picture
from bench.drawing.study import Study

JOINTS_MM = (0.0, 0.3, 0.5, 0.8, 1.0, 1.2, 1.5, 2.0, 2.5, 3.0)


@dataclass(frozen=True, eq=False)
class Trial:
    """study, how: what was laid, and how. bare: the lay before the first stroke. panel: what it makes."""

    study: Study
    how: LayHow
    bare: Lay
    lay: Lay
    panel: Panel

    def counts(self) -> list[tuple[str, int]]:
        """Return how many pieces each area has, by its name, the most first."""
        found = np.bincount(self.panel.group[self.panel.group >= 0], minlength=len(self.panel.group_names))
        named = zip(self.panel.group_names, found.tolist(), strict=True)
        return sorted(named, key=lambda one: (-one[1], one[0]))


def trial(
    study: Study,
    how: LayHow,
    paint: Picture | None,
    before: Trial | None = None,
    progress: Callable[[float], bool] | None = None,
) -> Trial | None:
    """Return the lay of a study; None where progress said to stop.

    before: the last one: what is the same in it is not laid again. Raises what lay and relaid raise, and
    NoTesserae.
    """
    if before is not None and (before.study is not study or _ground(before.how) != _ground(how)):
        before = None
    if before is not None and before.how == how:
        return before
    try:
        bare = before.bare if before is not None else laid(study, _ground(how), progress)
        done = before.how.brushes if before is not None else ()
        known = len(done) if how.brushes[: len(done)] == done else 0
        found = before.lay if before is not None and known else bare
        for k in range(known, len(how.brushes)):
            some = how.model_copy(update={"brushes": how.brushes[: k + 1]})
            found = laid(study, some, progress, last=found)
    except LayStopped:
        return None
    return Trial(study, how, bare, found, panel_of_lay(found, paint))


def stepped_joint(joint_mm: float, by: int) -> float:
    """Return the next wider joint, or the next narrower one; the last of them stays."""
    other = [mm for mm in JOINTS_MM if (mm > joint_mm if by > 0 else mm < joint_mm)]
    return joint_mm if not other else other[0] if by > 0 else other[-1]


def _ground(how: LayHow) -> LayHow:
    return how.model_copy(update={"brushes": ()})
