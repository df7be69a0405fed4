"""Names that are told apart: what a drawing repeats gets a number, what it does not name gets a name."""

from __future__ import annotations

from collections.abc import Sequence

_LONGEST = 80


def unique_names(names: Sequence[str], invented: str = "t") -> tuple[str, ...]:
    """Return the names in order, the first of equals as it is, the next with -2, -3 …

    An empty name becomes t1, t2 … Nothing made up here equals a name that the drawing gives itself.
    """
    plain = [" ".join(name.split())[:_LONGEST] for name in names]
    taken = set(plain)
    seen: set[str] = set()
    last: dict[str, int] = {}
    out = []
    for name in plain:
        if name and name not in seen:
            seen.add(name)
            out.append(name)
            continue
        number = last.get(name, 1 if name else 0) + 1
        while (made := f"{name}-{number}" if name else f"{invented}{number}") in taken:
            number += 1
        last[name] = number
        taken.add(made)
        out.append(made)
    return tuple(out)
