"""Load the typeface and the kv files, each once: before the first frame only what its screen is made of."""

from functools import cache

from kivy.clock import Clock
from kivy.core.text import LabelBase
from kivy.core.window import Window
from kivy.graphics import Rectangle
from kivy.lang import Builder

from bench.resources import resource
from bench.screens.base_looks import BASE
from bench.screens.theme import FONT, theme

SHARED = "widgets.kv"  # looks that the others build on
FIRST = (SHARED, "house.kv", "panel.kv", "panel_parts.kv", "zoom.kv", "reading.kv", "choice.kv")
PASSES = 60  # of layout within one frame: texts that wrap in boxes that fit them take up to thirty


@cache
def load_first() -> None:
    """Load the typeface and the looks of the house and its first screen; a second call does nothing."""
    fonts = resource("assets", "fonts")
    LabelBase.register(FONT, str(fonts / "B612-Regular.otf"), fn_bold=str(fonts / "B612-Bold.otf"))
    Clock.max_iteration = max(Clock.max_iteration, PASSES)
    Window.clearcolor = theme.surround  # the grey round the glass; costs nothing, unlike a rectangle
    # Kivy fills plates through a white texture: to smooth it takes a seventh of a frame, and shows nothing
    Rectangle().texture.mag_filter = Rectangle().texture.min_filter = "nearest"
    for name in FIRST:
        Builder.load_file(str(resource("kv") / name))


@cache
def load() -> tuple[str, ...]:
    """Load every kv file that is not loaded yet, and return the names of all; a second call does nothing."""
    from bench.screens import widgets  # noqa: F401 - its classes must be known before a rule uses them

    load_first()
    later = sorted(path for path in resource("kv").glob("*.kv") if path.name not in (BASE, *FIRST))
    for path in later:
        Builder.load_file(str(path))
    return (*FIRST, *(path.name for path in later))
