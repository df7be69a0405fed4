"""The screens of a soak: the app in a window that nobody sees, turned to one place after another.

Each act of the walk is followed by what a maker sees of it: every second one the panel, between them all
other places in turn, drawn once. The window's own time goes on by a second each time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import cycle
from typing import Any

from bench.screens import hidden_window, offscreen

hidden_window.prepare()

from tests.campaigns.monkey import PLACES, rest, unseen  # noqa: E402
from tests.campaigns.walk import Walk  # noqa: E402

ROUND = tuple(place for other in PLACES if other != "panel" for place in ("panel", other))
DRAWN_EVERY = 25


@contextmanager
def screens(going: Walk) -> Iterator[Callable[[Walk], None]]:
    """Play the app on the walk's panel; the function shows where the walk has come to."""
    from bench.app import bench_app

    stage, places = offscreen.Stage(), cycle(ROUND)
    count = 0

    def show(now: Walk) -> None:
        nonlocal count
        desk: Any = app.desk
        if desk.job is not now.job:
            desk.hold_job(now.job)
        running, at_cup = now.job.state.running_mixes, now.job.state.mix_at_cup
        mix = running[0] if running else at_cup
        section = mix.section if mix else next(iter(now.job.state.sections), 0)
        place = "glueup" if running and count % 2 else "cup" if at_cup and count % 2 else next(places)
        desk.version += 1
        desk.go(place, section=section, mix=mix.number if mix else 0)
        with unseen(stage):
            stage.run(1.0)
            rest(stage, desk)
        count += 1
        if count % DRAWN_EVERY == 0:
            stage.frame(2)

    with stage.play(bench_app(going.job)) as app:
        yield show
