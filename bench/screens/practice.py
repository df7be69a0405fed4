"""Practise a glue-up where there is no display: the real screens, offscreen, and a picture of each moment.

Nothing is written but the pictures: the book is in memory, and what the drawing library wants to keep goes
into a folder that is gone at the end.
"""

from __future__ import annotations

import os
import tempfile
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import numpy as np

from bench.book import SystemClock
from bench.fault import Fault
from bench.job.job import Job
from bench.job.practice import Moment, play, practice_job
from bench.speech import say

SIZE_PX = (1280, 800)
_SETTLE_FRAMES = 6


class PicturesNotWritable(Fault):
    """The folder for the pictures cannot be made or written to."""

    def __init__(self, folder: Path, reason: str) -> None:
        self.folder = folder
        super().__init__(
            say("no picture can be written ({reason})", reason=reason),
            where=str(folder),
            todo=say("give a folder that may be made or written to"),
        )


class MovedClock:
    """A clock that starts at a given moment and goes on only when it is moved."""

    def __init__(self, start: datetime) -> None:
        self._start, self._passed_s = start, 0.0

    def utc(self) -> datetime:
        return self._start + timedelta(seconds=self._passed_s)

    def boot_s(self) -> float | None:
        return self._passed_s

    def boot_id(self) -> str | None:
        return "practice"

    def advance(self, seconds: float) -> None:
        """Let so many seconds pass."""
        self._passed_s += seconds


def practise_offscreen(data: bytes, name: str, folder: Path, *, seed: int) -> list[Path]:
    """Play a whole glue-up and write a numbered picture of each moment; return their paths.

    Raises NoHiddenWindow, which names the packages, where nothing can be drawn without a display, and
    PicturesNotWritable.
    """
    _make_folder(folder)
    with tempfile.TemporaryDirectory(prefix="potwatch-practice-") as scratch:
        os.environ.setdefault("KIVY_HOME", scratch)
        os.environ.setdefault("MESA_SHADER_CACHE_DISABLE", "true")  # it would write into the home folder
        clock = MovedClock(SystemClock().utc())
        job = practice_job(data, name, clock)
        try:
            stage, desk = _house(job)
            paths = _play(stage, desk, job, clock, folder, seed)
            stage.clear()
        finally:
            job.store.close()
        return paths


def _house(job: Job) -> tuple[Any, Any]:
    """Put the screens on a hidden window; return its stage and the desk."""
    from bench.screens.offscreen import Stage

    stage = Stage()  # before anything else imports Kivy
    from bench.screens.desk import Desk
    from bench.screens.house import House
    from bench.screens.load import load

    load()
    stage.resize(*SIZE_PX)
    desk = Desk(job, practice=True)
    stage.show(House(desk=desk))
    return stage, desk


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        trial = folder / ".potwatch"
        trial.touch()
        trial.unlink()
    except OSError as error:
        raise PicturesNotWritable(folder, error.strerror or say("not allowed")) from None


def _play(stage: Any, desk: Any, job: Job, clock: MovedClock, folder: Path, seed: int) -> list[Path]:
    paths: list[Path] = []
    for moment in play(job, clock.advance, np.random.default_rng(seed)):
        _turn(desk, moment)
        stage.frame(_SETTLE_FRAMES)
        paths.append(folder / f"{len(paths) + 1:02d}-{moment.screen}.png")
        stage.picture(paths[-1])
        print(f"{paths[-1].name}  {moment.title}")
    return paths


def _turn(desk: Any, moment: Moment) -> None:
    """Show the screen of a moment as the book has it now."""
    desk.go(moment.screen, section=moment.section, mix=moment.mix)
    desk.version += 1
    desk.now_s += 0.5
