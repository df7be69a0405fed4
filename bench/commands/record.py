"""`potwatch record`: the papers of a panel, for its maker and its client, and its tables."""

from __future__ import annotations

import argparse
from pathlib import Path

from bench.commands.book import opened_panel, panel_words
from bench.commands.options import add_panel, number
from bench.fault import Fault
from bench.finish.money import WORK, Money, read_prices
from bench.finish.money_words import money_lines
from bench.finish.units import Units
from bench.job.costs import amounts_of, money_of
from bench.job.job import Job
from bench.job.papers import PAPERS, units_of, write_record
from bench.speech import say


class NotTold(Fault):
    """An hour or a price that says nothing."""

    def __init__(self, text: str) -> None:
        self.text = text
        todo = say("give KIND=HOURS, KIND of {kinds}", kinds=", ".join(WORK))
        super().__init__(say("'{typed}' tells no hours", typed=text[:40]), where="--hours", todo=todo)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_panel(parser)
    parser.add_argument(
        "--maker", type=Path, metavar=say("FILE.pdf"), help=say("the maker's: sections, glass, hours")
    )
    parser.add_argument(
        "--client", type=Path, metavar=say("FILE.pdf"), help=say("the client's: materials and care")
    )
    parser.add_argument(
        "--folder", type=Path, metavar=say("DIR"), help=say("tables: sections, batches, glass, hours")
    )
    parser.add_argument("--units", choices=("mm", "inch"), help=say("lengths; else as the app is set"))
    parser.add_argument("--degrees", choices=("C", "F"), help=say("else C with mm and F with inch"))
    parser.add_argument("--paper", choices=PAPERS, help=say("else A4 with mm and Letter with inch"))
    parser.add_argument(
        "--prices",
        type=Path,
        metavar=say("FILE.csv"),
        help=say("columns material, unit, price; maker's paper only"),
    )
    parser.add_argument(
        "--hours",
        action="append",
        default=[],
        metavar=say("KIND=H"),
        help=say("of {kinds}; once or more", kinds=", ".join(WORK)),
    )
    parser.add_argument("--sold", type=number, metavar=say("PRICE"), help=say("what the panel is sold for"))


def run(args: argparse.Namespace) -> int:
    told_h = dict(_hours(text) for text in args.hours)
    with opened_panel(args.panel) as job:
        units = _units(job, args)
        money = _money(job, args, told_h)
        paper = args.paper or ("A4" if units.length == "mm" else "Letter")
        written = write_record(
            job,
            maker=args.maker,
            client=args.client,
            tables=args.folder,
            units=units,
            paper=paper,
            money=money,
        )
        if written:
            print("\n".join(say("written: {path}", path=path) for path in written))
        else:
            print("\n".join([panel_words(job), *money_lines(money)]))
            print(say("Write it with --maker FILE.pdf, --client FILE.pdf or --folder DIR."))
    return 0


def _hours(text: str) -> tuple[str, float]:
    kind, _, hours = text.partition("=")
    try:
        return kind.strip(), float(hours)
    except ValueError:
        raise NotTold(text) from None


def _units(job: Job, args: argparse.Namespace) -> Units:
    if args.units is None:
        kept = units_of(job)
        return Units(kept.length, args.degrees or kept.degrees)
    return Units(args.units, args.degrees or ("C" if args.units == "mm" else "F"))


def _money(job: Job, args: argparse.Namespace, told_h: dict[str, float]) -> Money:
    prices = None
    if args.prices is not None:
        prices = read_prices(args.prices, {one.material: one.unit for one in amounts_of(job)})
    return money_of(job, prices=prices, told_h=told_h, sold=args.sold)
