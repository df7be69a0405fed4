"""`potwatch revise`: lay a revised drawing over a panel in progress; show the difference, or accept it."""

from __future__ import annotations

import argparse
import io
from pathlib import Path

from bench.book import Store, SystemClock, data_folder
from bench.commands.book import NoBook, last_opened, opened_to_write, panel_words
from bench.commands.options import add_panel
from bench.commands.output import left_out_words, write_file
from bench.drawing.difference import difference_png
from bench.drawing.load import file_bytes
from bench.job.acts.revising import revise, try_revise
from bench.job.job import Job
from bench.job.revised_words import pieces_told, sections_told
from bench.speech import say


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("drawing", type=Path, metavar=say("DRAWING.svg"))
    add_panel(parser)
    parser.add_argument("--picture", type=Path, metavar=say("FILE.png"), help=say("draw the difference"))
    parser.add_argument("--accept", action="store_true", help=say("write it into the book; else only look"))


def run(args: argparse.Namespace) -> int:
    folder = data_folder()
    if not Store.exists(folder):
        raise NoBook(folder)
    data = file_bytes(args.drawing)
    with opened_to_write(folder)[0] if args.accept else Store.open(folder, read_only=True) as store:
        if not store.panels():
            raise NoBook(folder)
        job = Job(store, SystemClock(), last_opened(store) if args.panel is None else args.panel)
        before = job.panel
        tried = try_revise(job, data, args.drawing.name)
        if args.picture is not None:
            out = io.BytesIO()
            difference_png(before, tried.revision).save(out, format="PNG")
            write_file(args.picture, out.getvalue())
        if args.accept:
            revise(job, tried)
        left_out = [left_out_words(x) for x in tried.revision.panel.left_out]
        notes = [say("note: {note}", note=note) for note in tried.notes]
        print(f"{panel_words(job)}\n")
        print("\n".join([*pieces_told(tried), sections_told(tried), *left_out, *notes]))
        done, not_yet = say("Accepted and in the book."), say("Nothing is written yet; --accept does.")
        print(f"\n{done if args.accept else not_yet}")
    return 0
