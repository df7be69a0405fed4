"""The glass of a drawing in words and tables, for a person to read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from bench.commands.output import caution_lines, table
from bench.drawing.colour import code_of
from bench.drawing.panel import Panel
from bench.finish.bed import Bed
from bench.finish.beside import HARDLY_DE, Beside, Pair
from bench.finish.buying import Wanted
from bench.finish.glass import GlassList
from bench.finish.plain import Part, Plain
from bench.finish.shades import ONE_SHEET_DE
from bench.finish.sheets import Sheet
from bench.finish.stock import OnHand
from bench.speech import area_unit, in_area, in_length, length_unit, say, say_n

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
    grouped = say("equal colours are one glass")
    if like_de:
        grouped = say("colours within ΔE00 {like_de:g} are one glass", like_de=like_de)
    lines = [
        say(
            "{name}: {pieces}, {area} of glass; {grouped}",
            name=panel.name,
            pieces=_pieces(panel.tessera_count),
            area=_flat(panel.glass_area_mm2),
            grouped=grouped,
        ),
        say(
            "sheet to cut up: {area}, with {percent:.0f} % of it lost in cutting",
            area=_flat(sum(row.need_mm2 for row in rows)),
            percent=100 * cut_waste,
        ),
        "",
        *_glasses(rows),
        "",
        *_notes(found),
        *_beds(found.beds),
    ]
    if pairs and found.beside is not None:
        lines += ["", *_pairs(found, found.beside), "", *_plain(found)]
    return "\n".join([*lines, *caution_lines("glass")])


def _pieces(count: int) -> str:
    return say_n("{count} piece", "{count} pieces", count)


def _flat(mm2: float, decimals: int = 0) -> str:
    """Say an area without marks between thousands, as it stands in tables."""
    return say("{value:.{decimals}f} {unit}", value=in_area(mm2), decimals=decimals, unit=area_unit())


def _glasses(rows: tuple[Wanted, ...]) -> list[str]:
    stocked = any(row.on_hand_mm2 for row in rows)
    unit, wide = area_unit(), length_unit()
    head = [say("glass"), say("pieces"), say("laid {unit}", unit=unit), say("sheet {unit}", unit=unit)]
    head += [say("on hand {unit}", unit=unit), say("buy"), say("narrowest {unit}", unit=wide)]
    head += [say("shades {unit}", unit="ΔE00")]
    shown = []
    for row in rows[:MOST_GLASSES]:
        glass = row.glass
        cells = [glass.name, str(glass.pieces), _tenths(in_area(glass.area_mm2))]
        cells += [_tenths(in_area(row.need_mm2)), say("{value:.0f}", value=in_area(row.on_hand_mm2))]
        cells += [_buy(row), _narrow(glass.narrowest_mm)]
        shown.append([*cells, _tenths(glass.shades.spread_de)])
    if not stocked:
        head.pop(4)
        for cells in shown:
            cells.pop(4)
    out = [table(head, shown)]
    if len(rows) > MOST_GLASSES:
        out.append(
            say_n(
                "and {count} glass more; --json holds them all, --like 5 puts like ones together",
                "and {count} glasses more; --json holds them all, --like 5 puts like ones together",
                len(rows) - MOST_GLASSES,
            )
        )
    return out


def _tenths(value: float) -> str:
    return say("{value:.1f}", value=value)


def _narrow(mm: float) -> str:
    """Say a least width in the unit of its column: an inch is coarse."""
    return say("{value:.{decimals}f}", value=in_length(mm), decimals=1 if length_unit() == "mm" else 2)


def _buy(row: Wanted) -> str:
    if not row.fits:
        return say("none fits")
    return " + ".join(_of_sheet(sheet, count) for sheet, count in row.buy) or say("nothing")


def _of_sheet(sheet: Sheet, count: int) -> str:
    """Say how many of a size; its unit stands where the sizes are asked for."""
    return say("{count} of {size}", count=count, size=str(sheet))


def _notes(found: Found) -> list[str]:
    wide = [row.glass for row in found.wanted if not row.glass.shades.one_sheet_may_hold]
    large = [row.glass for row in found.wanted if not row.fits]
    lines = []
    if wide:
        lines.append(
            say(
                "shades wider than ΔE00 {most_de:g} (common practice, no source): one sheet may hold them if "
                "its shade varies, else take a second shade: {names}",
                most_de=ONE_SHEET_DE,
                names=_some(glass.name for glass in wide),
            )
        )
    if large:
        names = _some(glass.name for glass in large)
        lines.append(say("no sheet given holds the longest piece of: {names}", names=names))
    if found.strangers:
        names = _some(row.name for row in found.strangers)
        lines.append(say("on hand, but no glass of this panel: {names}", names=names))
    return lines


def _some(names: Iterable[str], most: int = 6) -> str:
    told = list(names)
    first, more = ", ".join(told[:most]), len(told) - most
    return say("{names} and {count} more", names=first, count=more) if more > 0 else first


def _beds(beds: tuple[Bed, ...]) -> list[str]:
    return [
        say(
            "{what} in {place} ({area}; {bed}): {why}",
            what=_of_kind(bed.kind, bed.count),
            place=bed.place,
            area=_flat(bed.area_mm2, 1),
            bed=_drawn_on(bed),
            why=bed.why,
        )
        for bed in beds
    ]


def _of_kind(kind: str, count: int) -> str:
    if kind == "clear":
        return say_n("{count} piece of clear glass", "{count} pieces of clear glass", count)
    if kind == "iridised":
        return say_n("{count} piece of iridised glass", "{count} pieces of iridised glass", count)
    return say_n("{count} piece of {kind} glass", "{count} pieces of {kind} glass", count, kind=kind)


def _drawn_on(bed: Bed) -> str:
    """Say which adhesive the drawing names, and whether it is white."""
    if not bed.adhesive:
        return say("no adhesive named")
    if bed.suits is None:
        return say("drawn on {adhesive}, whose colour is not known", adhesive=bed.adhesive)
    if bed.suits:
        return say("drawn on {adhesive}, which is white", adhesive=bed.adhesive)
    return say("drawn on {adhesive}, which is not white", adhesive=bed.adhesive)


def _pairs(found: Found, beside: Beside) -> list[str]:
    hardly = beside.hardly()
    most = [beside[k] for k in range(min(MOST_PAIRS, len(beside)))]
    head = (say("glass"), say("beside"), say("shared cm"), "ΔE00", "ΔL*")
    count = say_n(
        "{count} pair shares a joint",
        "{count} pairs share a joint, those of most length first",
        len(beside),
    )
    lines = [count, "", table(head, pair_rows(found, most)), ""]
    if not hardly:
        return [
            *lines,
            say("all of them can be told apart at arm's length (ΔE00 over {most_de:g})", most_de=HARDLY_DE),
        ]
    lines.append(
        say(
            "{count} will hardly be told apart at arm's length (ΔE00 up to {most_de:g}, common practice, no "
            "source)",
            count=len(hardly),
            most_de=HARDLY_DE,
        )
    )
    return [*lines, "", table(head, pair_rows(found, hardly[:MOST_PAIRS]))]


def pair_rows(found: Found, pairs: Iterable[Pair], *, numbered: bool = False) -> list[tuple[str, ...]]:
    """Return rows of a table: the two glasses, shared length, ΔE00 and ΔL*; numbered from 1 if wished."""
    rows: list[tuple[str, ...]] = []
    for k, pair in enumerate(pairs):
        one, other = (found.listed.glasses[g].name for g in (pair.one, pair.other))
        cells = (
            one,
            other,
            _tenths(pair.shared_mm / 10),
            _tenths(pair.de),
            say("{value:+.1f}", value=pair.dL),
        )
        rows.append((str(k + 1), *cells) if numbered else cells)
    return rows


def _plain(found: Found) -> list[str]:
    if not found.plain:
        return [say("no plain area")]
    lines = [say("plain areas, and how each could be varied (shares are common practice, no source)")]
    lines += [_plain_area(found, plain) for plain in found.plain[:MOST_PLAIN]]
    if len(found.plain) > MOST_PLAIN:
        lines.append(say("and {count} more; --json holds them all", count=len(found.plain) - MOST_PLAIN))
    return lines


def _plain_area(found: Found, plain: Plain) -> str:
    return say(
        "{glass}: {pieces}, {area}: {parts}",
        glass=found.listed.glasses[plain.glass].name,
        pieces=_pieces(plain.pieces),
        area=_flat(plain.area_mm2, 1),
        parts="; ".join(_part(p) for p in plain.parts),
    )


def _part(part: Part) -> str:
    return say(
        "{pieces} {what} {colour}", pieces=part.pieces, what=part.told, colour=code_of(part.colour)
    )
