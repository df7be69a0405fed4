"""A watch over layouts: Kivy counts a box's children, then places them, and falls over one that has left."""

from __future__ import annotations

from functools import wraps
from typing import Any


class LeftWhileLaidOut(AssertionError):
    """Tell of a part that came to a box, or left it, while the box was being laid out."""


def watch() -> None:
    """Have every box, from now on, refuse parts that come or go while it is being laid out."""
    from kivy.uix.boxlayout import BoxLayout
    from kivy.uix.floatlayout import FloatLayout
    from kivy.uix.gridlayout import GridLayout

    placing: list[Any] = []
    for kind in (BoxLayout, GridLayout, FloatLayout):
        _tell(kind, placing)
        _refuse(kind, "add_widget", placing)
        _refuse(kind, "remove_widget", placing)


def _tell(kind: type, placing: list[Any]) -> None:
    lay_out = kind.do_layout

    @wraps(lay_out)  # Kivy finds a bound method again by its name
    def watched(box: Any, *args: Any, **kwargs: Any) -> None:
        placing.append(box)
        try:
            lay_out(box, *args, **kwargs)
        finally:
            placing.pop()

    kind.do_layout = watched


def _refuse(kind: type, name: str, placing: list[Any]) -> None:
    change = getattr(kind, name)

    @wraps(change)
    def watched(box: Any, part: Any, *args: Any, **kwargs: Any) -> None:
        if any(box is one for one in placing):
            raise LeftWhileLaidOut(f"{name} of {part!r} in {box!r}")
        change(box, part, *args, **kwargs)

    setattr(kind, name, watched)
