"""What a revised drawing comes to, in plain words."""

from __future__ import annotations

from collections.abc import Iterator

from bench.drawing.difference import ADDED, CHANGED, GONE, hatching
from bench.drawing.revised import Revision
from bench.job.acts.revising import Revised
from bench.speech import say, say_n, size


def pieces_told(tried: Revised) -> tuple[str, ...]:
    """Say what becomes of the pieces, a sentence each; what does not happen is not told."""
    found = tried.revision
    bare = say(
        "On bare ground {changed} changed, {added} added, {gone} gone, {same} as before.",
        changed=int(found.changed.sum()),
        added=len(found.added),
        gone=int(found.gone.sum()),
        same=int(found.same.sum()),
    )
    told = [_stay(int(found.kept.sum())), bare, *_beside_what_stays(found)]
    if tried.scaled:
        told.append(say("The drawing was brought to the panel's {size}.", size=_size(tried)))
    return tuple(line for line in told if line)


def _stay(count: int) -> str:
    if not count:
        return ""
    return say_n(
        "{count} piece dry or set: it stays as now.", "{count} pieces dry or set: they stay as now.", count
    )


def _beside_what_stays(found: Revision) -> Iterator[str]:
    """Say where the new drawing differs from what stays, lies over it, or reaches over it."""
    if unlike := int(found.unlike.sum()):
        yield say_n(
            "{count} that stays is drawn otherwise, or not at all.",
            "{count} that stay are drawn otherwise, or not at all.",
            unlike,
        )
    if left_out := len(found.left_out):
        yield say_n(
            "{count} piece drawn over what stays: left out.",
            "{count} pieces drawn over what stays: left out.",
            left_out,
        )
    if found.reaching:
        yield say_n(
            "{count} piece reaches a little over what stays, and may need a trim.",
            "{count} pieces reach a little over what stays, and may need a trim.",
            found.reaching,
        )


def lines_told(tried: Revised) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Say the same in few words, a line each: what becomes of the pieces, and what else is worth knowing.

    How each is drawn in the picture of the difference stands beside it.
    """
    found = tried.revision
    stay, changed = int(found.kept.sum()), int(found.changed.sum())
    added, gone = len(found.added), int(found.gone.sum())
    told = [
        say_n("{count} stays (thick line)", "{count} stay (thick line)", stay) if stay else "",
        say("{count} changed ({how})", count=changed, how=hatching(CHANGED)) if changed else "",
        say("{count} added ({how})", count=added, how=hatching(ADDED)) if added else "",
        say("{count} gone ({how})", count=gone, how=hatching(GONE)) if gone else "",
        say("Nothing changes") if not changed + added + gone else "",
    ]
    more = [
        *_over(len(found.left_out), found.reaching),
        say("Sections to lay: {before}, then {after}", before=tried.before, after=tried.after),
        say_n(
            "{count} shaped by hand: divided anew", "{count} shaped by hand: divided anew", len(tried.let_go)
        )
        if tried.let_go
        else "",
        say("Adhesive: {before:.0f} g, then {after:.0f} g", before=tried.before_g, after=tried.after_g),
        _no_glass(sum(x.count for x in found.panel.left_out)),
        say("Brought to {size}", size=_size(tried)) if tried.scaled else "",
    ]
    return tuple(line for line in told if line), tuple(line for line in more if line)


def _over(left_out: int, reaching: int) -> list[str]:
    """Say which new pieces lie over what stays."""
    return [
        say_n("{count} over what stays: left out", "{count} over what stays: left out", left_out)
        if left_out
        else "",
        say_n("{count} reaches a little over it", "{count} reach a little over it", reaching)
        if reaching
        else "",
    ]


def _no_glass(count: int) -> str:
    if not count:
        return ""
    return say_n("{count} shape without glass: left out", "{count} shapes without glass: left out", count)


def _size(tried: Revised) -> str:
    return size(tried.panel.width_mm, tried.panel.height_mm)


def sections_told(tried: Revised) -> str:
    """Say what becomes of the sections that are still drawn, and of their grams."""
    return say(
        "Sections to lay: {before} now, {after} then, {keep} with their number; "
        "{before_g:.0f} g now, {after_g:.0f} g then.",
        before=tried.before,
        after=tried.after,
        keep=tried.keep_number,
        before_g=tried.before_g,
        after_g=tried.after_g,
    )
