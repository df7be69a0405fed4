"""`potwatch book`: read the book of the last panel, write its glue-ups as CSV, or draw what it learned."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path

from bench.book import Store, SystemClock, data_folder
from bench.commands.output import write_file
from bench.fault import Fault
from bench.job.job import Job
from bench.job.learned_graphs import learned_graphs
from bench.job.learning import LEARNT_FROM, glue_ups_of
from bench.job.same_hands import of_these_hands
from bench.job.settings import LAST_PANEL
from bench.job.trend_words import trends_of
from bench.job.words import Line, book_lines
from bench.pace import write_glue_ups


class NoBook(Fault):
    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__("there is no book yet", where=str(folder), todo="open a drawing with potwatch first")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--panel", type=int, metavar="N", help="a panel by its number; else the last one")
    parser.add_argument("--section", type=int, metavar="N", help="only what concerns one section")
    parser.add_argument("--day", type=date.fromisoformat, metavar="YYYY-MM-DD", help="only one day's entries")
    parser.add_argument("--csv", type=Path, metavar="FILE", help="write the book's glue-ups; '-' is stdout")
    parser.add_argument(
        "--picture", type=Path, metavar="FILE.png", help="draw pace, promises, life and grams as they were"
    )


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
            _write_csv(store, args.csv)
            if args.picture is None:
                return 0
        panel_id = last_opened(store) if args.panel is None else args.panel
        job = Job(store, SystemClock(), panel_id)
        if args.picture is not None:
            said = _draw(job, args.picture)
            if str(args.csv) != "-":
                print(said)
            return 0
        print(f"{job.state.name} (panel {panel_id})\n")
        if args.section is None and args.day is None:
            print("What the book has learned, over all panels:")
            print("\n".join(f"  {sentence}" for sentence in trends_of(job)), end="\n\n")
        print("\n".join(_printed(line) for line in book_lines(job, section=args.section, day=args.day)))
    finally:
        store.close()
    return 0


def _write_csv(store: Store, path: Path) -> None:
    glue_ups = [g for _, g in glue_ups_of(of_these_hands(store, LEARNT_FROM))]
    if str(path) == "-":
        print(write_glue_ups(glue_ups), end="")
        return
    write_file(path, write_glue_ups(glue_ups).encode())
    kept = sum(g.teaches for g in glue_ups)
    rest = len(glue_ups) - kept
    print(f"{kept} glue-ups written to {path}")
    if rest:
        print(f"{rest} left out: their clock was unsure, or nothing was placed")


def _draw(job: Job, path: Path) -> str:
    """Draw the graphs, and return what to say of it."""
    from bench.commands.book_picture import graphs_png

    graphs = learned_graphs(job)
    title = f"{job.state.name}: what the book has learned"
    write_file(path, graphs_png(graphs, trends_of(job), title=title))
    return f"{len(graphs)} graphs of {len(graphs[0].spots)} glue-ups drawn in {path}"


def last_opened(store: Store) -> int:
    """Return the panel that was worked on last, the newest where nobody said."""
    known = [panel.panel_id for panel in store.panels()]
    return next((n for n in known if str(n) == store.setting(LAST_PANEL)), known[-1])


def _printed(line: Line) -> str:
    local = line.at_utc.astimezone()
    return f"{local:%Y-%m-%d %H:%M}  {line.text}{' (taken back)' if line.taken_back else ''}"
