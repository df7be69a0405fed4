"""The hidden window does what a window, a clock and a hand do."""

import gc
import os
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from bench.screens.hidden_window import LARGEST_PX
from bench.screens.offscreen import NotOnScreen, Stage


def labelled(text: str = "Weigh"):
    from bench.screens.widgets import Act

    return Act(text=text, test_name="weigh")


@pytest.mark.parametrize(("width", "height", "density"), [(1280, 800, 1), (800, 1280, 1), (2560, 1600, 2)])
def test_a_picture_has_the_size_of_the_screen_and_shows_what_is_on_it(
    stage: Stage, tmp_path: Path, width: int, height: int, density: float
) -> None:
    gc.collect()  # what earlier apps left behind is told of sizes as long as it is there
    stage.resize(width, height, density=density)
    act = stage.show(labelled())
    act.pos = (0, 0)
    path = stage.picture(tmp_path / "one.png")
    image = Image.open(path)
    assert (width, height) == image.size
    assert image.getpixel((width // 4, height - 20 * int(density))) == (21, 21, 21)
    assert image.getpixel((width // 2, 5)) == (119, 119, 119)


def test_a_surface_larger_than_it_was_made_is_refused(stage: Stage) -> None:
    with pytest.raises(ValueError, match="larger"):
        stage.resize(LARGEST_PX + 1, 800)


def test_time_stands_still_until_it_is_let_go_on(stage: Stage) -> None:
    from kivy.clock import Clock

    ticks: list[float] = []
    event = Clock.schedule_interval(ticks.append, 1.0)
    stage.run(300)
    event.cancel()
    assert len(ticks) == 300


def test_another_clock_follows_the_stage(stage: Stage) -> None:
    steps: list[float] = []
    with stage.followed_by(steps.append):
        stage.run(12.5)
    stage.run(1.0)
    assert pytest.approx(sum(steps)) == 12.5


def test_a_name_that_is_not_shown_lists_those_that_are(stage: Stage) -> None:
    stage.show(labelled())
    with pytest.raises(NotOnScreen, match=r"'pour'.*weigh"):
        stage.find("pour")


def test_texts_on_screen_can_be_read_back(stage: Stage) -> None:
    stage.show(labelled("Stir for a minute"))
    assert "Stir for a minute" in stage.texts()


@pytest.mark.slow
def test_missing_libraries_are_named_in_one_line() -> None:
    """A process of its own, whose drawing library is not to be found."""
    code = "from bench.screens.offscreen import Stage\ntry: Stage()\nexcept Exception as fault: print(fault)"
    nowhere = {f"SDL_VIDEO_{name}_DRIVER": "/nonexistent.so" for name in ("EGL", "GL")}
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=Path(__file__).resolve().parents[2],
        env={**os.environ, **nowhere},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0
    assert len(done.stdout.splitlines()) == 1
    assert "Could not load EGL library" in done.stdout
    assert "libegl1, libgl1 and libgl1-mesa-dri" in done.stdout
    assert done.stderr == ""
