"""Materials, hours and money in words, for papers, screens and the command line alike."""

from __future__ import annotations

from bench.finish.money import Amount, Hours, Money, work_said
from bench.speech import large_first, said, say

# The materials besides adhesives, as prices are kept for them.
GLASS, BOARD, GROUT = "glass", "board", "grout powder"
_PARTS = ", "


def material_key(product: str, part: str) -> str:
    """Return the name of an adhesive's part that prices are kept by, e.g. 'White paste, resin'."""
    return _PARTS.join(filter(None, (product, part)))


def material_said(material: str) -> str:
    """Say a material by the name that prices are kept by."""
    known = {GLASS: say("glass"), BOARD: say("board"), GROUT: say("grout powder")}
    if material in known:
        return known[material]
    product, _, part = material.rpartition(_PARTS)
    parts = {"resin": say("resin"), "hardener": say("hardener")}
    return f"{said(product)}{_PARTS}{parts[part]}" if product and part in parts else said(material)


def amount_said(amount: float, unit: str) -> str:
    """Say how much of a material: '24 g', or '0.135 m²'."""
    if unit == "m²":
        return say("{amount:.3f} {unit}", amount=amount, unit=unit)
    return say("{amount:.0f} {unit}", amount=amount, unit=unit)


def money_said(amount: float) -> str:
    """Say an amount of whatever money the maker uses: '12.50'."""
    return say("{amount:.2f}", amount=amount)


def long_words(one: Hours) -> str:
    """Say how long it took, in minutes below an hour, and whether the book timed it."""
    if one.hours >= 1:
        told = say("{hours:.1f} hours", hours=one.hours)
    else:
        told = say("{minutes:.0f} minutes", minutes=60 * one.hours)
    return say("{long}, by the book", long=told) if one.timed else told


def sum_lines(money: Money) -> list[str]:
    """Say what materials come to, what the panel was sold for, and what an hour earned, where it is known."""
    lines = []
    if any(one.price is not None for one in money.amounts):
        lines.append(say("Materials with a price come to {cost:.2f}.", cost=money.cost))
        if money.unpriced:
            names = "; ".join(map(material_said, money.unpriced))
            lines.append(say("No price, and not counted: {names}.", names=names))
    if money.sold is not None:
        lines.append(say("Sold for {sold:.2f}.", sold=money.sold))
    if money.hourly is not None:
        lines.append(
            say(
                "An hour of work earned {hourly:.2f}, over {hours:.1f} hours.",
                hourly=money.hourly,
                hours=money.total_h,
            )
        )
    return lines


def money_lines(money: Money) -> list[str]:
    """Say materials, hours, cost and what an hour earned, a fact a line; what has no price is named."""
    lines = [_amount_line(one) for one in money.amounts]
    for one in money.hours:
        work = work_said(one.kind)
        lines.append(say("{work}: {long}", work=large_first(work), long=long_words(one)))
    return [*lines, *sum_lines(money)]


def _amount_line(one: Amount) -> str:
    """Say a material, e.g. 'White paste, resin: 24 g used, 61 g still needed'."""
    told = say(
        "{material}: {used} used, {needed} still needed",
        material=material_said(one.material),
        used=amount_said(one.used, one.unit),
        needed=amount_said(one.needed, one.unit),
    )
    return told if one.cost is None else f"{told}; {money_said(one.cost)}"
