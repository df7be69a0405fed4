"""`potwatch stock`: the workshop's bottles, and what the panel that was worked on last still needs."""

from __future__ import annotations

import argparse
from typing import Any

from bench.adhesive.part_words import part_word
from bench.commands.book import opened_panel
from bench.commands.options import add_panel
from bench.commands.output import table, write_json
from bench.job.calendar import calendar
from bench.job.foretelling import forecast_left, left_of, told
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.stock import Bottle, stock_of
from bench.job.stock_need import Lasting, lasting, needs_of, today_of
from bench.job.stock_words import lasting_words, past_words
from bench.speech import said, say


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_panel(parser)
    parser.add_argument("--json", metavar=say("FILE"), help=say("write it as JSON; '-' is stdout"))


def run(args: argparse.Namespace) -> int:
    with opened_panel(args.panel) as job:
        data = stock_json(job)
    if args.json != "-":
        print(report(data))
    if args.json is not None:
        write_json(data, args.json)
    return 0


def stock_json(job: Job) -> dict[str, Any]:
    """Return the bottles, emptied ones too, and the needs of all that is still to be set.

    needed_g: of what is foretold to be mixed, the part's share in the batches as planned. [g] left_g and
    lasts_until_section are null where no bottle of the part is told of, lasts_until_section also where it
    lasts for all, which `lasts` tells.
    """
    stock, today, measures, left = stock_of(job.store), today_of(job), sizer(job), left_of(job)
    order = [n for day in calendar(job) for n in day.sections]
    far = {(x.product, x.part): x for x in lasting(stock, measures, left, order)}
    needs = needs_of(measures, left)
    mixed_g, planned_g = forecast_left(job).adhesive_g or {}, sum(needs.values())
    return {
        "schema": 1,
        "panel": {"panel_id": job.panel_id, "name": job.state.name},
        "bottles": [
            {
                "number": b.number,
                "product": b.product,
                "part": b.part,
                "lot": b.lot,
                "net_g": b.net_g,
                "left_g": b.left_g,
                "taken_g": b.taken_g,
                "opened": None if b.opened is None else b.opened.isoformat(),
                "good_until": _day(b),
                "past_its_date": b.is_past(today),
                "warning": past_words(b) if b.is_past(today) and not b.emptied else "",
                "empty": b.emptied,
            }
            for _, b in sorted(stock.bottles.items())
        ],
        "needs": [
            {
                "product": product,
                "part": part,
                "needed_g": {p: grams * needed_g / planned_g for p, grams in mixed_g.items()},
                "left_g": stock.left_g(product, part),
                "lasts": _lasts(far.get((product, part))),
                "lasts_until_section": _until(far.get((product, part))),
            }
            for (product, part), needed_g in needs.items()
        ],
    }


def _day(bottle: Bottle) -> str | None:
    return None if bottle.last_day is None else bottle.last_day.isoformat()


def _lasts(found: Lasting | None) -> str:
    """Say how far a part lasts: as a person reads it."""
    if found is None:
        return say("no bottle is told of")
    return lasting_words(found) or say("for all that is left")


def _until(found: Lasting | None) -> int | None:
    return None if found is None else found.until


def report(data: dict[str, Any]) -> str:
    """Return the stock for a person to read."""
    rows = [
        (
            say("{number}  {product}, {part}", number=b["number"], **_named(b)),
            b["lot"] or "–",
            say("{mass_g:.1f}", mass_g=b["left_g"]),
            say("{mass_g:g}", mass_g=b["net_g"]),
            b["opened"] or "–",
            b["good_until"] or "–",
            _state(b),
        )
        for b in data["bottles"]
    ]
    none = say("No bottle is entered yet; the app's Stock screen adds one.")
    bottles = table(_head(), rows) if rows else none
    needs = [
        say(
            "{product}, {part}: {grams} g (10–50–90 %); {had}",
            **_named(x),
            grams=told(x["needed_g"]),
            had=_had(x),
        )
        for x in data["needs"]
    ]
    panel = data["panel"]
    lines = needs or [say("nothing")]
    past = [b["warning"] for b in data["bottles"] if b["warning"]]
    takes = say("{name} (panel {number}) still takes:", name=panel["name"], number=panel["panel_id"])
    return "\n".join([bottles, *past, "", takes, *lines])


def _head() -> tuple[str, ...]:
    bottle, lot, opened = say("bottle"), say("lot"), say("opened")
    return bottle, lot, say("left g"), say("of g"), opened, say("good until"), ""


def _named(entry: dict[str, Any]) -> dict[str, str]:
    """Return the product and the part of a bottle, or of a need, as they are said."""
    return {"product": said(entry["product"]), "part": part_word(entry["part"])}


def _had(need: dict[str, Any]) -> str:
    if need["left_g"] is None:
        return str(need["lasts"])
    return say("{left_g:.1f} g left, {lasts}", left_g=need["left_g"], lasts=_lasts_here(need))


def _lasts_here(need: dict[str, Any]) -> str:
    """Say how far a part lasts, in the middle of a sentence."""
    part, until = part_word(need["part"]), need["lasts_until_section"]
    if until is None:
        return say("for all that is left")
    if until == 0:
        return say("{part} lasts for no section", part=part)
    return say("{part} lasts until section {section}", part=part, section=until)


def _state(bottle: dict[str, Any]) -> str:
    if bottle["empty"]:
        return say("empty")
    if bottle["past_its_date"]:
        return say("past its date")
    return say("in use") if bottle["opened"] else say("unopened")
