"""Where on the widget a millimetre of the panel lies."""

from __future__ import annotations

from dataclasses import dataclass, replace

MOST_PX_PER_MM = 60.0
_MARGIN = 0.96  # of the widget that a fitted rectangle may fill

Box = tuple[float, float, float, float]  # left, top, right, bottom in mm, y down


@dataclass(frozen=True)
class View:
    """A panel's picture in a widget of width × height pixels, the panel's (x, y) mm in its middle."""

    width_px: float
    height_px: float
    panel_width_mm: float
    panel_height_mm: float
    px_per_mm: float = 1.0
    x_mm: float = 0.0
    y_mm: float = 0.0

    def fitted(self, box: Box | None = None) -> View:
        """Return the view that shows a box, or the whole panel, as large as it goes."""
        left, top, right, bottom = box or (0.0, 0.0, self.panel_width_mm, self.panel_height_mm)
        wide, high = max(right - left, 1.0), max(bottom - top, 1.0)
        scale = _MARGIN * min(self.width_px / wide, self.height_px / high)
        return replace(
            self, px_per_mm=self._bounded(scale), x_mm=(left + right) / 2, y_mm=(top + bottom) / 2
        ).kept()

    def at_true_size(self, px_per_mm: float, box: Box) -> View:
        """Return the view with a box in its middle and a millimetre exactly so many pixels, unbounded."""
        left, top, right, bottom = box
        return replace(self, px_per_mm=px_per_mm, x_mm=(left + right) / 2, y_mm=(top + bottom) / 2).kept()

    def zoomed(self, factor: float, about_px: tuple[float, float] | None = None) -> View:
        """Return the view `factor` times as large, a place of the widget (its middle) staying put."""
        px = about_px or (self.width_px / 2, self.height_px / 2)
        fixed_mm = self.to_mm(*px)
        closer = replace(self, px_per_mm=self._bounded(self.px_per_mm * factor))
        now_mm = closer.to_mm(*px)
        return replace(
            closer, x_mm=self.x_mm + fixed_mm[0] - now_mm[0], y_mm=self.y_mm + fixed_mm[1] - now_mm[1]
        ).kept()

    def moved(self, dx_px: float, dy_px: float) -> View:
        """Return the view with the picture shifted by so many pixels, y up."""
        return replace(
            self, x_mm=self.x_mm - dx_px / self.px_per_mm, y_mm=self.y_mm + dy_px / self.px_per_mm
        ).kept()

    def kept(self) -> View:
        """Return the view with the middle of the widget over the panel, so that it is never lost."""
        return replace(
            self,
            x_mm=min(max(self.x_mm, 0.0), self.panel_width_mm),
            y_mm=min(max(self.y_mm, 0.0), self.panel_height_mm),
        )

    def to_px(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Return the place on the widget, y up, of a point of the panel, y down."""
        return (
            self.width_px / 2 + (x_mm - self.x_mm) * self.px_per_mm,
            self.height_px / 2 - (y_mm - self.y_mm) * self.px_per_mm,
        )

    def to_mm(self, x_px: float, y_px: float) -> tuple[float, float]:
        """Return the point of the panel under a place on the widget."""
        return (
            self.x_mm + (x_px - self.width_px / 2) / self.px_per_mm,
            self.y_mm - (y_px - self.height_px / 2) / self.px_per_mm,
        )

    def _bounded(self, scale: float) -> float:
        whole = min(self.width_px / self.panel_width_mm, self.height_px / self.panel_height_mm)
        return min(max(scale, 0.5 * whole), max(MOST_PX_PER_MM, whole))
