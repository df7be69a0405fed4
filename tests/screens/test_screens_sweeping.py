"""The collector sweeps between frames, and never while a change is being told."""

import gc
import weakref

from bench.app import AFTER_FIRST_FRAME_S
from bench.screens.offscreen import Stage
from bench.screens.parts.plates import Words
from bench.screens.sweeping import EVERY_S, REFUSE, Sweeper
from bench.screens.theme import theme
from tests.fakes.benches import at_the_bench


def _thrown_away() -> weakref.ref:
    """Make a widget that nothing shows and that holds on to itself, as widgets do."""
    words = Words(text="gone")
    words.itself = words
    return weakref.ref(words)


def _clutter() -> list:
    """Make so much that stays that the collector, left to itself, would have swept several times."""
    return [[k] for k in range(20 * gc.get_threshold()[0])]


def test_left_to_itself_the_collector_sweeps_wherever_something_is_made(stage: Stage) -> None:
    assert gc.isenabled()
    gc.collect()
    gone = _thrown_away()
    held = _clutter()
    assert gone() is None  # a widget may vanish in the midst of whatever makes so much
    assert held


def test_while_the_app_plays_nothing_goes_until_the_frame_is_over(stage: Stage) -> None:
    with at_the_bench(stage):
        stage.run(2 * AFTER_FIRST_FRAME_S)
        gone, told = _thrown_away(), []

        def heard(*_: object) -> None:
            told.append((_clutter(), gone() is not None))

        theme.bind(fit=heard)
        try:
            theme.fit = 0.94
            theme.fit = 1.0
        finally:
            theme.unbind(fit=heard)
        assert [still_there for _, still_there in told] == [True, True]
        stage.run(2 * EVERY_S)
        assert gone() is None
    assert gc.isenabled()


def test_what_has_lived_longer_is_swept_more_seldom(stage: Stage, monkeypatch) -> None:
    swept: list[int] = []
    monkeypatch.setattr(gc, "collect", swept.append)
    monkeypatch.setattr(gc, "get_threshold", lambda: (700, 10, 10))
    for count in ((REFUSE - 1, 11, 11), (REFUSE, 10, 10), (REFUSE, 11, 10), (REFUSE, 3, 11)):
        monkeypatch.setattr(gc, "get_count", lambda count=count: count)
        Sweeper().sweep()
    assert swept == [0, 1, 2]
