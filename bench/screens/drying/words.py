"""What Dry says of so many pieces: how they lie, what they mean for the promise, and the ways out."""

from __future__ import annotations

from bench.job.dry_count import Judged
from bench.speech import length, say, say_n, tongue
from bench.speech.measures import MM_PER_CM


def mixes_words(count: int) -> str:
    """Say into how many mixes: 'two mixes'."""
    words = {2: say("two mixes"), 3: say("three mixes"), 4: say("four mixes")}
    return words.get(count) or say("{count} mixes", count=count)


def split_words(mixes: int, *, hopeless: bool) -> str:
    """Say what to do with a section that is too much for one mix; hopeless: not even one piece is sure."""
    if hopeless:
        return say("Go to Setup")
    return say("Split it: {mixes}", mixes=mixes_words(mixes)) if mixes > 1 else say("Split it")


def _along(side: str) -> str:
    """Say along which edge."""
    words = {
        "upper": say("along the upper edge"),
        "lower": say("along the lower edge"),
        "left": say("along the left edge"),
        "right": say("along the right edge"),
    }
    return words.get(side) or say("along the open edge")


def _edge(edge_cm: float) -> str:
    """Say how much of an edge, as a tape would measure it."""
    return length(MM_PER_CM * edge_cm) if tongue().inches else say("{edge_cm:.0f} cm", edge_cm=edge_cm)


def patches_words(count: int) -> str:
    """Say how many patches: '3 patches'."""
    return say_n("{count} patch", "{count} patches", count)


def _ways_out(found: Judged, mixes: int) -> str:
    """Say what to do with more pieces than the promise holds. mixes: that a line on the picture parts."""
    if not found.mixes:
        return say("not even one piece is; see the pace and the adhesive")
    if not found.strip:
        return say("better {mixes}", mixes=mixes_words(mixes)) if mixes else say("better split it")
    what: object = found.leave if found.unit == "pieces" else patches_words(found.leave)
    where = {"what": what, "along": _along(found.side), "edge": _edge(found.edge_cm)}
    if mixes:
        return say("leave {what} {along} ({edge}), or {mixes}", mixes=mixes_words(mixes), **where)
    return say("leave {what} {along} ({edge}), or split it", **where)


def pieces_words(pieces: int, drawn: int, cut: int | None, *, lie_dry: bool) -> str:
    """Say how many pieces lie there or are to be laid, what was drawn where that differs, and the patches."""
    if lie_dry:
        told = [say_n("{count} piece lies dry", "{count} pieces lie dry", pieces)]
    else:
        told = [say_n("{count} piece to lay", "{count} pieces to lay", pieces)]
    if pieces != drawn:
        told.append(say("{count} drawn", count=drawn))
    if cut is not None:
        told.append(say_n("in {count} patch", "in {count} patches", cut))
    return ", ".join(told)


def sure_words(found: Judged, sure: float, mixes: int) -> str:
    """Say how sure one mix is, and what to do where that is less than was promised."""
    in_time = 100 * found.in_time
    if found.fits:
        return say("Sure of {in_time:.0f} in 100", in_time=in_time)
    return say(
        "Sure of {in_time:.0f} in 100, less than {sure:.0f}: {ways_out}",
        in_time=in_time,
        sure=100 * sure,
        ways_out=_ways_out(found, mixes),
    )
