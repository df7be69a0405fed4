"""One hidden window for all tests of screens; each test finds it empty, light, English and 1280 × 800."""

import gc
from collections.abc import Iterator

import pytest

from bench.screens import hidden_window, offscreen
from bench.speech import speak, tongue

hidden_window.prepare()  # before any test module imports Kivy


@pytest.fixture(scope="session")
def whole_stage() -> offscreen.Stage:
    stage = offscreen.Stage()
    from bench.screens.load import load
    from tests.fakes.laying_out import watch

    watch()
    load()
    return stage


@pytest.fixture
def stage(whole_stage: offscreen.Stage) -> Iterator[offscreen.Stage]:
    from bench.screens import flash
    from bench.screens.theme import theme

    before = tongue()
    yield whole_stage
    speak(before)
    flash.end()
    whole_stage.clear()
    gc.collect()  # what a test showed would otherwise go on following every change of theme and density
    theme.look, theme.text_scale, theme.left_handed, theme.fit = "light", 1.0, False, 1.0
    whole_stage.resize(1280, 800)
    whole_stage.run(1.0)


@pytest.fixture
def desk(stage: offscreen.Stage):
    """The usual small panel, newly opened; modules that begin elsewhere have a desk of their own."""
    from tests.fakes.benches import at_the_bench

    with at_the_bench(stage) as desk:
        yield desk


@pytest.fixture
def home(tmp_path, monkeypatch):
    """A home of its own, empty, that is also where the test runs."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "book"))
    monkeypatch.chdir(tmp_path)
    return tmp_path
