"""A photo or scan, as large as its place allows."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.graphics import Color, InstructionGroup, Rectangle
from kivy.graphics.texture import Texture
from kivy.properties import ObjectProperty, StringProperty
from kivy.uix.widget import Widget
from numpy.typing import NDArray

from bench.drawing.photo import shrunk
from bench.screens.picture.view import View

MOST_TEXTURE_PX = 2048  # every graphics card takes it, and no screen here shows more of a whole picture

Pixels = NDArray[np.uint8]


def texture_of(pixels: Pixels, *, upright: bool = True) -> Texture:
    """Return pixels (rows, columns, 3) as a texture, the first row on top; below where y runs down."""
    rows, columns = pixels.shape[:2]
    texture = Texture.create(size=(columns, rows), colorfmt="rgb")
    texture.blit_buffer(np.ascontiguousarray(pixels).tobytes(), colorfmt="rgb", bufferfmt="ubyte")
    if upright:
        texture.flip_vertical()
    return texture


def _place_of(pixels: Pixels) -> tuple[object, ...]:
    """Name the memory that is looked at: two views of the same pixels the same way round are one picture."""
    return (pixels.ctypes.data, pixels.shape, pixels.strides)


class Photo(Widget):
    """Show a picture's pixels. `view` says where a pixel of it lies on the widget: its "mm" are pixels.

    The pixels are only looked at, never copied whole; what is drawn is a smaller copy.
    """

    test_name = StringProperty("")
    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: Any) -> None:
        self.pixels: Pixels | None = None
        self.tone: NDArray[np.uint8] | None = None
        self._texture: Texture | None = None
        self._small: Pixels | None = None
        self._photo = InstructionGroup()
        super().__init__(**kwargs)
        self.canvas.add(self._photo)
        self.bind(pos=self._place, size=self._place)

    def show(self, pixels: Pixels, tone: NDArray[np.uint8] | None = None) -> None:
        """Show pixels (rows, columns, 3), each value changed to tone[value] where a tone is given."""
        if self.pixels is None or _place_of(pixels) != _place_of(self.pixels):
            self.pixels, self._small = pixels, shrunk(pixels, MOST_TEXTURE_PX)
        self.tone = tone
        assert self._small is not None
        self._texture = texture_of(self._small if tone is None else tone[self._small])
        self._place()

    @property
    def size_px(self) -> tuple[int, int]:
        """Width and height of the picture; (0, 0) while there is none."""
        return (0, 0) if self.pixels is None else (self.pixels.shape[1], self.pixels.shape[0])

    def _place(self, *_: object) -> None:
        self._photo.clear()
        if self._texture is None or min(self.size) <= 0:
            return
        width, height = self.size_px
        self.view = View(self.width, self.height, width, height).fitted()
        left, bottom = self.to_window_px((0.0, float(height)))
        right, top = self.to_window_px((float(width), 0.0))
        self._photo.add(Color(1, 1, 1))
        box = {"pos": (left, bottom), "size": (right - left, top - bottom)}
        self._photo.add(Rectangle(texture=self._texture, **box))

    def to_window_px(self, at: tuple[float, float]) -> tuple[float, float]:
        """Return where a place of the picture lies on the window."""
        x, y = self.view.to_px(*at)
        return round(self.x + x), round(self.y + y)

    def to_picture_px(self, at: tuple[float, float]) -> tuple[float, float]:
        """Return the place of the picture under a place of the window."""
        x, y = self.view.to_mm(at[0] - self.x, at[1] - self.y)
        return x, y
