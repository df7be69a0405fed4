"""Bring an older event up to date when it is read; the row stays as it was written.

A step is named by kind and version, takes what the row held as plain values, and returns it as the next
version would have written it. Steps are never removed: a book may hold events of every version.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

Values = dict[str, Any]
Upcast = Callable[[Values], Values]

# no event has changed since its first version
UPCASTS: dict[tuple[str, int], Upcast] = {}

HEAD = re.compile(r'\{"version":(\d{1,9}),"kind":"([a-z_]{1,80})"')  # as every event is written


def upcast(rows: Iterable[str], steps: Mapping[tuple[str, int], Upcast] | None = None) -> Iterator[str]:
    """Yield stored events as their present versions would be stored; most rows pass as they are.

    steps: those of `UPCASTS` where none are given. Raises ValueError for a row that
    a step cannot read.
    """
    steps = UPCASTS if steps is None else steps
    if not steps:
        yield from rows
        return
    for row in rows:
        yield _stepped(row, steps)


def _stepped(row: str, steps: Mapping[tuple[str, int], Upcast]) -> str:
    head = HEAD.match(row)
    if head is None:
        return row
    kind, version = head[2], int(head[1])
    if (kind, version) not in steps:
        return row
    values: Values = json.loads(row)
    try:
        while (kind, version) in steps:
            values, version = steps[kind, version](values), version + 1
            values = {**values, "version": version}
    except (LookupError, TypeError, AttributeError) as error:
        raise ValueError(f"{kind} of version {head[1]} lacks what it should have: {error}") from error
    return json.dumps(values)
