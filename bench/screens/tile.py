"""The sample tile: choose its photo, set its corners, tap the joint of each grout, and keep the colours."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from bench.drawing.dry import Frame
from bench.job.acts import sample
from bench.screens.drying.film_corners import FilmCorners
from bench.screens.finishing.tapped_tile import TappedTile
from bench.screens.parts.naming import AskName
from bench.screens.photo_flow import PhotoFlow, Squared
from bench.speech import say


@dataclass(frozen=True)
class TileTask:
    """The tile lies between the corners. Only its shape matters, which is taken from the photo."""

    frame: Frame


class TileCorners(FilmCorners):
    """Set the four corners of the tile; there is nothing to say of its size."""


class TileScreen(PhotoFlow):
    """Hold one photo of the tile until the colours in it are kept. task: a TileTask."""

    place = "tile"

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.back_text, self.title = say("Back to the colours"), say("Sample tile")
        self._corners = TileCorners(flow=self)
        self._tapped = TappedTile(flow=self)
        self._name = AskName()
        self._name.bind(on_left=lambda _part: self._put(self._tapped))

    def arrive(self) -> None:
        """Begin with a photo."""
        self._forget()
        self.take_margin(None)
        self.choose()

    def leave(self) -> None:
        """Go back to the colours; what was not kept is let go."""
        self._forget()
        self.desk.go("seeing")

    def take_margin(self, margin_mm: float | None) -> None:
        """Take the whole tile: it has no margin."""
        self._take_size(sample.TILE_MM)

    def _take_size(self, size_mm: tuple[float, float]) -> None:
        width_mm, height_mm = self.size_mm = size_mm
        self.task = TileTask(Frame(x_mm=0, y_mm=0, width_mm=width_mm, height_mm=height_mm))

    def look(self) -> None:
        """Square the tile up, to be tapped."""
        self._take_size(sample.size_mm(self.corner_px))

        def use(seen: Squared) -> None:
            self.take_squared(seen)
            self._put(self._tapped)
            self._tapped.arrive()

        work = self.squared(self.task.frame)
        self._begin(say("Looking at the tile …"), work, use, self.turn_to_corners)

    def ask_name(self) -> None:
        """Ask for the name of a grout that is not among those compared."""
        self._name.ask(say("The name on its bag"), (), self._named)
        self._name.turn()
        self._put(self._name)

    def _named(self, name: str) -> None:
        self._put(self._tapped)
        self._tapped.add(name)

    def keep(self) -> None:
        """Keep the colours and the photo, and go back."""
        done, _ = self.desk.attempt(
            sample.measure,
            self._file,
            corner_px=self.corner_px,
            spots=self._tapped.spots,
            state=self._tapped.state,
            card_mm=self._tapped.card_mm,
            size_mm=self.size_mm,
        )
        if done:
            self.leave()
