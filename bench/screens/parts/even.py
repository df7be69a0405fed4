"""Targets that stand side by side are equally high, whichever of their names takes two lines."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from kivy.properties import NumericProperty


class Even:
    """Mix into a box or a grid: have what has `even_px` in one line take the height of the highest there.

    Such a part is as high as it needs, its `alone_px`, and at least `even_px`. A box within a line hands on
    what is asked of it. Parts that are given their height by the layout are left alone.
    """

    even_px = NumericProperty(0)

    def __init__(self, **kwargs: Any) -> None:
        self._told_px = 0.0
        super().__init__(**kwargs)
        self.fbind("even_px", self._trigger_layout)  # type: ignore[attr-defined]

    @property
    def alone_px(self) -> float:
        """Return how high its targets are where they stand in one line; one below the other they are free."""
        if getattr(self, "orientation", "") != "horizontal":
            return 0.0
        return max((part.alone_px for part in self._levelled()), default=0.0)

    def add_widget(self, widget: Any, *args: Any, **kwargs: Any) -> None:
        super().add_widget(widget, *args, **kwargs)  # type: ignore[misc]
        if hasattr(widget, "even_px"):
            widget.bind(minimum_height=self._trigger_layout)  # type: ignore[attr-defined]

    def remove_widget(self, widget: Any, *args: Any, **kwargs: Any) -> None:
        if hasattr(widget, "even_px"):
            widget.unbind(minimum_height=self._trigger_layout)  # type: ignore[attr-defined]
            widget.even_px = 0
        super().remove_widget(widget, *args, **kwargs)  # type: ignore[misc]

    def do_layout(self, *args: Any) -> None:
        for line in self._lines():
            high_px = max((part.alone_px for part in line), default=0.0) if len(line) > 1 else 0.0
            for part in line:
                part.even_px = max(high_px, self.even_px)
        super().do_layout(*args)  # type: ignore[misc]
        self._hand_on()

    def _hand_on(self) -> None:
        """Have the line this stands in know what it needs: its own height would not tell of a lesser need."""
        needed_px, box = self.alone_px, self.parent  # type: ignore[attr-defined]
        if needed_px != self._told_px and isinstance(box, Even):
            self._told_px = needed_px
            box._trigger_layout()  # type: ignore[attr-defined]

    def _levelled(self) -> list[Any]:
        """Return the parts that have a height of their own, first on top or leftmost."""
        return [part for part in reversed(self.children) if hasattr(part, "even_px")]  # type: ignore[attr-defined]

    def _lines(self) -> Iterator[list[Any]]:
        """Yield the parts that stand side by side."""
        parts = [part for part in self._levelled() if part.size_hint_y is None]
        columns = getattr(self, "cols", None)
        if columns:
            yield from (parts[k : k + columns] for k in range(0, len(parts), columns))
        elif getattr(self, "orientation", "") == "horizontal":
            yield parts
        else:
            yield from ([part] for part in parts)
