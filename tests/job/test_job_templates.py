"""Templates of a panel: as it is transferred, section by section or whole."""

import numpy as np
import pytest

from bench.book.events import BenchSet
from bench.drawing.template import PAPERS_MM
from bench.job.acts.opening import open_panel
from bench.job.faults import NoSuchSection
from bench.job.papers import set_paper, write_templates
from bench.job.templates import is_mirrored, panel_sheets
from tests.fakes.drawings import grid_svg


def of_transfer(store, clock, transfer):
    bench = BenchSet(pace_per_min=5.0, transfer=transfer)
    return open_panel(store, clock, grid_svg(12, 6), f"{transfer}.svg", bench=bench)


@pytest.mark.parametrize(("transfer", "mirrored"), [("single", False), ("patch", False), ("face-down", True)])
def test_only_where_glass_is_laid_face_down_are_they_mirrored(store, clock, transfer, mirrored):
    job = of_transfer(store, clock, transfer)
    assert is_mirrored(job) == mirrored
    (sheet,) = panel_sheets(job)
    own = {piece.mark: piece for piece in sheet.pieces}
    left, right = own["1a"].spot_mm[0], own["12a"].spot_mm[0]
    assert (left > right) == mirrored
    assert any(line.startswith("Mirrored") for line in sheet.legend) == mirrored


def test_each_section_stands_on_its_own_sheets_and_the_whole_shows_every_piece(job):
    sheets = panel_sheets(job, [1, 2])
    assert [("section 1," in s.title, "section 2," in s.title) for s in sheets] == [
        (True, False),
        (False, True),
    ]
    for number, sheet in zip((1, 2), sheets, strict=True):
        assert sum(p.own for p in sheet.pieces) == len(job.section(number).tesserae)
    marked = {p.mark for s in panel_sheets(job) for p in s.pieces}
    assert {f"{k}a" for k in range(1, job.panel.tessera_count + 1)} <= marked


def test_a_section_that_is_not_there_is_refused(job):
    with pytest.raises(NoSuchSection, match="there is no section 99"):
        panel_sheets(job, [99])


def test_they_are_written_on_the_paper_in_the_printer(job, tmp_path):
    import pypdfium2

    set_paper(job, "Letter")
    path = write_templates(job, tmp_path, (1,))
    assert path.name == "template, section 1.pdf"
    size_pt = pypdfium2.PdfDocument(path)[0].get_size()
    assert sorted(size_pt) == pytest.approx(np.array(PAPERS_MM["Letter"]) * 72 / 25.4, abs=0.1)
    assert write_templates(job, tmp_path).name == "template, whole panel.pdf"
