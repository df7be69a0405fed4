"""Take the photo here and now, where the machine has a camera that can be used."""

from __future__ import annotations

import logging
from collections.abc import Callable
from functools import cache
from typing import Any

import numpy as np
from kivy.properties import BooleanProperty

from bench.drawing.photo import Picture
from bench.fault import Fault
from bench.screens.parts.paged import Offer
from bench.screens.parts.plates import Rows
from bench.speech import say

WANTED_PX = (1920, 1080)  # cameras give what they have
EXTRA = "camera"  # of the package: it brings what Kivy looks through on Linux and Windows


class CameraSilent(Fault):
    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(
            say("the camera gives no picture ({reason})", reason=reason),
            todo=say("take the photo elsewhere and choose its file"),
        )


class CameraMissing(Fault):
    def __init__(self) -> None:
        super().__init__(
            say("no camera can be used here"),
            todo=say(
                "take the photo with another device and choose its file, or install Potwatch with its extra "
                "'{extra}'",
                extra=EXTRA,
            ),
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


def here(test_name: str, act: Callable[[], object]) -> list[Offer]:
    """Offer to take the photo now, where there is a camera."""
    offer = Offer(say("Take it now"), say("With this camera"), test_name, act, icon="camera")
    return [] if camera_class() is None else [offer]


def none_here(test_name: str, tell: Callable[[Fault], object]) -> list[Offer]:
    """Offer to say what to do where there is none."""
    says = say("No camera can be used here: what to do")
    offer = Offer(say("Take it now"), says, test_name, lambda: tell(CameraMissing()), icon="camera")
    return [offer] if camera_class() is None else []


def picture_of(texture: Any) -> Picture:
    """Return what a texture shows, upright: one that is drawn turned over has its top first in memory."""
    width, height = texture.size
    pixels = np.frombuffer(texture.pixels, np.uint8).reshape(height, width, 4)[..., :3]
    top_first = texture.tex_coords[1] > texture.tex_coords[5]
    return Picture(np.ascontiguousarray(pixels if top_first else pixels[::-1]), None, say("photo taken now"))


def _reason(error: Exception) -> str:
    """Say why; Kivy trips over its own feet where no device answers, or where its driver is a newer one."""
    if isinstance(error, (AttributeError, TypeError)):
        return say("none answers, or its software does not fit")
    return str(error)[:60] or type(error).__name__


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
            raise CameraSilent(_reason(error)) from error

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
