"""The workshop's bottles in words: what is left, what runs out, what is past its date."""

from __future__ import annotations

from datetime import date

from bench.job.stock import Bottle
from bench.job.stock_need import HAIR_G, Lasting, Short
from bench.pace import Coverage

MOST_LOT_SIGNS = 12  # of a lot within a sentence


def short_words(short: Short) -> str:
    """Say what a section lacks, e.g. 'Section 7 takes 6.2 g of hardener; 4.0 g are left in lot A12.'"""
    if short.none_open and short.left_g >= short.needed_g - HAIR_G:
        takes = f"Section {short.section} takes {short.needed_g:.1f} g of {short.part}"
        return f"{takes}, and none is open: open one."
    lot = short.lot if len(short.lot) <= MOST_LOT_SIGNS else f"{short.lot[: MOST_LOT_SIGNS - 1]}…"
    left_g, where = short.left_g, f" in lot {lot}" if lot else ""
    all_g = left_g + short.others_g
    if all_g >= short.needed_g:
        where = f"{where}, the rest in other bottles" if lot else " in one bottle, the rest in others"
    elif short.others_g > HAIR_G:
        left_g, where = all_g, " in all bottles"
    takes = f"Section {short.section} takes {short.needed_g:.1f} g of {short.part}"
    return f"{takes}; {left_g:.1f} g are left{where}."


def lasting_words(found: Lasting) -> str:
    """Say how far a part lasts, in a few words; "" where it lasts for all."""
    if found.until is None:
        return ""
    what = f"{found.part[:1].upper()}{found.part[1:]}"
    return f"{what} lasts until section {found.until}" if found.until else f"{what} lasts for no section"


def past_words(bottle: Bottle) -> str:
    """Say that a bottle is past its date."""
    lot = f", lot {bottle.lot}," if bottle.lot else ""
    day = bottle.last_day
    return f"The {bottle.part}{lot} was good until {day_words(day)}." if day else ""


def day_words(day: date) -> str:
    """Say a day in full, e.g. '31 Mar 2027'."""
    return f"{day.day} {day:%b %Y}"


def bottle_name(bottle: Bottle) -> str:
    """Name a bottle by its part, its lot and its product."""
    lot = f", lot {bottle.lot}" if bottle.lot else ""
    return f"{bottle.part[:1].upper()}{bottle.part[1:]}{lot}: {bottle.product}"


def left_words(bottle: Bottle, today: date) -> str:
    """Say in one line what is left in a bottle, and until when it is good."""
    left = f"{bottle.left_g:.1f} of {bottle.net_g:g} g left"
    if bottle.is_sealed:
        left = f"{bottle.net_g:g} g, unopened"
    day = bottle.last_day
    if day is None:
        return left
    return f"{left}, {'past its date' if bottle.is_past(today) else f'good until {day_words(day)}'}"


def bottle_lines(bottle: Bottle, today: date) -> tuple[str, ...]:
    """Return what is known of a bottle, a fact a line."""
    days = (("Opened", bottle.opened), ("Bought", bottle.bought), ("Made", bottle.made))
    lines = [left_words(bottle, today), *(f"{what} {day_words(day)}" for what, day in days if day)]
    if bottle.overdrawn_g > 0.05:
        lines.append(f"{bottle.overdrawn_g:.1f} g more were poured than were reckoned to be in it: weigh it.")
    return tuple(lines)


def coverage_words(coverage: Coverage, reckoned_g_per_cm2: float) -> str:
    """Say what a bed is reckoned by, e.g. 'Reckoned as your last 4 cups: 0.152 g/cm².'; "" without any."""
    if not coverage.weighed:
        return ""
    cups = "cup" if coverage.weighed == 1 else f"{coverage.weighed} cups"
    used = coverage.bed_factor * reckoned_g_per_cm2
    return f"Reckoned as your last {cups}: {used:.3f} g/cm²."
