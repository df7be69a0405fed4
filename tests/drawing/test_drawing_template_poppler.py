"""Templates as poppler draws them: the bar on either paper, overlaps, and the edge as it is set."""

import re
import shutil
import subprocess

import numpy as np
import pytest
from PIL import Image

from bench.drawing.svg import read_drawing
from bench.drawing.template import OVERLAP_MM, PAPERS_MM, Told, sheets_of
from bench.drawing.template_out import write_pdf, write_sheet_svg
from tests.fakes.drawings import grid_svg

DPI = 600
PX_PER_MM = DPI / 25.4

needs_poppler = pytest.mark.skipif(
    shutil.which("pdftoppm") is None, reason="poppler's pdftoppm is not installed"
)


@pytest.fixture(scope="module")
def panel():
    return read_drawing(grid_svg(48, 50), "grid.svg")  # 336 × 350 mm: four sheets


def drawn(data: bytes, folder, first: int = 1, last: int = 1) -> list[np.ndarray]:
    """Return pages as pdftoppm draws them at 600 dpi, grey."""
    (folder / "t.pdf").write_bytes(data)
    span = ["-f", str(first), "-l", str(last)]
    done = subprocess.run(
        ["pdftoppm", "-r", str(DPI), "-gray", *span, folder / "t.pdf", folder / "p"],
        capture_output=True,
        check=True,
    )
    assert done.stderr == b""
    return [np.asarray(Image.open(path)) for path in sorted(folder.glob("p*.pgm"))]


def bar_mm(page: np.ndarray, sheet) -> float:
    """Return the bar from the outer side of one end stroke to that of the other, less a stroke's width."""
    (_, y), (end, _) = sheet.bar_mm
    band = page[
        round((y - 1.3) * PX_PER_MM) : round((y - 0.6) * PX_PER_MM)
    ]  # only the end strokes reach here
    dark = np.flatnonzero((band < 128).all(axis=0)[: round((end + 1.5) * PX_PER_MM)])
    strokes = np.split(dark, np.flatnonzero(np.diff(dark) > 1) + 1)
    assert len(strokes) == 2
    return (strokes[1].mean() - strokes[0].mean()) / PX_PER_MM


@needs_poppler
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("whole", [False, True])
def test_the_bar_is_100_mm_long_to_a_fifth_on_either_paper(panel, tmp_path, paper, whole):
    some = range(panel.tessera_count) if whole else range(30)
    sheets = sheets_of(panel, some, Told("bar"), paper_mm=PAPERS_MM[paper])
    (page,) = drawn(write_pdf(sheets[:1]), tmp_path)
    assert page.shape[::-1] == pytest.approx(np.array(sheets[0].paper_mm) * PX_PER_MM, abs=1.5)
    assert sorted(sheets[0].paper_mm) == sorted(PAPERS_MM[paper])
    assert bar_mm(page, sheets[0]) == pytest.approx(100.0, abs=0.2)


def test_each_overlap_is_the_line_on_which_the_neighbour_ends(panel):
    """A place of the panel on a sheet's broken line is on the border of the sheet that the line names."""
    sheets = sheets_of(panel, range(panel.tessera_count), Told("all"))
    assert len(sheets) == 4
    for sheet in sheets:
        assert len(sheet.overlaps) == 2
        for overlap in sheet.overlaps:
            other = sheets[overlap.sheet - 1]
            ends = np.array(overlap.ends_mm) - shift(sheet)
            left, top, width, height = other.window_mm
            low = np.array([left, top]) - shift(other)
            middle = ends.mean(axis=0)
            off = np.abs(np.stack([middle - low, middle - low - (width, height)]))
            assert off.min() < 1e-6


def shift(sheet) -> np.ndarray:
    """Return where the panel's own corner lies on a sheet."""
    x, y, told = sheet.crosses[0]
    return np.array([x, y]) - [float(v) for v in told.split(", ")]


def test_mirrored_sheets_overlap_with_the_same_neighbours(panel):
    plain, back = (
        sheets_of(panel, range(panel.tessera_count), Told(""), mirrored=mirrored)
        for mirrored in (False, True)
    )
    assert [sorted(o.sheet for o in s.overlaps) for s in back] == [
        sorted(o.sheet for o in s.overlaps) for s in plain
    ]
    x = {round(end[0], 3) for o in back[0].overlaps for end in o.ends_mm}
    left, _, width, _ = back[0].window_mm
    assert round(left + width - OVERLAP_MM, 3) in x  # sheet 1 is the left one as the paper lies


@needs_poppler
def test_what_is_said_on_a_sheet_can_be_read(panel, tmp_path):
    sheets = sheets_of(panel, range(panel.tessera_count), Told("Łódź, all"))
    (tmp_path / "t.pdf").write_bytes(write_pdf(sheets))
    text = subprocess.run(
        ["pdftotext", tmp_path / "t.pdf", "-"], capture_output=True, text=True, check=True
    ).stdout
    assert re.findall(r"Łódź, all, sheet (\d) of 4", text) == ["1", "2", "3", "4"]
    assert text.count("ends here") == 8
    assert "Print at 100 %: the bar is 100 mm long." in text


@needs_poppler
def test_the_edge_as_set_is_drawn_where_it_lies(panel, tmp_path):
    line = np.array([[20.0, 30.0], [60.0, 33.0], [90.0, 27.0]])
    some = [k for k in range(panel.tessera_count) if (panel.centroid_mm[k] < (100, 60)).all()]
    (sheet,) = sheets_of(panel, some, Told("edge"), edges_mm=[line])
    (page,) = drawn(write_pdf([sheet]), tmp_path)
    x, y = (np.array([60.0, 33.0]) + shift(sheet)) * PX_PER_MM
    assert page[round(y) - 3 : round(y) + 4, round(x) - 3 : round(x) + 4].max() < 60
    (plain,) = sheets_of(panel, some, Told("edge"))
    assert plain.edges_mm == ()
    assert b'class="edge"' in write_sheet_svg(sheet)
    assert b'class="edge"' not in write_sheet_svg(plain)
