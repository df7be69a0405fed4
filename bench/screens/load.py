"""Load the typeface and every kv file, once, before the first widget is made."""

from functools import cache

from kivy.core.text import LabelBase
from kivy.core.window import Window
from kivy.lang import Builder

from bench.resources import resource
from bench.screens import widgets  # noqa: F401 - its classes must be known before a kv file names them
from bench.screens.theme import FONT, theme

FIRST = "widgets.kv"


@cache
def load() -> tuple[str, ...]:
    """Load kv/*.kv, the shared looks first, and return their names; a second call does nothing."""
    fonts = resource("assets", "fonts")
    LabelBase.register(FONT, str(fonts / "B612-Regular.otf"), fn_bold=str(fonts / "B612-Bold.otf"))
    paths = sorted(resource("kv").glob("*.kv"), key=lambda path: (path.name != FIRST, path.name))
    Window.clearcolor = theme.surround  # the grey round the glass; costs nothing, unlike a rectangle
    for path in paths:
        Builder.load_file(str(path))
    return tuple(path.name for path in paths)
