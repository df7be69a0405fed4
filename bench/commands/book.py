"""`potwatch book`: read the book of the last panel, or write its glue-ups as CSV."""

from __future__ import annotations

import argparse
from pathlib import Path

from bench.book import Store, SystemClock, data_folder
from bench.commands.output import write_file
from bench.fault import Fault
from bench.job.job import Job
from bench.job.learning import LEARNT_FROM, glue_ups_of
from bench.job.settings import LAST_PANEL
from bench.job.words import Line, book_lines
from bench.pace import write_glue_ups


class NoBook(Fault):
    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__("there is no book yet", where=str(folder), todo="open a drawing with potwatch first")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--panel", type=int, metavar="N", help="a panel by its number; else the last one")
    parser.add_argument("--section", type=int, metavar="N", help="only what concerns one section")
    parser.add_argument("--csv", type=Path, metavar="FILE", help="write the book's glue-ups; '-' is stdout")


def run(args: argparse.Namespace) -> int:
    folder = data_folder()
    if not Store.exists(folder):
        raise NoBook(folder)
    store = Store.open(folder, read_only=True)
    try:
        panels = store.panels()
        if not panels:
            raise NoBook(folder)
        if args.csv is not None:
            glue_ups = [g for _, g in glue_ups_of(store.of_kinds(LEARNT_FROM))]
            if str(args.csv) == "-":
                print(write_glue_ups(glue_ups), end="")
                return 0
            write_file(args.csv, write_glue_ups(glue_ups).encode())
            kept = sum(g.teaches for g in glue_ups)
            rest = len(glue_ups) - kept
            print(f"{kept} glue-ups written to {args.csv}")
            if rest:
                print(f"{rest} left out: their clock was unsure, or nothing was placed")
            return 0
        panel_id = last_opened(store) if args.panel is None else args.panel
        job = Job(store, SystemClock(), panel_id)
        print(f"{job.state.name} (panel {panel_id})\n")
        print("\n".join(_printed(line) for line in book_lines(job, section=args.section)))
    finally:
        store.close()
    return 0


def last_opened(store: Store) -> int:
    """Return the panel that was worked on last, the newest where nobody said."""
    known = [panel.panel_id for panel in store.panels()]
    return next((n for n in known if str(n) == store.setting(LAST_PANEL)), known[-1])


def _printed(line: Line) -> str:
    local = line.at_utc.astimezone()
    return f"{local:%Y-%m-%d %H:%M}  {line.text}{' (taken back)' if line.taken_back else ''}"
