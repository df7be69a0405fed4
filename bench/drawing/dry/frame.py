"""The rectangle of the panel that a photo shows between its four corners."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from pydantic import BaseModel, ConfigDict, Field

from bench.drawing.panel import FloatArray, Panel


class Frame(BaseModel):
    """A rectangle on the panel. mirrored: the pieces lie on a mirrored cartoon, as seen from behind."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    x_mm: float
    y_mm: float
    width_mm: float = Field(gt=0)
    height_mm: float = Field(gt=0)
    mirrored: bool = False

    def on_panel(self, points_mm: FloatArray) -> FloatArray:
        """Return where places of the squared-up photo, (n, 2), lie on the panel."""
        x = self.width_mm - points_mm[:, 0] if self.mirrored else points_mm[:, 0]
        return np.stack([x + self.x_mm, points_mm[:, 1] + self.y_mm], axis=1)

    def in_photo(self, points_mm: FloatArray) -> FloatArray:
        """Return where places of the panel, (n, 2), lie in the squared-up photo."""
        x = points_mm[:, 0] - self.x_mm
        x = self.width_mm - x if self.mirrored else x
        return np.stack([x, points_mm[:, 1] - self.y_mm], axis=1)


def frame_around(
    panel: Panel, tesserae: Sequence[int], margin_mm: float | None, *, mirrored: bool = False
) -> Frame:
    """Return the rectangle around some tesserae and a margin, cut off at the panel's edge.

    margin_mm: None goes to the panel's edge on all sides.
    """
    if margin_mm is None:
        return Frame(x_mm=0, y_mm=0, width_mm=panel.width_mm, height_mm=panel.height_mm, mirrored=mirrored)
    points = np.concatenate([ring for k in tesserae for ring in panel.rings_mm(k)])
    low = np.maximum(points.min(axis=0) - margin_mm, 0.0)
    high = np.minimum(points.max(axis=0) + margin_mm, (panel.width_mm, panel.height_mm))
    width, height = np.round(high - low, 1).tolist()
    return Frame(x_mm=float(low[0]), y_mm=float(low[1]), width_mm=width, height_mm=height, mirrored=mirrored)
