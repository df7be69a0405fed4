"""The workshop's bottles in words: what is left, what runs out, what is past its date."""

from __future__ import annotations

from datetime import date

from bench.adhesive.part_words import part_name, part_word
from bench.job.stock import Bottle
from bench.job.stock_need import HAIR_G, Lasting, Short
from bench.pace.coverage import Coverage
from bench.speech import brief_date, said, say, say_n

MOST_LOT_SIGNS = 12  # of a lot within a sentence


def short_words(short: Short) -> str:
    """Say what a section lacks, e.g. 'Section 7 takes 6.2 g of hardener; 4.0 g are left in lot A12.'"""
    section, needed_g, part = short.section, short.needed_g, part_word(short.part)
    if short.none_open and short.left_g >= short.needed_g - HAIR_G:
        return say(
            "Section {section} takes {needed_g:.1f} g of {part}, and none is open: open one.",
            section=section,
            needed_g=needed_g,
            part=part,
        )
    takes = say(
        "Section {section} takes {needed_g:.1f} g of {part}", section=section, needed_g=needed_g, part=part
    )
    return say("{takes}; {left}.", takes=takes, left=_left_where(short))


def _left_where(short: Short) -> str:
    """Say how much is left of what is short, and where."""
    lot = short.lot if len(short.lot) <= MOST_LOT_SIGNS else f"{short.lot[: MOST_LOT_SIGNS - 1]}…"
    left_g, all_g = short.left_g, short.left_g + short.others_g
    if all_g >= short.needed_g and lot:
        return say("{left_g:.1f} g are left in lot {lot}, the rest in other bottles", left_g=left_g, lot=lot)
    if all_g >= short.needed_g:
        return say("{left_g:.1f} g are left in one bottle, the rest in others", left_g=left_g)
    if short.others_g > HAIR_G:
        return say("{left_g:.1f} g are left in all bottles", left_g=all_g)
    if lot:
        return say("{left_g:.1f} g are left in lot {lot}", left_g=left_g, lot=lot)
    return say("{left_g:.1f} g are left", left_g=left_g)


def lasting_words(found: Lasting) -> str:
    """Say how far a part lasts, in a few words; "" where it lasts for all."""
    if found.until is None:
        return ""
    part = part_name(found.part)
    if found.until:
        return say("{part} lasts until section {section}", part=part, section=found.until)
    return say("{part} lasts for no section", part=part)


def past_words(bottle: Bottle) -> str:
    """Say that a bottle is past its date."""
    day, part = bottle.last_day, part_word(bottle.part)
    if day is None:
        return ""
    if bottle.lot:
        return say(
            "The {part}, lot {lot}, was good until {day}.", part=part, lot=bottle.lot, day=brief_date(day)
        )
    return say("The {part} was good until {day}.", part=part, day=brief_date(day))


def bottle_name(bottle: Bottle, *, within: bool = False) -> str:
    """Name a bottle by its part, its lot and its product; within: in the middle of a sentence."""
    part = part_word(bottle.part) if within else part_name(bottle.part)
    if bottle.lot:
        return say("{part}, lot {lot}: {product}", part=part, lot=bottle.lot, product=said(bottle.product))
    return say("{part}: {product}", part=part, product=said(bottle.product))


def left_words(bottle: Bottle, today: date) -> str:
    """Say in one line what is left in a bottle, and until when it is good."""
    if bottle.is_sealed:
        left = say("{net_g:g} g, unopened", net_g=bottle.net_g)
    else:
        left = say("{left_g:.1f} of {net_g:g} g left", left_g=bottle.left_g, net_g=bottle.net_g)
    day = bottle.last_day
    if day is None:
        return left
    if bottle.is_past(today):
        return say("{left}, past its date", left=left)
    return say("{left}, good until {day}", left=left, day=brief_date(day))


def bottle_lines(bottle: Bottle, today: date) -> tuple[str, ...]:
    """Return what is known of a bottle, a fact a line."""
    lines = [left_words(bottle, today)]
    if bottle.opened:
        lines.append(say("Opened {day}", day=brief_date(bottle.opened)))
    if bottle.bought:
        lines.append(say("Bought {day}", day=brief_date(bottle.bought)))
    if bottle.made:
        lines.append(say("Made {day}", day=brief_date(bottle.made)))
    if bottle.overdrawn_g > 0.05:
        lines.append(
            say(
                "{over_g:.1f} g more were poured than were reckoned to be in it: weigh it.",
                over_g=bottle.overdrawn_g,
            )
        )
    return tuple(lines)


def coverage_words(coverage: Coverage, reckoned_g_per_cm2: float) -> str:
    """Say what a bed is reckoned by, e.g. 'Reckoned as your last 4 cups: 0.152 g/cm².'; "" without any."""
    if not coverage.weighed:
        return ""
    return say_n(
        "Reckoned as your last cup: {used:.3f} g/cm².",
        "Reckoned as your last {count} cups: {used:.3f} g/cm².",
        coverage.weighed,
        used=coverage.bed_factor * reckoned_g_per_cm2,
    )
