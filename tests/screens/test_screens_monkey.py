"""A monkey at the bench: whatever is touched, in whatever order, nothing falls and the book stays true."""

import pytest

from bench.screens.offscreen import Stage
from tests.campaigns.monkey import let_loose
from tests.gallery.views import a_home


@pytest.mark.parametrize("seed", [1, 2])
def test_whatever_is_touched_nothing_falls_and_the_book_stays_true(stage: Stage, tmp_path, seed: int) -> None:
    with a_home(tmp_path) as home:
        seen = let_loose(stage, home, touches=150, seed=seed)
    assert seen.wrong == []
    assert seen.touches == 150
    assert len(seen.screens) > 3


def test_the_same_seed_plays_the_same(stage: Stage, tmp_path) -> None:
    played = []
    for name in ("first", "second"):
        (tmp_path / name).mkdir()
        with a_home(tmp_path / name) as home:
            played.append(let_loose(stage, home, touches=40, seed=3).screens)
            stage.resize(1280, 800)
    assert played[0] == played[1]
