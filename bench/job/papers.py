"""Write this panel's papers: its record for maker and client, its tables, and its templates."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from bench.drawing.template import PAPERS_MM
from bench.drawing.template_out import write_pdf
from bench.finish.money import Money
from bench.finish.record_csv import tables_of
from bench.finish.record_out import client_pdf, maker_pdf
from bench.finish.units import Units
from bench.job import settings
from bench.job.job import Job
from bench.job.record_facts import record_of
from bench.job.templates import panel_sheets
from bench.speech import tongue
from bench.whole import make_folder, write_file, write_folder

PAPERS = ("A4", "Letter")
MAKER, CLIENT, TABLES = "maker's record.pdf", "for the client.pdf", "tables"
_MOST_NAME = 60


def units_of(job: Job) -> Units:
    """Return the units that papers are written in: as they were chosen for papers, else as the app speaks."""
    kept, spoken = job.store.setting(settings.UNITS), tongue()
    if kept is None:
        return Units("inch" if spoken.inches else "mm", "F" if spoken.fahrenheit else "C")
    return Units("inch", "F") if kept == "inch" else Units()


def set_units(job: Job, length: str) -> None:
    """Keep the units of papers: 'mm' with °C, or 'inch' with °F."""
    job.store.set_setting(settings.UNITS, "inch" if length == "inch" else "mm")


def paper_of(job: Job) -> str:
    """Return the paper that is in the printer, A4 until told otherwise."""
    kept = job.store.setting(settings.PAPER)
    return kept if kept in PAPERS else PAPERS[0]


def set_paper(job: Job, paper: str) -> None:
    job.store.set_setting(settings.PAPER, paper if paper in PAPERS else PAPERS[0])


def folder_of(job: Job, documents: Path) -> Path:
    """Return the folder of this panel's papers among the documents: its name, and its number in the book."""
    name = "".join(c if c.isalnum() or c in " -_" else " " for c in job.state.name)
    return documents / f"{' '.join(name.split())[:_MOST_NAME] or 'panel'} ({job.panel_id})"


def write_record(
    job: Job,
    *,
    maker: Path | None = None,
    client: Path | None = None,
    tables: Path | None = None,
    units: Units | None = None,
    paper: str = "A4",
    money: Money | None = None,
) -> list[Path]:
    """Write the papers that a place is given for and return where they are.

    All are made before the first is written. Raises CannotWrite; what was there before then stays as it was.
    """
    chosen = units or units_of(job)
    record, paper_mm = record_of(job, chosen, money=money), PAPERS_MM[paper]
    files: dict[Path, bytes] = {}
    if maker is not None:
        files[maker] = maker_pdf(record, chosen, paper_mm=paper_mm)
    if client is not None:
        files[client] = client_pdf(record.shown, record.written, chosen, paper_mm=paper_mm)
    rows = tables_of(record)
    for path, data in files.items():
        write_file(path, data)
    if tables is not None:
        write_folder(tables, rows)
    return [*files, *([tables] if tables is not None else [])]


def write_all(job: Job, documents: Path) -> Path:
    """Write record and tables among the documents, in this panel's folder, and return that."""
    folder = folder_of(job, documents)
    make_folder(folder)
    write_record(
        job, maker=folder / MAKER, client=folder / CLIENT, tables=folder / TABLES, paper=paper_of(job)
    )
    return folder


def write_templates(job: Job, documents: Path, sections: Sequence[int] = ()) -> Path:
    """Write the templates of these sections, or of the whole panel, into its folder; return the file."""
    folder = folder_of(job, documents)
    sheets = panel_sheets(job, sections, paper_mm=PAPERS_MM[paper_of(job)])
    named = f"template, section {', '.join(map(str, sections))}" if sections else "template, whole panel"
    make_folder(folder)
    path = folder / f"{named[:_MOST_NAME]}.pdf"
    write_file(path, write_pdf(sheets))
    return path
