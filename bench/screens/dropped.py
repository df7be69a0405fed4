"""A file dropped on the window, where there is one: a desk at the bench has a mouse."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from kivy.core.window import Window


class TakesFiles:
    """Mix in before a screen: `take_file(path)` is called with a file dropped while it is shown."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.fbind("parent", self._watch_drops)  # type: ignore[attr-defined]

    def take_file(self, path: Path) -> None:
        """Do with a file what a tap on its row does."""
        raise NotImplementedError

    def _watch_drops(self, _widget: object, parent: object) -> None:
        # bind, not fbind: the window must not keep a screen that the house has let go
        (Window.bind if parent is not None else Window.unbind)(on_drop_file=self._dropped)

    def _dropped(self, _window: object, name: bytes, *_: object) -> bool:
        if self.get_root_window() is None:  # type: ignore[attr-defined]
            return False
        self.take_file(Path(os.fsdecode(name)))
        return True
