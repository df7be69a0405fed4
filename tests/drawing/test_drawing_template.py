"""Templates at true size, measured on what two independent renderers make of them: PDFium and resvg."""

import io

import numpy as np
import pypdfium2
import pytest
import resvg_py
from PIL import Image
from shapely.geometry import Polygon

from bench.drawing.svg import read_drawing
from bench.drawing.template import (
    AROUND_MM,
    PAPERS_MM,
    PaperTooSmall,
    Told,
    TooManySheets,
    sheets_of,
)
from bench.drawing.template_out import write_pdf, write_sheet_svg
from tests.fakes.drawings import grid_svg

PX_PER_MM = 10.0


@pytest.fixture(scope="module")
def panel():
    return read_drawing(grid_svg(24, 12), "grid.svg")


def rendered(sheets) -> list[np.ndarray]:
    """Return each page as PDFium draws it, at 10 px a mm, grey."""
    document = pypdfium2.PdfDocument(write_pdf(sheets))
    return [np.asarray(page.render(scale=PX_PER_MM * 25.4 / 72).to_pil().convert("L")) for page in document]


def bar_length_mm(page: np.ndarray, sheet) -> float:
    (_, y), (end, _) = sheet.bar_mm
    row = page[round(y * PX_PER_MM), : round((end + 1.5) * PX_PER_MM)]
    dark = np.flatnonzero(row < 120)
    return (dark[-1] - dark[0] + 1) / PX_PER_MM


def test_the_bar_is_as_long_as_it_says_on_paper_of_the_right_size(panel):
    sheets = sheets_of(panel, range(30), Told("some"))
    page = rendered(sheets)[0]
    assert page.shape[::-1] == pytest.approx(np.array(sheets[0].paper_mm) * PX_PER_MM, abs=1.5)
    assert bar_length_mm(page, sheets[0]) == pytest.approx(100.0, abs=0.3)


def test_pieces_stand_at_true_size_each_in_the_place_that_its_cross_tells(panel):
    chosen = [0, 5, 30, 77]
    (sheet,) = sheets_of(panel, chosen, Told("some"), paper_mm=PAPERS_MM["A3"])
    own = [piece for piece in sheet.pieces if piece.own]
    assert len(own) == 4
    for piece, k in zip(own, chosen, strict=True):
        assert Polygon(piece.rings_mm[0]).area == pytest.approx(panel.area_mm2[k])
    x, y, told = sheet.crosses[0]
    shift = np.array([x, y]) - [float(v) for v in told.split(", ")]
    np.testing.assert_allclose(own[0].rings_mm[0] - shift, panel.rings_mm(0)[0], atol=1e-9)


def test_the_glass_area_on_paper_is_that_of_the_section(panel):
    chosen = np.arange(40)
    (sheet,) = sheets_of(panel, chosen, Told("some"))
    image = Image.open(
        io.BytesIO(bytes(resvg_py.svg_to_bytes(svg_string=write_sheet_svg(sheet).decode(), dpi=508)))
    )
    pixels = np.asarray(image.convert("RGB"), int)
    assert pixels.shape[1::-1] == pytest.approx(np.array(sheet.paper_mm) * 20, abs=2)
    tints = {piece.tint for piece in sheet.pieces if piece.own}
    inside = sum((np.abs(pixels - tint).max(axis=2) < 3).sum() for tint in tints)
    line_mm2 = 0.125 * sum(Polygon(p.rings_mm[0]).length for p in sheet.pieces if p.own)
    assert inside / 20**2 == pytest.approx(panel.area_mm2[chosen].sum() - line_mm2, rel=0.03)


def test_mirrored_is_what_one_sees_from_the_back(panel):
    plain, back = (sheets_of(panel, range(40), Told(""), mirrored=m)[0] for m in (False, True))
    left, top, width, height = (round(v * PX_PER_MM) for v in plain.window_mm)
    one, other = (rendered([sheet])[0][top : top + height, left : left + width] for sheet in (plain, back))
    words = np.zeros(one.shape, bool)  # the crosses' figures are not mirrored, or nobody could read them
    for sheet, flip in ((plain, 1), (back, -1)):
        for x, y, _ in sheet.crosses:
            at_x, at_y = round(x * PX_PER_MM) - left, round(y * PX_PER_MM) - top
            box = np.zeros(one.shape, bool)
            box[max(0, at_y - 45) : at_y + 45, max(0, at_x - 45) : at_x + 150] = True
            words |= box[:, ::flip]
    flipped = [np.roll(other[:, ::-1], shift, axis=1).astype(int) for shift in (-1, 0, 1)]  # pixels are whole
    differs = np.min([np.abs(one - page) for page in flipped], axis=0)
    assert np.mean(differs[~words] > 100) < 0.001
    assert np.mean(np.abs(one.astype(int) - other)[~words] > 100) > 0.02


def test_sheets_put_side_by_side_show_every_piece_whole_or_in_overlapping_parts(panel):
    sheets = sheets_of(panel, range(panel.tessera_count), Told("all"), paper_mm=(100.0, 120.0))
    assert len(sheets) > 2
    assert [s.title.rpartition(" sheet ")[2] for s in sheets] == [
        f"{k} of {len(sheets)}" for k in range(1, len(sheets) + 1)
    ]
    seen = np.zeros(panel.tessera_count)
    for sheet in sheets:
        x, y, told = sheet.crosses[0]
        shift = np.array([x, y]) - [float(v) for v in told.split(", ")]
        low = np.array(sheet.window_mm[:2]) - shift
        high = low + sheet.window_mm[2:]
        inside = (panel.centroid_mm >= low) & (panel.centroid_mm <= high)
        seen += inside.all(axis=1)
    assert (seen >= 1).all()


def test_neighbours_stand_faintly_around(panel):
    (sheet,) = sheets_of(panel, [100], Told("one"))
    around = [p for p in sheet.pieces if not p.own]
    assert around
    _, _, width, _ = sheet.window_mm
    piece = Polygon(next(p for p in sheet.pieces if p.own).rings_mm[0])
    assert width == pytest.approx(piece.bounds[2] - piece.bounds[0] + 2 * AROUND_MM, abs=1e-6)


def test_paper_too_small_and_far_too_many_sheets_are_refused(panel):
    with pytest.raises(PaperTooSmall, match="38 × 60 mm"):
        sheets_of(panel, [0], Told(""), paper_mm=(38.0, 60.0))
    large = read_drawing(grid_svg(24, 12), "large.svg", width_mm=15000.0)
    with pytest.raises(TooManySheets, match="at most 400"):
        sheets_of(large, range(large.tessera_count), Told(""))


def test_what_each_piece_is_called_stands_on_it_and_the_legend_under_the_title(panel):
    marks = [f"{k}a" for k in range(panel.tessera_count)]
    told = Told("some", ("a blue #204080", "b red #a02020"), marks)
    (sheet,) = sheets_of(panel, range(12), told)
    (page,) = pypdfium2.PdfDocument(write_pdf([sheet]))
    words = page.get_textpage()
    text = words.get_text_bounded()
    assert "b red #a02020" in text
    for piece in (p for p in sheet.pieces if p.own):
        x, y = piece.spot_mm
        box = [
            v * 72 / 25.4
            for v in (x - 2.5, sheet.paper_mm[1] - y - 1.5, x + 2.5, sheet.paper_mm[1] - y + 1.5)
        ]
        assert words.get_text_bounded(*box).strip() == piece.mark
    assert sheet.window_mm[1] > sheets_of(panel, range(12), Told("some"))[0].window_mm[1]
    assert "some" in write_sheet_svg(sheet).decode()
    assert ">11a</text>" in write_sheet_svg(sheet).decode()
