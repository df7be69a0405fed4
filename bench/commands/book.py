"""`potwatch book`: read the last panel's book, write its glue-ups or its calendar, draw what it learned.

Its copies are listed, put back, and a damaged book is mended.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from bench.book import Store, SystemClock, copies, data_folder, held_in, open_book
from bench.book.told import ReadingOnly
from bench.commands.options import add_panel
from bench.commands.output import write_file
from bench.fault import Fault
from bench.job.acts.backups import NoSuchCopy, put_back
from bench.job.backup_words import held_words, moment_words, why_words
from bench.job.finding import holding
from bench.job.finish_days import when_lines
from bench.job.ics import calendar_file
from bench.job.job import Job
from bench.job.learned_graphs import learned_graphs
from bench.job.remembered import glue_ups_with_notes
from bench.job.settings import LAST_PANEL
from bench.job.trend_words import trends_of
from bench.job.words import Line, book_lines
from bench.pace.csv_file import write_glue_ups
from bench.speech import large_first, say, say_n


class NoBook(Fault):
    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__(
            say("there is no book yet"), where=str(folder), todo=say("open a drawing with potwatch first")
        )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_panel(parser)
    parser.add_argument("--section", type=int, metavar="N", help=say("only what concerns one section"))
    parser.add_argument(
        "--day", type=date.fromisoformat, metavar=say("YYYY-MM-DD"), help=say("only one day's entries")
    )
    parser.add_argument(
        "--find",
        nargs="+",
        metavar=say("WORD"),
        help=say("only entries that hold all these words, themselves or in their notes"),
    )
    parser.add_argument(
        "--csv", type=Path, metavar=say("FILE"), help=say("write the book's glue-ups; '-' is stdout")
    )
    parser.add_argument(
        "--calendar",
        type=Path,
        metavar=say("FILE.ics"),
        help=say("write what may be grouted, inked, sealed, and when"),
    )
    parser.add_argument(
        "--picture",
        type=Path,
        metavar=say("FILE.png"),
        help=say("draw pace, promises, life and grams as they were"),
    )
    parser.add_argument(
        "--restore",
        type=int,
        nargs="?",
        const=0,
        metavar=say("COPY"),
        help=say("put a copy of the book back by its number; without one, list the copies"),
    )
    parser.add_argument("--mend", action="store_true", help=say("mend the book where it is damaged"))


@contextmanager
def opened_panel(panel_id: int | None) -> Iterator[Job]:
    """Open the book to read it, and yield a panel by its number; None: the last one. Raises NoBook."""
    folder = data_folder()
    if not Store.exists(folder):
        raise NoBook(folder)
    with Store.open(folder, read_only=True) as store:
        if not store.panels():
            raise NoBook(folder)
        yield Job(store, SystemClock(), last_opened(store) if panel_id is None else panel_id)


def run(args: argparse.Namespace) -> int:
    if args.mend or args.restore is not None:
        folder = data_folder()
        if not (Store.exists(folder) or copies(folder)):
            raise NoBook(folder)
        return _mend(folder) if args.mend else _restore(folder, args.restore)
    with opened_panel(args.panel) as job:
        if args.csv is not None:
            _write_csv(job.store, args.csv)
            if args.picture is None:
                return 0
        if args.calendar is not None:
            write_file(args.calendar, calendar_file(job))
            done = say("calendar written to {path}", path=args.calendar)
            print("\n".join((*when_lines(job), done)))
            return 0
        if args.picture is not None:
            said = _draw(job, args.picture)
            if str(args.csv) != "-":
                print(said)
            return 0
        found = None if args.find is None else _found(job, args)
        print(f"{panel_words(job)}\n")
        if found is not None:
            print(found)
            return 0
        if args.section is None and args.day is None:
            print(say("What the book has learned, over all panels:"))
            print("\n".join(f"  {sentence}" for sentence in trends_of(job)), end="\n\n")
            print(say("Finishing:"))
            print("\n".join(f"  {line}" for line in when_lines(job) or (say("It hangs."),)), end="\n\n")
        print("\n".join(_printed(line) for line in book_lines(job, section=args.section, day=args.day)))
    return 0


def panel_words(job: Job) -> str:
    """Say which panel a command is about."""
    return say("{name} (panel {number})", name=job.state.name, number=job.panel_id)


def _found(job: Job, args: argparse.Namespace) -> str:
    """Return the entries that hold the words looked for, the newest first, or that there is none."""
    found = holding(book_lines(job, section=args.section, day=args.day), args.find)
    none = say("No entry holds {words}.", words=", ".join(args.find))
    return "\n".join(_printed(line) for line in found) or none


def _mend(folder: Path) -> int:
    """Open the book as the app does, which mends it, and say what was done."""
    store, told = opened_to_write(folder)
    store.close()
    if not told:
        print(say("the book is whole: {folder}", folder=folder))
    return 0


def opened_to_write(folder: Path) -> tuple[Store, tuple[Fault, ...]]:
    """Return the book of a folder and what was told of it on the standard error; InUse, NotWritable."""
    opened = open_book(folder, SystemClock())
    for fault in opened.told:
        if isinstance(fault, ReadingOnly):
            opened.store.close()
            raise fault.why
        print(f"potwatch: {fault}", file=sys.stderr)
    return opened.store, opened.told


def _restore(folder: Path, number: int) -> int:
    if not number:
        _list(folder)
        return 0
    store, _ = opened_to_write(folder)
    with store:
        clock, known = SystemClock(), copies(folder)
        copy = next((copy for copy in known if copy.number == number), None)
        if copy is None:
            raise NoSuchCopy(number, tuple(one.number for one in known))
        _, told = put_back(Job(store, clock, last_opened(store)), copy)
        print(f"{large_first(told.what)}; {told.todo}")
    return 0


def _list(folder: Path) -> None:
    found = copies(folder)
    if not found:
        print(say("there is no copy of the book yet; one is made on the first opening of a day"))
    for copy in found:
        held = held_words(held_in(copy))
        print(f"{copy.number:>4}  {moment_words(copy.at_utc)}: {held}. {why_words(copy)}.")
    if found:
        print()
        print(say("Nothing is put back yet; --restore COPY does, and keeps the book as it is now."))


def _write_csv(store: Store, path: Path) -> None:
    glue_ups, notes = glue_ups_with_notes(store)
    if str(path) == "-":
        print(write_glue_ups(glue_ups, notes), end="")
        return
    write_file(path, write_glue_ups(glue_ups, notes).encode())
    kept = sum(g.teaches for g in glue_ups)
    rest = len(glue_ups) - kept
    print(say_n("{count} glue-up written to {path}", "{count} glue-ups written to {path}", kept, path=path))
    if rest:
        print(
            say(
                "{rest} left out: their clock was unsure, nothing was placed, or two went on at once",
                rest=rest,
            )
        )


def _draw(job: Job, path: Path) -> str:
    """Draw the graphs, and return what to say of it."""
    from bench.commands.book_picture import graphs_png

    graphs = learned_graphs(job)
    title = say("{name}: what the book has learned", name=job.state.name)
    write_file(path, graphs_png(graphs, trends_of(job), title=title))
    return say(
        "{graphs} graphs of {glue_ups} drawn in {path}",
        graphs=len(graphs),
        glue_ups=say_n("{count} glue-up", "{count} glue-ups", len(graphs[0].spots)),
        path=path,
    )


def last_opened(store: Store) -> int:
    """Return the panel that was worked on last, the newest where nobody said."""
    known = [panel.panel_id for panel in store.panels()]
    return next((n for n in known if str(n) == store.setting(LAST_PANEL)), known[-1])


def _printed(line: Line) -> str:
    local = line.at_utc.astimezone()
    text = say("{entry} (taken back)", entry=line.text) if line.taken_back else line.text
    notes = [say("note: {note}", note=" ".join(note.split())) for note in line.notes]
    return "\n".join([f"{local:%Y-%m-%d %H:%M}  {text}", *(f"{'':18}{note}" for note in notes)])
