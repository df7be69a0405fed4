"""Play the screens where there is no display: a hidden window, a time that obeys, touches and pictures.

`hidden_window.prepare()` must run before anything imports Kivy; `Stage` does it. One process has one window,
hence one stage. It is made at the largest size and shrunk, because the hidden surface never grows. Time
stands still until `run` lets it go on, so five minutes at the bench pass in the blink of an eye and always
the same way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bench.fault import Fault
from bench.screens.hidden_window import LARGEST_PX, open_window, prepare
from bench.speech import say

if TYPE_CHECKING:
    from bench.screens.fingers import Finger

FRAME_S = 1 / 30
_TIMED_MODULES = (
    "kivy.input.motionevent",
    "kivy.uix.behaviors.button",
    "kivy.input.postproc.doubletap",
    "kivy.input.postproc.tripletap",
    "kivy.effects.kinetic",
    "kivy.effects.scroll",
)


class NotOnScreen(Fault):
    """No widget of that name is shown."""

    def __init__(self, name: str, shown: list[str]) -> None:
        super().__init__(
            say("nothing called {name!r} is on the screen", name=name),
            todo=say("there are {names}", names=", ".join(shown)),
        )
        self.name = name
        self.shown = shown


class StageTime:
    """A clock that only moves when told to. `now_s` counts from an arbitrary start. [s]"""

    def __init__(self) -> None:
        self.now_s = 1000.0

    def __call__(self) -> float:
        return self.now_s


class Stage:
    """The hidden window and all that a player does to it."""

    def __init__(self) -> None:
        prepare()
        Window = open_window()
        from kivy.base import EventLoop, runTouchApp
        from kivy.clock import Clock
        from kivy.metrics import Metrics, sp

        sp(1)  # Kivy 2.3.1: reading Metrics.dpi before any sp() leaves sp(1) at -1
        self.window, self.clock, self.metrics, self.loop = Window, Clock, Metrics, EventLoop
        self.time = StageTime()
        self._followers: list[Callable[[float], object]] = []
        self._obey_time()
        self._start = runTouchApp
        if EventLoop.status != "started":
            runTouchApp(embedded=True)
        self.resize(1280, 800)

    def _obey_time(self) -> None:
        import importlib

        self.clock.time = self.time
        self.clock._max_fps = 0
        self.clock._last_tick = self.time()
        for name in _TIMED_MODULES:
            importlib.import_module(name).time = self.time  # type: ignore[attr-defined]

    # -- time ---------------------------------------------------------------------------------------

    @contextmanager
    def followed_by(self, advance: Callable[[float], object]) -> Iterator[None]:
        """Let another clock, e.g. the bench's, move with the stage: `advance(seconds)` at every step."""
        self._followers.append(advance)
        try:
            yield
        finally:
            self._followers.remove(advance)

    def frame(self, count: int = 1, *, dt_s: float = FRAME_S) -> None:
        """Let `count` frames go by, each `dt_s` long."""
        for _ in range(count):
            self.time.now_s += dt_s
            for advance in tuple(self._followers):
                advance(dt_s)
            self.loop.idle()

    def run(self, seconds: float, *, dt_s: float = 0.25) -> None:
        """Let so many seconds go by in frames of at most `dt_s`."""
        left_s = seconds
        while left_s > 1e-9:
            step_s = min(dt_s, left_s)
            self.frame(dt_s=step_s)
            left_s -= step_s

    # -- the window ---------------------------------------------------------------------------------

    def resize(self, width_px: int, height_px: int, *, density: float = 1.0) -> None:
        """Take on a size; beyond LARGEST_PX the surface would hold rubbish, so that raises ValueError."""
        if max(width_px, height_px) > LARGEST_PX:
            raise ValueError(f"{width_px} × {height_px} is larger than the surface of {LARGEST_PX} px")
        self.metrics.density = density
        self.window.size = (width_px / self.window._density, height_px / self.window._density)
        self.frame(3)

    def show(self, widget: Any) -> Any:
        """Put one widget on the window in place of all others, and return it."""
        self.clear()
        self.window.add_widget(widget)
        self.frame(3)
        return widget

    def clear(self) -> None:
        """Take everything off the window."""
        for child in list(self.window.children):
            self.window.remove_widget(child)
        self.frame()

    @contextmanager
    def play(self, app: Any) -> Iterator[Any]:
        """Run an App for the length of a `with`, and leave nothing of it behind."""
        before = {id(event) for event in self.clock.get_events()}
        app._run_prepare()
        self._start(embedded=True)
        self._obey_time()
        self.frame(3)
        try:
            yield app
        finally:
            app.dispatch("on_stop")
            type(app)._running_app = None
            from kivy.app import App

            App._running_app = None
            self.clear()
            for event in self.clock.get_events():
                if id(event) not in before:
                    event.cancel()

    def picture(self, path: Path) -> Path:
        """Write what the window shows as a PNG under exactly this name, and return the path."""
        from kivy.graphics.opengl import GL_RGBA, GL_UNSIGNED_BYTE, glReadPixels
        from PIL import Image

        self.window.canvas.ask_update()
        self.frame(2)
        size = tuple(int(n) for n in self.window.size)
        # on_flip would swap the buffers away: draw once more and read before the swap
        self.window.dispatch("on_draw")
        data = glReadPixels(0, 0, size[0], size[1], GL_RGBA, GL_UNSIGNED_BYTE)
        image = Image.frombytes("RGBA", size, data).convert("RGB")
        path.parent.mkdir(parents=True, exist_ok=True)
        image.transpose(Image.Transpose.FLIP_TOP_BOTTOM).save(path)
        return path

    # -- what is shown ------------------------------------------------------------------------------

    def widgets(self) -> Iterator[Any]:
        """Yield every widget on the window, the topmost first."""
        for root in self.window.children:
            yield from root.walk()

    def names(self) -> list[str]:
        """Return the `test_name` of everything shown."""
        return [w.test_name for w in self.widgets() if getattr(w, "test_name", "")]

    def find(self, name: str) -> Any:
        """Return the widget of that `test_name`; raises NotOnScreen with the names there are."""
        for widget in self.widgets():
            if getattr(widget, "test_name", "") == name:
                return widget
        raise NotOnScreen(name, self.names())

    def texts(self) -> list[str]:
        """Return every text shown, in drawing order."""
        return [w.text for w in self.widgets() if isinstance(getattr(w, "text", None), str) and w.text]

    # -- hands --------------------------------------------------------------------------------------

    def touch(self, x_px: float, y_px: float) -> Finger:
        """Put a finger down and leave it there; it is lifted with `.up()`."""
        from bench.screens.fingers import Finger

        return Finger(self, x_px, y_px)

    def tap_at(self, x_px: float, y_px: float) -> None:
        """Touch and lift at a place of the window, then let half a second go by."""
        self.touch(x_px, y_px).up()
        self.run(0.5)

    def tap(self, name: str) -> Any:
        """Tap the middle of the widget of that `test_name`, and return it."""
        widget = self.find(name)
        self.tap_at(*widget.to_window(*widget.center))
        return widget

    def drag(self, start: tuple[float, float], end: tuple[float, float], *, steps: int = 8) -> None:
        """Draw a finger from one place of the window to another."""
        finger = self.touch(*start)
        for k in range(1, steps + 1):
            part = k / steps
            finger.slide(start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1]))
        finger.up()
        self.run(0.5)

    def press(self, key: str) -> None:
        """Press and release a key: one character, or 'enter', 'escape', 'tab', 'spacebar', ..."""
        from kivy.core.window import Keyboard

        code = Keyboard.keycodes[key]
        text = key if len(key) == 1 else ""
        if not self.window.dispatch("on_key_down", code, 0, text, []):
            self.window.dispatch("on_keyboard", code, 0, text, [])
        self.window.dispatch("on_key_up", code, 0)
        self.frame(2)
