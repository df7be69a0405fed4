"""Take the photo here and now, where the machine has a camera that can be used."""

from __future__ import annotations

import logging
from functools import cache
from typing import Any

import numpy as np
from kivy.properties import BooleanProperty

from bench.drawing.photo import Picture
from bench.fault import Fault
from bench.screens.parts.plates import Rows
from bench.speech import say

WANTED_PX = (1920, 1080)  # cameras give what they have


class CameraSilent(Fault):
    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(
            say("the camera gives no picture ({reason})", reason=reason),
            todo=say("take the photo elsewhere and choose its file"),
        )


@cache
def camera_class() -> Any:
    """Return Kivy's camera for this machine; None where it has none that can be used."""
    before = logging.root.manager.disable
    logging.disable(logging.CRITICAL)  # that there is none is no mistake
    try:
        from kivy.core.camera import Camera
    finally:
        logging.disable(before)
    return Camera


def picture_of(texture: Any) -> Picture:
    """Return what a texture shows, upright: one that is drawn turned over has its top first in memory."""
    width, height = texture.size
    pixels = np.frombuffer(texture.pixels, np.uint8).reshape(height, width, 4)[..., :3]
    top_first = texture.tex_coords[1] > texture.tex_coords[5]
    return Picture(np.ascontiguousarray(pixels if top_first else pixels[::-1]), None, say("photo taken now"))


class LiveCamera(Rows):
    """Show what the camera sees until it is taken: `on_taken(picture)`; `on_left` asks to go back."""

    seen = BooleanProperty(False)
    __events__ = ("on_taken", "on_left")

    def __init__(self, **kwargs: Any) -> None:
        self._camera: Any = None
        super().__init__(**kwargs)

    def on_taken(self, picture: Picture) -> None:
        """Bound by the screen."""

    def on_left(self) -> None:
        """Bound by the screen."""

    def begin(self) -> None:
        """Start the camera. Raises CameraSilent."""
        self.seen = False
        try:
            self._camera = camera_class()(index=0, resolution=WANTED_PX, stopped=True)
            self._camera.bind(on_texture=self._follow)
            self._camera.start()
        except Exception as error:  # what a camera's driver raises is not for us to list
            self._camera = None
            raise CameraSilent(str(error)[:60] or type(error).__name__) from error

    def end(self) -> None:
        """Stop the camera, if it runs."""
        if self._camera is not None:
            self._camera.unbind(on_texture=self._follow)
            self._camera.stop()
            self._camera = None

    def _follow(self, camera: Any) -> None:
        image = self.ids.image
        image.texture = camera.texture
        image.canvas.ask_update()
        self.seen = camera.texture is not None

    def take(self) -> None:
        """Take what is seen now."""
        picture = picture_of(self._camera.texture)
        self.end()
        self.dispatch("on_taken", picture)
