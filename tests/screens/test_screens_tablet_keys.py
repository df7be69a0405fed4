"""Keys learned by pressing them, a pedal that ends nothing, and the keyboard's way round."""

import pytest

from bench.job.advice import advise
from bench.screens.offscreen import Stage
from bench.screens.theme import theme
from tests.fakes.benches import changed, start_mix
from tests.screens.test_screens_tablet import to_tablet


def learn(stage: Stage, act: str, key: str) -> None:
    stage.tap(f"key_{act}")
    stage.press(key)
    stage.run(0.5)


def glue_up(stage: Stage, desk) -> int:
    mix = start_mix(desk.job, advise(desk.job).section)
    changed(desk)
    desk.go("glueup", mix=mix)
    stage.frame(4)
    return mix


def hold(stage: Stage, key: str, seconds: float) -> None:
    from kivy.core.window import Keyboard

    code = Keyboard.keycodes[key]
    stage.window.dispatch("on_key_down", code, 0, "", [])
    stage.run(seconds, dt_s=0.1)
    stage.window.dispatch("on_key_up", code, 0)
    stage.run(0.1)


def test_a_key_is_learned_by_pressing_it_and_does_one_thing(stage: Stage, desk) -> None:
    to_tablet(stage, desk)
    stage.tap("to_pedal")
    learn(stage, "count", "f5")
    assert desk.device.settings.keys == {"count": "f5"}
    assert stage.find("key_count").says == "F5"
    learn(stage, "stringy", "f5")
    assert desk.device.settings.keys == {"stringy": "f5"}
    stage.tap("keys_forget")
    assert desk.device.settings.keys == {}


def test_escape_and_tab_are_never_learned(stage: Stage, desk) -> None:
    to_tablet(stage, desk)
    stage.tap("to_pedal")
    for key in ("tab", "escape"):
        stage.tap("key_done")
        stage.press(key)
        stage.frame(2)
    assert desk.device.settings.keys == {}
    assert "set_look" in stage.names()


def test_a_pedal_starts_counts_rests_and_says_stringy(stage: Stage, desk) -> None:
    keys = {"contact": "f1", "count": "f2", "pause": "f3", "stringy": "f4", "done": "f5"}
    desk.device.change(keys=keys)
    for name in ("next", "as_drawn", "to_the_cup"):
        stage.tap(name)
    stage.press("f1")
    assert "use_room" in stage.names()  # the room's warmth is not answered by the pedal of first contact
    stage.tap("use_room")
    stage.tap("read_it")
    stage.press("f1")
    stage.frame(2)
    assert desk.screen == "glueup"
    with stage.followed_by(desk.job.clock.advance):
        stage.run(300, dt_s=5)
        for key in ("f2", "f2", "f3"):
            stage.press(key)
            stage.run(1)
        mix = desk.job.mix(desk.mix)
        assert mix.placed == 10
        assert mix.is_paused
        stage.press("f3")
        stage.press("f4")
        stage.run(1)
    assert not mix.is_paused
    assert mix.stringy_s is not None
    assert mix.is_running


def test_one_press_of_the_pedal_ends_nothing_and_a_long_one_asks_first(stage: Stage, desk) -> None:
    desk.device.change(keys={"done": "f5", "count": "f2"})
    mix = glue_up(stage, desk)
    for _ in range(3):
        stage.press("f5")
        stage.run(2, dt_s=0.1)
    assert "all_placed" not in stage.names()
    hold(stage, "f5", 1.3)
    assert "all_placed" in stage.names()
    assert desk.job.mix(mix).is_running
    assert "held once more" in " ".join(stage.texts())
    stage.press("f5")
    stage.run(2, dt_s=0.1)
    assert desk.job.mix(mix).is_running
    hold(stage, "f5", 1.3)
    assert desk.job.mix(mix).closed is not None


def test_a_foot_that_rests_on_the_pedal_is_one_press(stage: Stage, desk) -> None:
    desk.device.change(keys={"done": "f5"})
    mix = glue_up(stage, desk)
    hold(stage, "f5", 9.0)
    assert "all_placed" in stage.names()
    assert desk.job.mix(mix).is_running


def test_pressed_twice_means_it_too_where_a_pedal_cannot_be_held(stage: Stage, desk) -> None:
    desk.device.change(keys={"done": "f5"})
    glue_up(stage, desk)
    stage.press("f5")
    stage.run(0.2, dt_s=0.1)
    stage.press("f5")
    stage.frame(2)
    assert "all_placed" in stage.names()


def test_who_counts_on_was_not_done_after_all(stage: Stage, desk) -> None:
    desk.device.change(keys={"done": "f5", "count": "f2"})
    mix = glue_up(stage, desk)
    hold(stage, "f5", 1.3)
    stage.press("f2")
    stage.frame(3)
    assert "all_placed" not in stage.names()
    assert desk.job.mix(mix).placed == 5


def focused(stage: Stage) -> list[str]:
    return [w.test_name for w in stage.widgets() if getattr(w, "focus", False)]


def test_tab_finds_the_first_target_goes_on_in_order_and_space_acts(stage: Stage, desk) -> None:
    desk.go("setup")
    stage.frame(3)
    seen = []
    for _ in range(4):
        stage.press("tab")
        seen += focused(stage)
    assert seen == ["elsewhere", "set_adhesive", "set_pace_per_min", "set_half_life"]
    stage.press("spacebar")
    stage.frame(3)
    assert "choose_0" in stage.names()


def test_the_ring_is_seen_round_what_has_the_focus(stage: Stage, desk, tmp_path) -> None:
    import numpy as np
    from PIL import Image

    desk.go("setup")
    stage.run(1)
    before = np.asarray(Image.open(stage.picture(tmp_path / "before.png")).convert("L"), int)
    stage.press("tab")
    stage.press("tab")
    after = np.asarray(Image.open(stage.picture(tmp_path / "after.png")).convert("L"), int)
    row = stage.find("set_adhesive")
    x, y = row.to_window(*row.pos)
    line = round(stage.window.height - (y + row.height / 2))
    left = slice(max(0, round(x - theme.gap)), round(x))
    changed_px = np.abs(after[line, left] - before[line, left]) > 60
    assert 2 <= changed_px.sum() <= theme.gap
    elsewhere = np.abs(after - before) > 8
    elsewhere[round(800 - y - row.height - 20) : round(800 - y + 20), : round(x + row.width + 20)] = False
    assert not elsewhere.any()


def test_what_is_no_longer_shown_takes_no_key(stage: Stage, desk) -> None:
    desk.go("setup")
    stage.frame(3)
    stage.press("tab")
    stage.press("tab")
    desk.go("panel")
    stage.frame(3)
    stage.press("enter")
    stage.frame(2)
    assert desk.screen == "panel"
    stage.press("tab")
    assert len(focused(stage)) == 1


@pytest.mark.parametrize("screen", ["dry", "cup", "finish", "book", "open", "setup", "tablet", "rounds"])
def test_escape_leads_back_to_the_panel_and_never_out_of_the_app(stage: Stage, desk, screen) -> None:
    stopped = []
    stage.window.bind(on_request_close=lambda *_: stopped.append(1))
    desk.go(screen)
    stage.frame(3)
    stage.press("escape")
    stage.frame(2)
    assert desk.screen == "panel"
    stage.press("escape")
    assert desk.screen == "panel"
    assert stopped == []


def test_escape_leaves_a_running_glue_up_where_it_is(stage: Stage, desk) -> None:
    mix = glue_up(stage, desk)
    stage.tap("done")
    stage.press("escape")
    stage.frame(3)
    assert "advice" in stage.names()
    stage.press("escape")
    assert desk.screen == "glueup"
    assert desk.job.mix(mix).is_running
