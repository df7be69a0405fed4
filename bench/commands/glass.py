"""`potwatch glass`: the glass of a drawing, sheets to buy, and when asked colours beside their neighbours."""

from __future__ import annotations

import argparse
from dataclasses import asdict
from pathlib import Path
from typing import Any

from bench.adhesive.product_file import find_product
from bench.commands.glass_words import Found, pair_rows, report
from bench.commands.options import add_drawing, add_json, check_values, number
from bench.commands.output import write_file, write_json
from bench.commands.reading import drawn
from bench.drawing.colour import code_of
from bench.fault import Fault
from bench.finish.bed import beds
from bench.finish.beside import HARDLY_DE, Beside, beside
from bench.finish.buying import USUAL_SHEET, Wanted, wanted
from bench.finish.cut_waste import DEFAULT_CUT_WASTE, learned_cut_waste, read_used
from bench.finish.glass import glass_list
from bench.finish.plain import plain_areas
from bench.finish.sheets import Sheet, sheet_of
from bench.finish.stock import on_hand_mm2, read_stock
from bench.speech import say

MOST_NUMBERED = 20


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_drawing(parser)
    parser.add_argument(
        "--sheet-mm",
        nargs="+",
        action="extend",
        metavar="WxH",
        help=say(
            "sizes of sheets there are, {usual} if none is given",
            usual=f"{USUAL_SHEET.long_mm}x{USUAL_SHEET.short_mm}",
        ),
    )
    parser.add_argument(
        "--cut-waste", type=number, default=DEFAULT_CUT_WASTE, help=say("share of a sheet that is not laid")
    )
    parser.add_argument(
        "--like", type=number, default=0.0, metavar="DE", help=say("ΔE00 up to which colours are one glass")
    )
    parser.add_argument("--stock", type=Path, metavar=say("FILE.csv"), help=say("sheets on hand"))
    parser.add_argument(
        "--used",
        type=Path,
        metavar=say("FILE.csv"),
        help=say("what was cut up and laid before teaches the waste"),
    )
    parser.add_argument(
        "--pairs", action="store_true", help=say("tell of colours side by side and plain areas")
    )
    parser.add_argument(
        "--picture",
        type=Path,
        metavar=say("FILE.png"),
        help=say("mark the pairs that will hardly be told apart"),
    )
    add_json(parser)


def run(args: argparse.Namespace) -> int:
    check_values(args)
    sizes = [sheet_of(text, where="--sheet-mm") for text in args.sheet_mm or ()] or [USUAL_SHEET]
    stock = [] if args.stock is None else read_stock(args.stock)
    if args.used is not None:
        args.cut_waste = learned_cut_waste(read_used(args.used), before=args.cut_waste)
    panel, read = drawn(args)
    listed = glass_list(panel, like_de=args.like)
    held, strangers = on_hand_mm2(listed, stock, like_de=args.like)
    rows = wanted(listed, sizes, cut_waste=args.cut_waste, on_hand_mm2=held)
    found = Found(panel, listed, rows, beds(panel, _colour_of), tuple(strangers))
    if args.pairs or args.picture is not None:
        found = found.with_pairs(beside(panel, listed), plain_areas(panel, listed))
    if args.picture is not None and found.beside is not None:
        _draw(found, found.beside, args.picture)
    if args.json != "-":
        told = report(found, like_de=args.like, cut_waste=args.cut_waste, pairs=args.pairs)
        print(*filter(None, (read, told)), sep="\n")
    if args.json is not None:
        write_json(_json(found, sizes, args), args.json)
    return 0


def _colour_of(name: str) -> str | None:
    try:
        return find_product(name).colour
    except Fault:
        return None


def _json(found: Found, sizes: list[Sheet], args: argparse.Namespace) -> dict[str, Any]:
    data: dict[str, Any] = {
        "like_de": args.like,
        "cut_waste": args.cut_waste,
        "sheets_mm": [[size.long_mm, size.short_mm] for size in sizes],
        "glass_area_mm2": found.panel.glass_area_mm2,
        "sheet_area_mm2": sum(row.need_mm2 for row in found.wanted),
        "glasses": [_glass(row) for row in found.wanted],
        "beds": [asdict(bed) for bed in found.beds],
        "stock_unused": [row.name for row in found.strangers],
    }
    if args.pairs and found.beside is not None:
        names = [glass.name for glass in found.listed.glasses]
        pairs = (found.beside[k] for k in range(len(found.beside)))
        data["hardly_de"] = HARDLY_DE
        data["pairs"] = [
            {
                **asdict(pair),
                "one": names[pair.one],
                "other": names[pair.other],
                "hardly": pair.de <= HARDLY_DE,
            }
            for pair in pairs
        ]
        data["plain"] = [
            {
                "glass": names[area.glass],
                "pieces": area.pieces,
                "area_mm2": area.area_mm2,
                "parts": [{**asdict(part), "colour": code_of(part.colour)} for part in area.parts],
            }
            for area in found.plain
        ]
    return data


def _glass(row: Wanted) -> dict[str, Any]:
    glass = row.glass
    shades = {**asdict(glass.shades), "one_sheet_may_hold": glass.shades.one_sheet_may_hold}
    return {
        **asdict(glass),
        "colour": code_of(glass.colour),
        "shades": shades,
        "sheet_area_mm2": row.need_mm2,
        "on_hand_mm2": row.on_hand_mm2,
        "fits": row.fits,
        "buy": [{**asdict(sheet), "sheets": count} for sheet, count in row.buy],
    }


def _draw(found: Found, lying: Beside, path: Path) -> None:
    """Write the picture of the pairs, their names beside it."""
    import io

    from bench.drawing.figures import with_figures
    from bench.drawing.picture import joints_png

    picture = joints_png(found.panel, lying.hardly_number(), most_numbered=MOST_NUMBERED)
    rows = pair_rows(found, lying.hardly()[:MOST_NUMBERED], numbered=True)
    out = io.BytesIO()
    head = (say("pair"), say("one"), say("other"), "cm", say("difference"), say("lighter by"))
    with_figures(picture, head, rows).save(out, format="PNG")
    write_file(path, out.getvalue())
