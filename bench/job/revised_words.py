"""What a revised drawing comes to, in plain words."""

from __future__ import annotations

from bench.drawing.difference import ADDED, CHANGED, GONE, hatching
from bench.job.acts.revising import Revised


def pieces_told(tried: Revised) -> tuple[str, ...]:
    """Say what becomes of the pieces, a sentence each; what does not happen is not told."""
    found = tried.revision
    stay, gone, changed = int(found.kept.sum()), int(found.gone.sum()), int(found.changed.sum())
    unlike, left_out, added = int(found.unlike.sum()), len(found.left_out), len(found.added)
    told = [
        f"{_pieces(stay)} dry or set: {'it stays' if stay == 1 else 'they stay'} as now." if stay else "",
        f"On bare ground {changed} changed, {added} added, {gone} gone, {found.same.sum()} as before.",
        f"{unlike} that {'stays is' if unlike == 1 else 'stay are'} drawn otherwise, or not at all."
        if unlike
        else "",
        f"{_pieces(left_out)} drawn over what stays: left out." if left_out else "",
        f"{_pieces(found.reaching)} reach{'es' if found.reaching == 1 else ''} a little over what stays, "
        "and may need a trim."
        if found.reaching
        else "",
        f"The drawing was brought to the panel's {tried.panel.width_mm:.0f} × {tried.panel.height_mm:.0f} mm."
        if tried.scaled
        else "",
    ]
    return tuple(line for line in told if line)


def lines_told(tried: Revised) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Say the same in few words, a line each: what becomes of the pieces, and what else is worth knowing.

    How each is drawn in the picture of the difference stands beside it.
    """
    found = tried.revision
    pieces = {
        "stay": (int(found.kept.sum()), "thick line"),
        "changed": (int(found.changed.sum()), hatching(CHANGED)),
        "added": (len(found.added), hatching(ADDED)),
        "gone": (int(found.gone.sum()), hatching(GONE)),
    }
    left_out, reaching = len(found.left_out), found.reaching
    no_glass = sum(x.count for x in found.panel.left_out)
    more = [
        f"{left_out} over what stays: left out" if left_out else "",
        f"{reaching} reach{'es' if reaching == 1 else ''} a little over it" if reaching else "",
        f"Sections to lay: {tried.before}, then {tried.after}",
        f"{len(tried.let_go)} shaped by hand: divided anew" if tried.let_go else "",
        f"Adhesive: {tried.before_g:.0f} g, then {tried.after_g:.0f} g",
        f"{no_glass} shapes without glass: left out" if no_glass > 1 else "",
        "1 shape without glass: left out" if no_glass == 1 else "",
        f"Brought to {tried.panel.width_mm:.0f} × {tried.panel.height_mm:.0f} mm" if tried.scaled else "",
    ]
    told = [f"{count} {what} ({how})" for what, (count, how) in pieces.items() if count]
    if not any(count for what, (count, _) in pieces.items() if what != "stay"):
        told.append("Nothing changes")
    return tuple(told), tuple(line for line in more if line)


def sections_told(tried: Revised) -> str:
    """Say what becomes of the sections that are still drawn, and of their grams."""
    return (
        f"Sections to lay: {tried.before} now, {tried.after} then, {tried.keep_number} with their number; "
        f"{tried.before_g:.0f} g now, {tried.after_g:.0f} g then."
    )


def _pieces(count: int) -> str:
    return "1 piece" if count == 1 else f"{count} pieces"
