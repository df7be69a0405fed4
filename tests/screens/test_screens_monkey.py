"""A monkey at the bench: whatever is touched, in whatever order, nothing falls and the book stays true."""

import pytest

from bench.job.acts.opening import open_panel
from bench.job.job import Job
from bench.screens.desk import Desk
from bench.screens.offscreen import Stage
from tests.campaigns import monkey
from tests.campaigns.monkey import let_loose
from tests.fakes.benches import start_mix
from tests.gallery.views import a_home


def with_mix(job: Job) -> Job:
    start_mix(job, 1)
    return job


@pytest.mark.parametrize("seed", [1, 2])
def test_whatever_is_touched_nothing_falls_and_the_book_stays_true(stage: Stage, tmp_path, seed: int) -> None:
    with a_home(tmp_path) as home:
        seen = let_loose(stage, home, touches=150, seed=seed)
    assert seen.wrong == []
    assert seen.touches == 150
    assert len(seen.screens) > 3


def test_what_fails_at_every_tick_while_a_mix_runs_is_found_once(stage: Stage, tmp_path, monkeypatch) -> None:
    """The app itself goes on over a running countdown: it shows a card, and the monkey plays on."""
    whole = Desk.tick

    def tick(desk: Desk, dt_s: float) -> None:  # Kivy's clock finds a method by its name
        whole(desk, dt_s)
        if desk.job.state.running_mixes:
            raise ZeroDivisionError("a broken tick")

    monkeypatch.setattr(Desk, "tick", tick)
    monkeypatch.setattr(monkey, "open_panel", lambda *a, **how: with_mix(open_panel(*a, **how)))
    with a_home(tmp_path) as home:
        seen = let_loose(stage, home, touches=6, seed=1)
    assert seen.touches == 6
    (found,) = seen.wrong
    assert "ZeroDivisionError: a broken tick" in found
    assert "in tick" in found


def test_the_same_seed_plays_the_same(stage: Stage, tmp_path) -> None:
    played = []
    for name in ("first", "second"):
        (tmp_path / name).mkdir()
        with a_home(tmp_path / name) as home:
            played.append(let_loose(stage, home, touches=40, seed=3).screens)
            stage.resize(1280, 800)
    assert played[0] == played[1]
