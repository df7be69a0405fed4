"""The glass of a drawing in words and tables, for a person to read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from bench.commands.output import caution_lines, table
from bench.drawing import Panel
from bench.finish import (
    HARDLY_DE,
    ONE_SHEET_DE,
    Bed,
    Beside,
    GlassList,
    OnHand,
    Pair,
    Plain,
    Wanted,
    code_of,
)

MOST_GLASSES, MOST_PAIRS, MOST_PLAIN = 40, 20, 8


@dataclass(frozen=True, eq=False)
class Found:
    """All that is told of the glass; beside and plain only where they were asked for."""

    panel: Panel
    listed: GlassList
    wanted: tuple[Wanted, ...]
    beds: tuple[Bed, ...]
    strangers: tuple[OnHand, ...]
    beside: Beside | None = None
    plain: tuple[Plain, ...] = ()

    def with_pairs(self, beside: Beside, plain: tuple[Plain, ...]) -> Found:
        return replace(self, beside=beside, plain=plain)


def report(found: Found, *, like_de: float, cut_waste: float, pairs: bool) -> str:
    """Return the glass list, then what needs a white bed, then pairs and plain areas where asked."""
    panel, rows = found.panel, found.wanted
    need_cm2 = sum(row.need_mm2 for row in rows) / 100
    told = f"{panel.tessera_count} pieces" if panel.tessera_count != 1 else "1 piece"
    grouped = f"colours within ΔE00 {like_de:g} are one glass" if like_de else "equal colours are one glass"
    lines = [
        f"{panel.name}: {told}, {panel.glass_area_mm2 / 100:.0f} cm² of glass; {grouped}",
        f"sheet to cut up: {need_cm2:.0f} cm², with {100 * cut_waste:.0f} % of it lost in cutting",
        "",
        *_glasses(rows),
        "",
        *_notes(found),
        *_beds(found.beds),
    ]
    if pairs and found.beside is not None:
        lines += ["", *_pairs(found, found.beside), "", *_plain(found)]
    return "\n".join([*lines, *caution_lines("glass")])


def _glasses(rows: tuple[Wanted, ...]) -> list[str]:
    stocked = any(row.on_hand_mm2 for row in rows)
    head = ["glass", "pieces", "laid cm²", "sheet cm²", "on hand cm²", "buy", "narrowest mm", "shades ΔE00"]
    shown = []
    for row in rows[:MOST_GLASSES]:
        glass = row.glass
        cells = [glass.name, str(glass.pieces), f"{glass.area_mm2 / 100:.1f}", f"{row.need_mm2 / 100:.1f}"]
        cells += [f"{row.on_hand_mm2 / 100:.0f}", _buy(row), f"{glass.narrowest_mm:.1f}"]
        shown.append([*cells, f"{glass.shades.spread_de:.1f}"])
    if not stocked:
        head.pop(4)
        for cells in shown:
            cells.pop(4)
    out = [table(head, shown)]
    if len(rows) > MOST_GLASSES:
        left = len(rows) - MOST_GLASSES
        out.append(f"and {left} glasses more; --json holds them all, --like 5 puts like ones together")
    return out


def _buy(row: Wanted) -> str:
    if not row.fits:
        return "none fits"
    return " + ".join(f"{count} of {sheet}" for sheet, count in row.buy) or "nothing"


def _notes(found: Found) -> list[str]:
    wide = [row.glass for row in found.wanted if not row.glass.shades.one_sheet_may_hold]
    large = [row.glass for row in found.wanted if not row.fits]
    lines = []
    if wide:
        lines.append(
            f"shades wider than ΔE00 {ONE_SHEET_DE:g} (common practice, no source): one sheet may hold them "
            f"if its shade varies, else take a second shade: {_some(glass.name for glass in wide)}"
        )
    if large:
        lines.append(f"no sheet given holds the longest piece of: {_some(glass.name for glass in large)}")
    if found.strangers:
        lines.append(f"on hand, but no glass of this panel: {_some(row.name for row in found.strangers)}")
    return lines


def _some(names: Iterable[str], most: int = 6) -> str:
    told = list(names)
    more = f" and {len(told) - most} more" if len(told) > most else ""
    return ", ".join(told[:most]) + more


def _beds(beds: tuple[Bed, ...]) -> list[str]:
    lines = []
    for bed in beds:
        named = f"drawn on {bed.adhesive}" if bed.adhesive else "no adhesive named"
        verdict = {True: "which is white", False: "which is not white", None: "whose colour is not known"}
        known = f", {verdict[bed.suits]}" if bed.adhesive else ""
        pieces = "1 piece" if bed.count == 1 else f"{bed.count} pieces"
        lines.append(
            f"{pieces} of {bed.kind} glass in {bed.place} "
            f"({bed.area_mm2 / 100:.1f} cm²; {named}{known}): {bed.why}"
        )
    return lines


def _pairs(found: Found, beside: Beside) -> list[str]:
    hardly = beside.hardly()
    most = [beside[k] for k in range(min(MOST_PAIRS, len(beside)))]
    head = ("glass", "beside", "shared cm", "ΔE00", "ΔL*")
    lines = [f"{len(beside)} pairs share a joint, those of most length first", ""]
    lines += [table(head, pair_rows(found, most)), ""]
    if not hardly:
        return [*lines, f"all of them can be told apart at arm's length (ΔE00 over {HARDLY_DE:g})"]
    lines.append(
        f"{len(hardly)} will hardly be told apart at arm's length "
        f"(ΔE00 up to {HARDLY_DE:g}, common practice, no source)"
    )
    return [*lines, "", table(head, pair_rows(found, hardly[:MOST_PAIRS]))]


def pair_rows(found: Found, pairs: Iterable[Pair], *, numbered: bool = False) -> list[tuple[str, ...]]:
    """Return rows of a table: the two glasses, shared length, ΔE00 and ΔL*; numbered from 1 if wished."""
    rows: list[tuple[str, ...]] = []
    for k, pair in enumerate(pairs):
        one, other = (found.listed.glasses[g].name for g in (pair.one, pair.other))
        cells = (one, other, f"{pair.shared_mm / 10:.1f}", f"{pair.de:.1f}", f"{pair.dL:+.1f}")
        rows.append((str(k + 1), *cells) if numbered else cells)
    return rows


def _plain(found: Found) -> list[str]:
    if not found.plain:
        return ["no plain area"]
    lines = ["plain areas, and how each could be varied (shares are common practice, no source)"]
    for area in found.plain[:MOST_PLAIN]:
        parts = "; ".join(f"{p.pieces} {p.told} {code_of(p.colour)}" for p in area.parts)
        name = found.listed.glasses[area.glass].name
        lines.append(f"{name}: {area.pieces} pieces, {area.area_mm2 / 100:.1f} cm²: {parts}")
    if len(found.plain) > MOST_PLAIN:
        lines.append(f"and {len(found.plain) - MOST_PLAIN} more; --json holds them all")
    return lines
