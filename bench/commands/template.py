"""`potwatch template`: true-size sheets to lay the glass on, of a drawing, a plan, or a panel of the book.

Without a drawing they are of the panel: mirrored where its glass is laid face down, and with the edge of what
is set where that was traced on a photo.
"""

from __future__ import annotations

import argparse
import re
from pathlib import Path
from typing import get_args

import numpy as np

from bench.book.events import BenchSet
from bench.commands.book import opened_panel
from bench.commands.draw import sections_of
from bench.commands.options import add_drawing, check_values, number
from bench.commands.output import write_file
from bench.commands.reading import drawn
from bench.drawing.panel import Panel
from bench.drawing.template import PAPERS_MM, Sheet, sheets_of
from bench.drawing.template_out import write_pdf, write_sheet_svg
from bench.fault import Fault
from bench.finish.glass import glass_list
from bench.finish.told import mirrored_said, told_of
from bench.job.templates import panel_sheets
from bench.speech import say, say_n

_OWN_PAPER = re.compile(r"(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)")
TRANSFERS = get_args(BenchSet.model_fields["transfer"].annotation)
_PAPER_RANGE_MM = (60.0, 3000.0)


class NoSuchPaper(Fault):
    def __init__(self, text: str) -> None:
        self.text = text
        super().__init__(
            say("paper '{typed}' is not known", typed=text),
            where="--paper",
            todo=say(
                "give {names} or its size in mm from 60 to 3000, e.g. 610x914", names=", ".join(PAPERS_MM)
            ),
        )


class NoSuchSection(Fault):
    def __init__(self, number: int, known: list[int]) -> None:
        self.number = number
        todo = say("give a plan with --plan")
        if known:
            todo = say("give a number from {first} to {last}", first=known[0], last=known[-1])
        super().__init__(say("there is no section {section}", section=number), where="--section", todo=todo)


class OneSheetOnly(Fault):
    def __init__(self, count: int) -> None:
        self.count = count
        super().__init__(
            say("an SVG holds one sheet, and these are {count}", count=count),
            where="--svg",
            todo=say("write a PDF with --pdf, choose one --section, or larger --paper"),
        )


class NowhereToWrite(Fault):
    def __init__(self) -> None:
        super().__init__(
            say("nothing says where to write"), todo=say("give --pdf FILE.pdf or --svg FILE.svg")
        )


class OnlyForADrawing(Fault):
    def __init__(self, option: str) -> None:
        self.option = option
        super().__init__(
            say("this is for a drawing, and none is given"),
            where=option,
            todo=say("name one, or leave this out"),
        )


class OnlyForAPanel(Fault):
    def __init__(self) -> None:
        super().__init__(
            say("a drawing and a panel of the book are two things"),
            where="--panel",
            todo=say("name one of them"),
        )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_drawing(parser, needed=False)
    parser.add_argument(
        "--panel", type=int, metavar="N", help=say("of the book; without a drawing the last one")
    )
    parser.add_argument(
        "--plan", type=Path, metavar=say("PLAN.json"), help=say("a template for each of its sections")
    )
    parser.add_argument(
        "--section", type=int, action="append", metavar="N", help=say("this one only; may be given again")
    )
    parser.add_argument(
        "--transfer",
        choices=TRANSFERS,
        help=say("of a drawing: mirrored where face-down; a panel knows its own"),
    )
    parser.add_argument(
        "--paper", default="A4", help=say("{names} or e.g. 610x914 mm", names=", ".join(PAPERS_MM))
    )
    parser.add_argument(
        "--like", type=number, default=5.0, metavar="DE", help=say("ΔE00 up to which colours share a letter")
    )
    parser.add_argument("--pdf", type=Path, metavar=say("FILE.pdf"))
    parser.add_argument("--svg", type=Path, metavar=say("FILE.svg"), help=say("where all fits one sheet"))


def run(args: argparse.Namespace) -> int:
    check_values(args)
    if args.pdf is None and args.svg is None:
        raise NowhereToWrite
    paper_mm = paper_of(args.paper)
    if args.drawing is None:
        said, sheets = "", _of_panel(args, paper_mm)
    elif args.panel is not None:
        raise OnlyForAPanel
    else:
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
    print(
        say_n(
            "{count} sheet at true size; print at 100 %",
            "{count} sheets at true size; print at 100 %",
            len(sheets),
        )
    )
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


def _of_panel(args: argparse.Namespace, paper_mm: tuple[float, float]) -> list[Sheet]:
    for option in ("plan", "transfer"):
        if getattr(args, option) is not None:
            raise OnlyForADrawing(f"--{option}")
    with opened_panel(args.panel) as job:
        return list(panel_sheets(job, args.section or (), paper_mm=paper_mm, like_de=args.like))


def _sheets(panel: Panel, args: argparse.Namespace, paper_mm: tuple[float, float]) -> list[Sheet]:
    mirrored = args.transfer == "face-down"
    wanted: list[tuple[int | None, np.ndarray]] = [(None, np.arange(panel.tessera_count))]
    if args.plan is None:
        if args.section:
            raise NoSuchSection(args.section[0], [])
    else:
        label, numbers = sections_of(panel, args.plan)
        for number in args.section or ():
            if number not in numbers:
                raise NoSuchSection(number, numbers)
        wanted = [
            (number, np.flatnonzero(label == k))
            for k, number in enumerate(numbers)
            if not args.section or number in args.section
        ]
    listed = glass_list(panel, like_de=args.like)
    notes = [mirrored_said()] if mirrored else []
    return [
        sheet
        for number, some in wanted
        for sheet in sheets_of(
            panel,
            some,
            told_of(panel, some, listed, section=number, notes=notes),
            paper_mm=paper_mm,
            mirrored=mirrored,
        )
    ]
