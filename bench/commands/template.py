"""`potwatch template`: true-size sheets of the cartoon, or of the sections of a plan, to lay the glass on."""

from __future__ import annotations

import argparse
import re
import textwrap
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from bench.commands.draw import sections_of
from bench.commands.options import add_drawing, check_values, number
from bench.commands.output import write_file
from bench.commands.reading import drawn
from bench.drawing import Panel
from bench.drawing.template import PAPERS_MM, Sheet, Told, sheets_of
from bench.drawing.template_out import write_pdf, write_sheet_svg
from bench.fault import Fault
from bench.finish import GlassList, glass_list

_OWN_PAPER = re.compile(r"(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)")
ROW_MM = 7.0  # pieces are numbered row by row, as a page is read
LEGEND_LETTERS, MOST_LEGEND = 135, 6
_HARD_SPACE = "\N{NO-BREAK SPACE}"
_PAPER_RANGE_MM = (60.0, 3000.0)


class NoSuchPaper(Fault):
    def __init__(self, text: str) -> None:
        self.text = text
        super().__init__(
            f"paper '{text}' is not known",
            where="--paper",
            todo=f"give {', '.join(PAPERS_MM)} or its size in mm from 60 to 3000, e.g. 610x914",
        )


class NoSuchSection(Fault):
    def __init__(self, number: int, known: list[int]) -> None:
        self.number = number
        todo = f"give a number from {known[0]} to {known[-1]}" if known else "give a plan with --plan"
        super().__init__(f"there is no section {number}", where="--section", todo=todo)


class OneSheetOnly(Fault):
    def __init__(self, count: int) -> None:
        self.count = count
        super().__init__(
            f"an SVG holds one sheet, and these are {count}",
            where="--svg",
            todo="write a PDF with --pdf, choose one --section, or larger --paper",
        )


class NowhereToWrite(Fault):
    def __init__(self) -> None:
        super().__init__("nothing says where to write", todo="give --pdf FILE.pdf or --svg FILE.svg")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_drawing(parser)
    parser.add_argument("--plan", type=Path, metavar="PLAN.json", help="a template for each of its sections")
    parser.add_argument(
        "--section", type=int, action="append", metavar="N", help="this one only; may be given again"
    )
    parser.add_argument("--mirrored", action="store_true", help="for pieces laid face down")
    parser.add_argument("--paper", default="A4", help=f"{', '.join(PAPERS_MM)} or e.g. 610x914 mm")
    parser.add_argument(
        "--like", type=number, default=5.0, metavar="DE", help="ΔE00 up to which colours share a letter"
    )
    parser.add_argument("--pdf", type=Path, metavar="FILE.pdf")
    parser.add_argument("--svg", type=Path, metavar="FILE.svg", help="where all fits one sheet")


def run(args: argparse.Namespace) -> int:
    check_values(args)
    if args.pdf is None and args.svg is None:
        raise NowhereToWrite
    paper_mm = paper_of(args.paper)
    panel, said = drawn(args)
    sheets = _sheets(panel, args, paper_mm)
    if args.svg is not None:
        if len(sheets) > 1:
            raise OneSheetOnly(len(sheets))
        write_file(args.svg, write_sheet_svg(sheets[0]))
    if args.pdf is not None:
        write_file(args.pdf, write_pdf(sheets))
    if said:
        print(said)
    print(f"{len(sheets)} {'sheet' if len(sheets) == 1 else 'sheets'} at true size; print at 100 %")
    return 0


def paper_of(text: str) -> tuple[float, float]:
    """Return a paper's width and height in mm; raises NoSuchPaper."""
    known = {name.lower(): size for name, size in PAPERS_MM.items()}
    if text.lower() in known:
        return known[text.lower()]
    found = _OWN_PAPER.fullmatch(text.strip().lower().removesuffix("mm").strip())
    low, high = _PAPER_RANGE_MM
    if found is None or not all(low <= float(side) <= high for side in found.groups()):
        raise NoSuchPaper(text)
    return float(found[1]), float(found[2])


def _sheets(panel: Panel, args: argparse.Namespace, paper_mm: tuple[float, float]) -> list[Sheet]:
    mirrored = ", mirrored" if args.mirrored else ""
    if args.plan is None:
        if args.section:
            raise NoSuchSection(args.section[0], [])
        wanted = [(Told(f"{panel.name}{mirrored}"), np.arange(panel.tessera_count))]
    else:
        label, numbers = sections_of(panel, args.plan)
        for number in args.section or ():
            if number not in numbers:
                raise NoSuchSection(number, numbers)
        listed = glass_list(panel, like_de=args.like)
        sections = [
            (number, np.flatnonzero(label == k))
            for k, number in enumerate(numbers)
            if not args.section or number in args.section
        ]
        wanted = [(_told(panel, number, some, listed, mirrored), some) for number, some in sections]
    return [
        sheet
        for told, tesserae in wanted
        for sheet in sheets_of(panel, tesserae, told, paper_mm=paper_mm, mirrored=args.mirrored)
    ]


def _told(panel: Panel, number: int, some: NDArray[np.intp], listed: GlassList, mirrored: str) -> Told:
    """Return a section's title, what each of its pieces is called, and which letter is which glass.

    Pieces are numbered as they are read, row by row; the glass of most pieces is a.
    """
    of, count = np.unique(listed.of[some], return_counts=True)
    letter = {int(of[k]): _letters(turn) for turn, k in enumerate(np.argsort(-count, kind="stable").tolist())}
    row = np.round(panel.centroid_mm[some, 1] / ROW_MM)
    marks = [""] * panel.tessera_count
    for turn, k in enumerate(np.lexsort((panel.centroid_mm[some, 0], row)).tolist(), start=1):
        marks[some[k]] = f"{turn}{letter[int(listed.of[some[k]])]}"
    glasses = [f"{told} {listed.glasses[g].name}" for g, told in letter.items()]
    together = "; ".join(glass.replace(" ", _HARD_SPACE) for glass in glasses)
    legend = [line.replace(_HARD_SPACE, " ") for line in textwrap.wrap(together, LEGEND_LETTERS)]
    title = f"{panel.name}, section {number}, {len(some)} pieces{mirrored}"
    return Told(title, tuple(legend[:MOST_LEGEND]), marks)


def _letters(turn: int) -> str:
    """Return a, b, … z, aa, ab …"""
    return (_letters(turn // 26 - 1) if turn >= 26 else "") + chr(ord("a") + turn % 26)
