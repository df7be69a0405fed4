"""Open Kivy's window where there is no display; what it reads while it is imported is set before."""

from __future__ import annotations

import atexit
import os
import shutil
import sys
import tempfile
from typing import Any

from bench.fault import Fault
from bench.screens.base_looks import use_base_looks
from bench.speech import say

LARGEST_PX = 2560


class NoHiddenWindow(Fault):
    """The libraries that draw without a display are missing."""

    def __init__(self, reason: str) -> None:
        super().__init__(
            say("no picture can be drawn without a display ({reason})", reason=reason),
            todo=say(
                "install the packages libegl1, libgl1 and libgl1-mesa-dri (Debian's names) and try again"
            ),
        )
        self.reason = reason


def prepare(*, surface_px: int = LARGEST_PX, base_looks: bool = True) -> None:
    """Set what Kivy reads while it is imported; a second call does nothing, one that is too late raises.

    base_looks: of Kivy's own looks, read only what the screens use; see use_base_looks.
    """
    if "kivy" in sys.modules:
        if os.environ.get("SDL_VIDEODRIVER") != "offscreen":
            raise RuntimeError("Kivy was imported before hidden_window.prepare()")
        return
    os.environ.update(
        SDL_VIDEODRIVER="offscreen",
        SDL_AUDIODRIVER="dummy",
        KIVY_WINDOW="sdl2",
        KIVY_NO_ARGS="1",
        KIVY_LOG_MODE="PYTHON",
        KIVY_NO_FILELOG="1",
        KIVY_NO_CONFIG="1",
    )
    if "KIVY_HOME" not in os.environ:
        os.environ["KIVY_HOME"] = tempfile.mkdtemp(prefix="potwatch-kivy-")
        atexit.register(shutil.rmtree, os.environ["KIVY_HOME"], ignore_errors=True)
    from kivy.config import Config
    from kivy.logger import Logger

    # every touch device the machine does not have is reported at length; none is wanted here
    Logger.addFilter(lambda record: not str(record.msg).startswith("Input: "))

    Config.set("graphics", "width", str(surface_px))
    Config.set("graphics", "height", str(surface_px))
    Config.set("graphics", "multisamples", "0")
    Config.set("graphics", "maxfps", "0")
    for provider, _ in list(Config.items("input")):
        Config.remove_option("input", provider)
    if base_looks:
        use_base_looks()


def open_window() -> Any:
    """Return Kivy's window; Kivy reports at length why it has none, of which one line is told."""
    from kivy.logger import Logger

    heard: list[str] = []

    def listen(record: Any) -> bool:
        heard.extend(record.getMessage().splitlines())
        return False

    Logger.addFilter(listen)
    try:
        from kivy.core.window import Window
    finally:
        Logger.removeFilter(listen)
    if Window is None:
        reasons = [
            line.partition("RuntimeError: ")[2].strip("b'\"") for line in heard if "RuntimeError: " in line
        ]
        raise NoHiddenWindow(reasons[0] if reasons else say("no window could be opened"))
    return Window
