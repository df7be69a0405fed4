"""One section on the picture: as large as it goes, or in its true size."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.job.ground import section_numbers


class SectionView:
    """Follow a section and the mixes it had better be split into on a picture of the panel.

    picture: the panel's picture. desk: of the job, and of the tablet that knows how large its pixels are.
    """

    def __init__(self, picture: Any, desk: Any) -> None:
        self._picture, self._desk = picture, desk
        self._panel: Any = None  # that the picture shows
        self._seen: Any = None
        self._measuring = False  # the screen is measured against a card first
        self._number = 0
        self._mixes: Sequence[Sequence[int]] = ()

    @property
    def shows(self) -> bool:
        """Whether it was shown anything yet."""
        return self._panel is not None

    @property
    def _px_per_mm(self) -> float | None:
        return self._desk.device.settings.px_per_mm  # type: ignore[no-any-return]

    def arrive(self) -> None:
        """Be turned to: look anew, in true size if that was what the screen was measured for."""
        self._seen = None
        self._measuring = self._measuring and self._px_per_mm is not None

    def follow(self, number: int, mixes: Sequence[Sequence[int]]) -> None:
        """Show a section as large as it goes, when it is another one or the division changed.

        number: 0 for none. mixes: the tesserae of each, where there are several.
        """
        job, picture = self._desk.job, self._picture
        self._number, self._mixes = number, mixes
        if self._panel is not job.panel:
            picture.show(job.panel, job.store.readings)
            self._panel, self._seen = job.panel, None
        numbers = section_numbers(job)
        for new, part in zip(self._new_numbers(), mixes[1:], strict=True):
            numbers[list(part)] = new  # so that the line between the mixes is seen
        lives = {n: job.life(n) for n in job.state.sections}
        seen = (number, numbers.tobytes(), tuple(sorted(lives.items())))
        if seen == self._seen:
            return
        turned = self._seen is None or self._seen[:2] != seen[:2]
        self._seen = seen
        picture.divide(numbers, lives, number or None)
        if self._measuring and self._px_per_mm is not None:
            self._measuring = False
            self._true_size()
        elif turned:
            self.focus()

    def _new_numbers(self) -> range:
        """Return the numbers that the mixes beside the first would have."""
        free = max(self._desk.job.state.used_numbers, default=0) + 1
        return range(free, free + max(0, len(self._mixes) - 1))

    def is_fitted(self, view: Any) -> bool:
        """Tell whether the section is as large as it goes in a view of the picture."""
        section = self._picture.section(self._number)
        return view is None or bool(view == view.fitted(section.box_mm if section else None))

    def focus(self) -> None:
        """Show the section as large as it goes; a screen that was turned keeps its true size."""
        at = self._picture.view
        if at is not None and at.px_per_mm == self._px_per_mm:
            self._true_size()
        else:
            self._fit()

    def turn_size(self, *, fitted: bool) -> None:
        """Turn between as large as it goes and its true size, measured first where it never was."""
        if not fitted:
            self._fit()
        elif self._px_per_mm is None:
            self._measuring = True
            self._desk.go("card")
        else:
            self._true_size()

    def _true_size(self) -> None:
        self._picture.true_size(self._number, self._px_per_mm)

    def _fit(self) -> None:
        self._picture.focus_on(self._number, *self._new_numbers())
