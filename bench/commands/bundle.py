"""`potwatch bundle`: carry a panel to another tablet in one file, and bring it in there."""

from __future__ import annotations

import argparse
from pathlib import Path

from bench.book import Store, SystemClock, data_folder
from bench.book.rows import PanelRow
from bench.commands.book import NoBook, last_opened
from bench.fault import Fault
from bench.job.acts.bringing import open_the_bundle
from bench.job.acts.bundling import bundle_panel
from bench.job.settings import LAST_PANEL
from bench.speech import say, say_n


class NoPanelCalled(Fault):
    def __init__(self, asked: str, panels: list[PanelRow]) -> None:
        self.asked = asked
        listed = ", ".join(f"{p.panel_id} {p.name}" for p in panels)
        super().__init__(
            say("no panel is called '{asked}'", asked=asked),
            where="bundle",
            todo=say("name one of these: {listed}", listed=listed),
        )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "words",
        nargs="*",
        metavar=say("[PANEL] FILE.zip"),
        help=say("a panel by its number or name, else the last one; the file to write"),
    )
    parser.add_argument("--drafts", action="store_true", help=say("with the drafts of the book too"))
    parser.add_argument(
        "--open", type=Path, metavar=say("FILE.zip"), help=say("bring in what such a file holds")
    )
    parser.add_argument(
        "--same-hands",
        action="store_true",
        help=say("with --open: your own hands set its glue-ups, so that the pace is learned from them too"),
    )
    parser.set_defaults(refuse=parser.error)


def run(args: argparse.Namespace) -> int:
    if args.open is not None:
        if args.words or args.drafts:
            args.refuse(say("--open takes one file and nothing else but --same-hands"))
        return _open(args.open, args.same_hands)
    if args.same_hands:
        args.refuse(say("--same-hands goes with --open"))
    if not 1 <= len(args.words) <= 2:
        args.refuse(say("name the file to write, after the panel if it is not the last one"))
    return _bundle(args.words[:-1], Path(args.words[-1]), drafts=args.drafts)


def _bundle(asked: list[str], path: Path, *, drafts: bool) -> int:
    folder = data_folder()
    if not Store.exists(folder):
        raise NoBook(folder)
    with Store.open(folder, read_only=True) as store:
        panels = store.panels()
        if not panels:
            raise NoBook(folder)
        panel_id = _called(panels, asked[0]) if asked else last_opened(store)
        done = bundle_panel(store, SystemClock(), panel_id, path, with_drafts=drafts)
        name = next(p.name for p in panels if p.panel_id == panel_id)
    print(
        say(
            "{panel}: {entries} and {files} in {path}, {mb:.2f} MB",
            panel=name,
            entries=say_n("{count} entry", "{count} entries", done.entries),
            files=say_n("{count} file", "{count} files", done.files),
            path=path,
            mb=done.size_bytes / 1e6,
        )
    )
    return 0


def _called(panels: list[PanelRow], asked: str) -> int:
    """Return the panel of that number or name; of several of one name the newest."""
    found = [p for p in panels if asked in (str(p.panel_id), p.name)]
    if not found:
        raise NoPanelCalled(asked, panels)
    return next((p for p in found if str(p.panel_id) == asked), found[-1]).panel_id


def _open(path: Path, same_hands: bool) -> int:
    with Store.open(data_folder()) as store:
        brought = open_the_bundle(store, SystemClock(), path, same_hands=same_hands)
        store.set_setting(LAST_PANEL, str(brought.job.panel_id))
    print(brought.said)
    if brought.ask_hands:
        print(
            say("Nothing is learned from its glue-ups; if your own hands set them, open it with --same-hands")
        )
    return 0
