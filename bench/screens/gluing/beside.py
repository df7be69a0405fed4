"""What a maker asked to have beside the time left of each mix: the count area, the chart for the photo."""

from __future__ import annotations


class Beside:
    """Keep what was asked for of each mix; of another mix nothing was asked for."""

    def __init__(self) -> None:
        self._areas: set[int] = set()
        self._charts: set[int] = set()

    def forget(self) -> None:
        """Forget the mixes of another job, which only share their numbers with those before."""
        self._areas.clear()
        self._charts.clear()

    def turn_area(self, mix: int) -> None:
        """Have the count area, or what was there before."""
        self._areas ^= {mix}

    def turn_photo(self, mix: int) -> None:
        """Have the chart in place of the photo, or the photo again; neither while it is counted there."""
        self._areas.discard(mix)
        self._charts ^= {mix}

    def of(self, mix: int) -> tuple[bool, bool]:
        """Return whether the count area was asked for, and whether the photo may stand."""
        return mix in self._areas, mix not in self._charts
