"""Read a revised drawing onto the page of the panel that it is for."""

from __future__ import annotations

from bench.drawing.faults import PageDiffers
from bench.drawing.panel import Panel
from bench.drawing.svg import read_drawing
from bench.drawing.warn import no_page_size

SAME_PAGE_MM = 0.5  # a joint is wider
SAME_PROPORTION = 0.005


def read_onto(data: bytes, name: str, panel: Panel) -> tuple[Panel, bool]:
    """Return what the drawing shows at the panel's size, and whether it had to be brought to it.

    A page whose sides are the panel's to within half a millimetre is taken as it is. One of the same
    proportion, to within half a per cent, is read at the panel's size, as the panel's own drawing may have
    been. Raises PageDiffers for any other, and where the page is only drawn around its shapes and so cannot
    be scaled; and what read_drawing raises.
    """
    new = read_drawing(data, name)
    wanted = (panel.width_mm, panel.height_mm)
    size = (new.width_mm, new.height_mm)
    if max(abs(a - b) for a, b in zip(size, wanted, strict=True)) <= SAME_PAGE_MM:
        return new, False
    ratio = size[0] * wanted[1] / (size[1] * wanted[0])
    if abs(ratio - 1.0) > SAME_PROPORTION or no_page_size() in new.warnings:
        raise PageDiffers(name, size, wanted)
    return read_drawing(data, name, width_mm=wanted[0], height_mm=wanted[1]), True
