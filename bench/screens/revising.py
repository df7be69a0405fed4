"""A revised drawing over the open panel: the difference as a picture and in words, kept or left."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from kivy.core.window import Window
from kivy.graphics.texture import Texture
from kivy.properties import ObjectProperty, OptionProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.image import Image as Picture

from bench.drawing.difference import as_it_is_png, as_it_would_be_png
from bench.drawing.load import file_bytes
from bench.drawing.panel import Panel
from bench.fault import Fault
from bench.job.acts.revising import Revised, revise, try_revise
from bench.job.revised_words import lines_told
from bench.screens.parts.acts import SideAct

if TYPE_CHECKING:
    from PIL.Image import Image

PICTURE_SHARE = 0.7  # of the window's longer side


class LookAct(SideAct):
    """One of the two looks at the panel; the one that is shown is inverted."""

    look = StringProperty("")
    current = StringProperty("")


class Look(Picture):
    """The picture of the difference."""

    test_name = StringProperty("")


class RevisePart(BoxLayout):
    """Show the panel as it would be and as it is, and what becomes of its pieces.

    Nothing is written before it is kept; `on_leave` tells that it was left.
    """

    desk = ObjectProperty(None)
    says = StringProperty("")
    more = StringProperty("")
    look = OptionProperty("then", options=("then", "now"))
    texture = ObjectProperty(None, allownone=True)
    __events__ = ("on_leave",)

    def __init__(self, **kwargs: Any) -> None:
        self._tried: Revised | None = None
        self._panel: Panel | None = None
        self._looks: dict[str, Any] = {}
        super().__init__(**kwargs)

    def lay(self, path: Path) -> bool:
        """Lay a file over the panel and tell the difference; a fault is told by the card, and False."""
        job = self.desk.job
        try:
            self._tried = try_revise(job, file_bytes(path), path.name)
        except Fault as fault:
            self.desk.tell(fault)
            return False
        self.desk.clear_fault()
        self._panel, self._looks = job.panel, {}
        pieces, more = lines_told(self._tried)
        self.says, self.more = "\n".join(pieces), "\n".join(more)
        self.turn("then")
        return True

    def turn(self, look: str) -> None:
        """Show the panel as it would be then, or as it is now."""
        self.look = look
        if look not in self._looks:
            self._looks[look] = texture_of(self._drawn(look))
        self.texture = self._looks[look]

    def _drawn(self, look: str) -> Image:
        assert self._tried is not None
        assert self._panel is not None
        side_px = max(400, round(PICTURE_SHARE * max(Window.size)))
        if look == "then":
            return as_it_would_be_png(self._tried.revision, long_side_px=side_px)
        return as_it_is_png(self._panel, self._tried.revision, long_side_px=side_px)

    def keep(self) -> None:
        """Write it into the book and go to the panel; what stands in the way is told by the card."""
        if self._tried is None:
            return
        done, _ = self.desk.attempt(revise, self._tried)
        if done:
            self.drop()
            self.desk.go("panel")

    def leave(self) -> None:
        """Leave the panel as it is."""
        self.drop()
        self.dispatch("on_leave")

    def drop(self) -> None:
        """Forget what was tried, and the pictures of it."""
        self._tried = self._panel = self.texture = None
        self._looks.clear()

    def on_leave(self) -> None:
        """Bound by the screen."""


def texture_of(picture: Image) -> Texture:
    """Return a picture as a texture, which comes back by itself where the system let go of it."""
    texture = Texture.create(size=picture.size, colorfmt="rgb")
    texture.flip_vertical()
    pixels = picture.convert("RGB").tobytes()

    def paint(texture: Texture) -> None:
        texture.blit_buffer(pixels, colorfmt="rgb", bufferfmt="ubyte")

    paint(texture)
    texture.add_reload_observer(paint)
    return texture
