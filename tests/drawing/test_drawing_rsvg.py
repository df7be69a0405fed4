"""What is written as SVG, shown by librsvg's own command (Debian: librsvg2-bin), at true size."""

import io
import shutil
import subprocess

import numpy as np
import pytest
from PIL import Image

from bench.drawing.svg import read_drawing
from bench.drawing.svg_out import write_svg
from bench.drawing.template import Told, sheets_of
from bench.drawing.template_out import write_sheet_svg
from tests.fakes.drawings import grid_svg

pytestmark = pytest.mark.skipif(shutil.which("rsvg-convert") is None, reason="librsvg2-bin is not installed")

DPI = 254
PX_PER_MM = DPI / 25.4


@pytest.fixture(scope="module")
def panel():
    return read_drawing(grid_svg(12, 6), "grid.svg")


def shown(svg: bytes) -> np.ndarray:
    """Return the picture that rsvg-convert makes, (rows, columns, 3)."""
    command = ["rsvg-convert", "--dpi-x", str(DPI), "--dpi-y", str(DPI), "--background-color", "white"]
    png = subprocess.run(command, input=svg, capture_output=True, check=True, timeout=60).stdout
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"), int)


def covered_mm2(picture: np.ndarray, colour) -> float:
    return (np.abs(picture - colour).max(axis=2) < 12).sum() / PX_PER_MM**2


def test_a_panel_has_its_true_size_and_every_colour_its_true_area(panel):
    picture = shown(write_svg(panel))
    size_px = np.array([panel.width_mm, panel.height_mm]) * PX_PER_MM
    assert picture.shape[1::-1] == pytest.approx(size_px, abs=1)
    for colour in np.unique(panel.colour, axis=0):
        own = (panel.colour == colour).all(axis=1)
        assert covered_mm2(picture, colour) == pytest.approx(panel.area_mm2[own].sum(), rel=0.06)


def test_each_section_has_its_number_on_a_plate(panel):
    label = (np.arange(panel.tessera_count) >= panel.tessera_count // 2).astype(np.int32)
    plain, numbered = shown(write_svg(panel)), shown(write_svg(panel, label, numbers=[7, 12]))
    differs = np.abs(plain - numbered).max(axis=2) > 100
    for k in (0, 1):
        low, high = (f(panel.centroid_mm[label == k], axis=0) * PX_PER_MM for f in (np.min, np.max))
        inside = differs[int(low[1]) : int(high[1]), int(low[0]) : int(high[0])]
        assert inside.sum() > 20


def test_the_bar_of_a_template_is_100_mm_long(panel):
    (sheet,) = sheets_of(panel, range(20), Told("some"), paper_mm=(297.0, 420.0))
    picture = shown(write_sheet_svg(sheet))
    assert picture.shape[1::-1] == pytest.approx(np.array(sheet.paper_mm) * PX_PER_MM, abs=1)
    (_, y), (end, _) = sheet.bar_mm
    row = picture[round(y * PX_PER_MM), : round((end + 1.5) * PX_PER_MM)].max(axis=1)
    dark = np.flatnonzero(row < 120)
    assert (dark[-1] - dark[0] + 1) / PX_PER_MM == pytest.approx(100.0, abs=0.3)
