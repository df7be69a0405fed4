"""This tablet: look, text and motion at once, and what its file says."""

import pytest

from bench.book import Device
from bench.screens.offscreen import Stage
from bench.screens.theme import theme
from tests.fakes.benches import at_the_bench
from tests.fakes.gloves import complaints

LOW = [(1024, 600, 1, 1.0), (1024, 600, 1, 1.5)]
SIZES = [(1280, 800, 1, 1.0), (800, 1280, 1, 1.0), (2560, 1600, 2, 1.0), *LOW]


@pytest.fixture
def desk(stage: Stage):
    with at_the_bench(stage) as desk:
        yield desk
    theme.still = False


def to_tablet(stage: Stage, desk) -> None:
    desk.go("setup")
    stage.frame(2)
    stage.tap("to_tablet")


def test_look_is_set_at_once_and_kept(stage: Stage, desk) -> None:
    to_tablet(stage, desk)
    stage.tap("set_look")
    stage.tap("choose_1")
    assert theme.look == "dark"
    assert desk.job.store.setting("look") == "dark"


def test_text_grows_and_shrinks_as_it_is_looked_at(stage: Stage, desk) -> None:
    to_tablet(stage, desk)
    stage.tap("set_text_scale")
    sample = stage.find("text_sample")
    before_px = sample.font_size
    for _ in range(5):
        stage.tap("text_more")
    assert theme.text_scale == 1.25
    assert sample.font_size == pytest.approx(1.25 * before_px, abs=1)
    assert desk.job.store.setting("text_scale") == "1.25"
    for _ in range(12):
        stage.tap("text_more")
    assert theme.text_scale == 1.5
    assert stage.find("text_more").disabled
    for _ in range(15):
        stage.tap("text_less")
    assert theme.text_scale == 0.85
    stage.tap("text_close")
    assert stage.find("set_text_scale").says == "Small"


def test_where_no_motion_is_wanted_an_alarm_only_darkens_and_the_next_start_knows(stage: Stage, home) -> None:
    from bench.app import bench_app
    from bench.screens.flash import flash, is_flashing

    with at_the_bench(stage) as desk:
        job = desk.job
        with stage.play(bench_app(job, device=Device(home))) as app:
            to_tablet(stage, app.desk)
            stage.tap("set_still")
            stage.tap("choose_1")
            flash(2)
            seen = set()
            for _ in range(8):
                seen.add(is_flashing())
                stage.run(0.1, dt_s=0.1)
            assert seen == {True}
        theme.still = False
        with stage.play(bench_app(job, device=Device(home))):
            assert theme.still
    theme.still = False


def test_what_a_file_says_that_nobody_wrote_is_passed_over(tmp_path) -> None:
    (tmp_path / "device.json").write_text("{not json")
    device = Device(tmp_path)
    assert device.settings.keys == {}
    device.learn_key("count", "f2")
    assert Device(tmp_path).settings.keys == {"count": "f2"}


VIEWS = {
    "tablet": (),
    "text": ("set_text_scale",),
    "pedal": ("to_pedal", "key_count"),
    "still": ("set_still",),
}


@pytest.mark.parametrize("size", SIZES)
def test_this_tablet_is_fit_for_gloves(stage: Stage, desk, size) -> None:
    seen = {}
    for view, taps in VIEWS.items():
        theme.text_scale = 1.0
        stage.resize(1280, 800)
        to_tablet(stage, desk)
        for name in taps:
            stage.tap(name)
        theme.text_scale = size[3]
        stage.resize(*size[:2], density=size[2])
        stage.frame(6)
        seen[view] = complaints(stage)
    assert {view: wrong for view, wrong in seen.items() if wrong} == {}
