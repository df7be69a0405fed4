"""Look at a screen as a hand in a glove and an eye at arm's length do: what is too small, too close, cut."""

from itertools import combinations

from kivy.core.text import Label as CoreLabel
from kivy.metrics import dp
from kivy.uix.label import Label

from bench.screens.parts.press import Pressable
from bench.screens.theme import GAP_DP, TARGET_DP

MAY_BE_CUT = {
    "LetterPad",  # of what is typed the end stays in sight
    "ColourTile",  # the name of a grout, as its maker has it
    "RegionPart",  # this one and those below: the name that the maker gave an area
    "SoPart",
    "MixPart",
}


def _box(widget):
    x, y = widget.to_window(*widget.pos)
    return x, y, x + widget.width, y + widget.height


def _called(widget):
    return widget.test_name or getattr(widget, "text", "") or type(widget).__name__


def targets(stage):
    """Return every widget on the window that takes a touch."""
    return [w for w in stage.widgets() if isinstance(w, Pressable)]


def too_small(stage):
    """Return what is lower or narrower than a glove needs, with its size in dp."""
    return {
        _called(w): (round(w.width / dp(1)), round(w.height / dp(1)))
        for w in targets(stage)
        if min(w.size) < dp(TARGET_DP) - 0.5
    }


def too_close(stage):
    """Return pairs of targets with less than a gap between them, and the distance in dp."""
    found = {}
    for a, b in combinations(targets(stage), 2):
        ax1, ay1, ax2, ay2 = _box(a)
        bx1, by1, bx2, by2 = _box(b)
        apart = max(ax1 - bx2, bx1 - ax2, ay1 - by2, by1 - ay2)
        if apart < dp(GAP_DP) - 0.5:
            found[_called(a), _called(b)] = round(apart / dp(1), 1)
    return found


def off_screen(stage):
    """Return targets and texts that reach beyond the window."""
    width, height = stage.window.size
    seen = [*targets(stage), *(w for w in stage.widgets() if isinstance(w, Label) and w.text)]
    boxes = {_called(w) if isinstance(w, Pressable) else w.text: _box(w) for w in seen}
    return {
        name: box
        for name, box in boxes.items()
        if box[0] < -1 or box[1] < -1 or box[2] > width + 1 or box[3] > height + 1
    }


def _longest_word_px(label):
    plain = label.text if not label.markup else ""
    widths = [0]
    for word in plain.split():
        core = CoreLabel(text=word, font_name=label.font_name, font_size=label.font_size, bold=label.bold)
        core.refresh()
        widths.append(core.texture.size[0])
    return max(widths)


def _is_left_short(label):
    """Tell whether a text ends in an ellipsis where it should not."""
    if not label.shorten or not label.is_shortened:
        return False
    parents = [label]
    while parents[-1].parent is not parents[-1] and parents[-1].parent is not None:
        parents.append(parents[-1].parent)
    return not any(type(part).__name__ in MAY_BE_CUT for part in parents)


def cut(stage):
    """Return texts that do not fit their own box, are broken within a word, or leave their parent's box.

    One that ends in an ellipsis is cut too, unless it may be.
    """
    found = {}
    for label in (w for w in stage.widgets() if isinstance(w, Label) and w.text):
        parent = label.parent
        x1, y1, x2, y2 = _box(label)
        px1, py1, px2, py2 = _box(parent)
        room = f"{label.texture_size} in {[round(s) for s in label.size]}"
        if label.texture_size[0] > label.width + 1 or label.texture_size[1] > label.height + 1:
            found[label.text] = room
        elif _is_left_short(label):
            found[label.text] = f"cut by an ellipsis: {room}"
        elif _longest_word_px(label) > label.width + 1:
            found[label.text] = f"broken within a word: {room}"
        elif parent is not stage.window and (
            x1 < px1 - 1 or y1 < py1 - 1 or x2 > px2 + 1 or y2 > py2 + 1
        ):
            found[label.text] = f"out of its parent {type(parent).__name__}: {room}"
    return found


def _written(label):
    """Return the box that the letters take, within the label's own."""
    x, y, x2, y2 = _box(label)
    wide, high = (min(a, b) for a, b in zip(label.texture_size, label.size, strict=True))
    left = {"center": x + (label.width - wide) / 2, "right": x2 - wide}.get(label.halign, x)
    low = {"middle": y + (label.height - high) / 2, "center": y + (label.height - high) / 2, "top": y2 - high}
    return left, low.get(label.valign, y), left + wide, low.get(label.valign, y) + high


def _holds(target, label):
    """Tell whether a text stands within what a target is made of."""
    part = label
    while part is not None and part.parent is not part:
        if part is target:
            return True
        part = part.parent
    return False


def overlapping(stage):
    """Return texts that lie over other texts, or over a target they do not belong to."""
    labels = [w for w in stage.widgets() if isinstance(w, Label) and w.text]
    boxes = [(label, label.text, _written(label)) for label in labels]
    pairs = [(a, b) for a, b in combinations(boxes, 2) if a[0] is not b[0].parent and b[0] is not a[0].parent]
    pressed = [(w, _called(w), _box(w)) for w in targets(stage)]
    pairs += [(a, b) for a in boxes for b in pressed if not _holds(b[0], a[0])]
    found = {}
    for (_, one, a), (_, other, b) in pairs:
        over = min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])
        if min(over) > 2:
            found[one, other] = tuple(round(length) for length in over)
    return found


def complaints(stage):
    """Return all that is wrong with what is shown now; empty when a maker can work with it."""
    seen = {
        "too small": too_small(stage),
        "too close": too_close(stage),
        "off screen": off_screen(stage),
        "cut": cut(stage),
        "overlapping": overlapping(stage),
    }
    return {what: which for what, which in seen.items() if which}
