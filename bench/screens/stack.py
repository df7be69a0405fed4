"""Lay parts out in a box, and touch nothing while they are the same: a finger may rest on one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any


def stack(box: Any, parts: Sequence[Any]) -> None:
    """Have exactly these children in this order, first on top or leftmost."""
    if list(reversed(box.children)) == list(parts):
        return
    box.clear_widgets()
    for part in parts:
        if part.parent is not None:
            part.parent.remove_widget(part)
        box.add_widget(part)
