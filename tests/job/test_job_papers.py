"""A panel's papers, read back by two independent readers: what they tell, to whom, and never by half."""

import csv
import errno
import io
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from bench import whole
from bench.book import Store
from bench.finish.units import Units
from bench.job import papers, record_facts
from bench.whole import CannotWrite
from tests.fakes.records import NAME, priced_panel

ROOT = Path(__file__).parents[2]
MONEY = ("4711.00", "88.50", "Sold", "earned", "cost", "price")


@pytest.fixture(scope="module")
def job():
    with Store.in_memory() as store:
        yield priced_panel(store)


@pytest.fixture(scope="module")
def written(job, tmp_path_factory):
    folder = tmp_path_factory.mktemp("papers")
    papers.write_record(
        job, maker=folder / "maker.pdf", client=folder / "client.pdf", tables=folder / "tables"
    )
    return folder


def by_pdfium(path) -> str:
    return "\n".join(p.get_textpage().get_text_bounded() for p in pypdfium2.PdfDocument(path))


def by_poppler(path) -> str:
    if shutil.which("pdftotext") is None:
        pytest.skip("poppler's pdftotext is not installed")
    done = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, text=True, check=True)
    assert done.stderr == ""
    return done.stdout


READERS = [by_pdfium, by_poppler]


@pytest.mark.parametrize("read", READERS)
def test_the_makers_paper_tells_sections_glass_hours_and_money(job, written, read):
    text = " ".join(read(written / "maker.pdf").split())
    rows = record_facts.section_rows(job)
    assert [row.kept for row in rows] == [True, True, False]
    assert "Promises kept: 2 of 3" in text
    for row in rows:
        assert f"{row.day:%d %b %Y}" in text
        assert f"{row.resin_g:.1f} + {row.hardener_g:.1f} g" in text
    for told in (NAME, "hardener H7", "resin R7", "20 °C", "kept", "22.5", "The cloth wants a darker blue."):
        assert told in text
    for told in ("4711.00", "An hour of work earned", "yellow #e8c93a", "by the book"):
        assert told in text
    assert f"{sum(s.stage != 'set' for s in job.state.sections.values())} sections are not set yet" in text


@pytest.mark.parametrize("read", READERS)
def test_the_clients_paper_tells_what_it_is_and_how_to_care_and_nothing_of_money_or_hours(written, read):
    text = read(written / "client.pdf")
    for told in (
        NAME,
        "168 × 84 mm",
        "288 pieces of glass",
        "White paste",
        "kg",
        "lb",
        "vinegar",
        "Carry it upright",
    ):
        assert told in text
    lower = text.lower()
    assert [word for word in MONEY if word.lower() in lower] == []
    assert re.search(r"\bhours?\b|\d h\b|minutes|\bmin\b", lower) is None


def test_the_clients_file_hides_nothing_beside_its_text(written):
    """Title, producer and dates are all that its data say beside the pages."""
    document = pypdfium2.PdfDocument(written / "client.pdf")
    assert set(document.get_metadata_dict(skip_empty=True)) <= {"Title", "Producer", "CreationDate"}


def test_the_picture_of_the_panel_stands_on_both_in_its_true_colours(job, written):
    for name in ("maker.pdf", "client.pdf"):
        page = pypdfium2.PdfDocument(written / name)[0].render(scale=2).to_pil().convert("RGB")
        pixels = np.asarray(page, int)
        for colour in ((0x2A, 0x5C, 0xAA), (0xE8, 0xC9, 0x3A)):
            assert (np.abs(pixels - colour).max(axis=2) < 6).mean() > 0.03


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="poppler's pdftoppm is not installed")
def test_poppler_draws_every_page_without_a_word_of_complaint(written, tmp_path):
    done = subprocess.run(
        ["pdftoppm", "-r", "40", "-png", written / "maker.pdf", tmp_path / "p"],
        capture_output=True,
        check=True,
    )
    assert done.stderr == b""
    assert len(list(tmp_path.glob("p*.png"))) == len(pypdfium2.PdfDocument(written / "maker.pdf"))
    assert all(Image.open(p).convert("L").getextrema()[0] < 60 for p in tmp_path.glob("p*.png"))


def test_in_inches_and_fahrenheit_where_the_reader_wants_them(job, tmp_path):
    papers.write_record(job, maker=tmp_path / "m.pdf", units=Units("inch", "F"), paper="Letter")
    text = " ".join(by_pdfium(tmp_path / "m.pdf").split())
    assert "6.6 × 3.3 in" in text
    assert "68 °F" in text
    assert "°C" not in text
    width_pt, height_pt = pypdfium2.PdfDocument(tmp_path / "m.pdf")[0].get_size()
    assert (width_pt, height_pt) == (pytest.approx(612, abs=0.1), pytest.approx(792, abs=0.1))


def rows_of(path) -> list[dict]:
    return list(csv.DictReader(io.StringIO(path.read_bytes().decode("utf-8-sig"))))


def test_the_tables_are_those_of_the_book(job, written):
    sections, batches, glass, hours = (
        rows_of(written / "tables" / f"{name}.csv") for name in ("sections", "batches", "glass", "hours")
    )
    assert [int(r["section"]) for r in sections] == [1, 2, 3]
    assert [r["lot"] for r in batches] == ["hardener H7, resin R7"] * 3
    for row, mix in zip(batches, job.state.mixes.values(), strict=True):
        assert float(row["resin_g"]) == pytest.approx(mix.batch.resin_g, abs=0.006)
    assert sum(int(r["pieces"]) for r in glass) == job.panel.tessera_count
    assert sum(float(r["area_mm2"]) for r in glass) == pytest.approx(job.panel.glass_area_mm2, rel=1e-4)
    assert {r["work"]: r["timed"] for r in hours} == {
        "laying": "no",
        "mixing": "yes",
        "setting": "yes",
        "cleaning": "yes",
    }


def test_work_after_the_last_section_is_told_once_its_kinds_are_named(job, monkeypatch):
    assert record_facts.later_work(job) == ()
    monkeypatch.setattr(record_facts, "AFTER_SETTING", ("note_written",))
    (done,) = record_facts.later_work(job)
    assert done.text == "The cloth wants a darker blue."


def test_a_bare_panel_has_papers_too(store, clock, tmp_path):
    from bench.job.acts.opening import open_panel
    from tests.fakes.drawings import grid_svg

    bare = open_panel(store, clock, grid_svg(4, 3), "grid.svg")
    papers.write_record(bare, maker=tmp_path / "m.pdf", client=tmp_path / "c.pdf", tables=tmp_path / "t")
    assert "None are in the book yet." in by_pdfium(tmp_path / "m.pdf")
    assert rows_of(tmp_path / "t" / "sections.csv") == []


def test_all_papers_go_into_one_folder_of_the_panel(job, tmp_path):
    folder = papers.write_all(job, tmp_path / "documents")
    assert folder.name == "Zitronen Łódź 3 (1)"
    names = {str(p.relative_to(folder)) for p in folder.rglob("*") if p.is_file()}
    tables = {os.path.join("tables", f"{n}.csv") for n in ("sections", "batches", "glass", "hours")}
    assert names == {"maker's record.pdf", "for the client.pdf", *tables}


def test_a_disk_that_fills_up_in_the_middle_of_a_pdf_leaves_the_old_one(job, tmp_path, monkeypatch):
    path = tmp_path / "maker.pdf"
    papers.write_record(job, maker=path)
    before = path.read_bytes()

    def full(handle, mode):
        os.write(handle, b"%PDF-1.4 half")
        os.close(handle)
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(whole.os, "fdopen", full)
    with pytest.raises(CannotWrite, match="No space left on device") as caught:
        papers.write_record(job, maker=path)
    assert "\n" not in str(caught.value)
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["maker.pdf"]


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="a limit on the size of files")
def test_a_process_that_may_write_no_more_leaves_no_half_pdf(tmp_path):
    """The system's own limit, RLIMIT_FSIZE, ends the write after 20 kB of a longer file."""
    program = (
        "import resource, sys; from pathlib import Path; from bench.book import Store\n"
        "from bench.job import papers; from bench.whole import CannotWrite\n"
        "from tests.fakes.records import begun_panel, priced_panel\n"
        "with Store.in_memory() as store:\n"
        "    job = begun_panel(store)\n"
        "    resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))\n"
        "    try: papers.write_record(job, maker=Path(sys.argv[1]))\n"
        "    except CannotWrite as fault: print(fault)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program, str(tmp_path / "maker.pdf")],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert "cannot be written (File too large)" in done.stdout
    assert list(tmp_path.iterdir()) == []


def test_paper_and_units_are_kept_for_the_workshop(store, clock, job):
    assert (papers.paper_of(job), papers.units_of(job)) == ("A4", Units())
    papers.set_paper(job, "Letter")
    papers.set_units(job, "inch")
    assert (papers.paper_of(job), papers.units_of(job)) == ("Letter", Units("inch", "F"))
    papers.set_paper(job, "A4")
    papers.set_units(job, "mm")
