"""What a gloved, shaking or sticky hand sets off, and what it does not."""

import pytest

from bench.screens.offscreen import Stage


@pytest.fixture
def act(stage: Stage):
    from bench.screens.widgets import Act

    act = Act(text="First contact", test_name="first_contact", size_hint_x=0.5)
    act.fired = []
    act.bind(on_act=lambda _act: act.fired.append(stage.time()))
    return stage.show(act)


def test_a_tap_fires_once(stage: Stage, act) -> None:
    stage.tap("first_contact")
    assert len(act.fired) == 1


def test_a_finger_that_slides_off_fires_nothing(stage: Stage, act) -> None:
    stage.drag(act.center, (act.right + 60, act.center_y))
    assert act.fired == []


def test_a_finger_that_slides_off_and_back_fires(stage: Stage, act) -> None:
    finger = stage.touch(*act.center)
    finger.slide(act.right + 60, act.center_y)
    assert not act.pressed
    finger.slide(*act.center)
    finger.up()
    assert len(act.fired) == 1


def test_a_finger_that_comes_from_elsewhere_fires_nothing(stage: Stage, act) -> None:
    stage.drag((act.right + 60, act.center_y), act.center)
    assert act.fired == []


def test_a_bounce_within_a_third_of_a_second_fires_once(stage: Stage, act) -> None:
    for _ in range(2):
        stage.touch(*act.center).up()
    stage.run(1)
    stage.tap("first_contact")
    assert len(act.fired) == 2


def test_a_second_tap_does_not_reach_what_came_up_under_the_finger(stage: Stage, act) -> None:
    from bench.screens.widgets import Act

    later = Act(text="All placed", size_hint_x=0.5)
    fired: list[int] = []
    later.bind(on_act=lambda _act: fired.append(1))
    act.bind(on_act=lambda _act: (stage.window.remove_widget(act), stage.window.add_widget(later)))
    place = act.center
    stage.touch(*place).up()
    stage.touch(*place).up()
    assert fired == []


def test_an_act_that_cannot_be_had_says_why_and_keeps_the_touch(stage: Stage, act) -> None:
    act.why_not = "Read the cautions first"
    stage.frame(2)
    stage.tap("first_contact")
    assert act.fired == []
    assert "Read the cautions first" in stage.texts()
    act.why_not = ""
    stage.tap("first_contact")
    assert len(act.fired) == 1


def test_enter_and_space_do_what_a_finger_does_where_the_focus_is(stage: Stage, act) -> None:
    stage.press("enter")
    assert act.fired == []
    act.focus = True
    stage.press("enter")
    stage.run(1)
    stage.press("spacebar")
    assert len(act.fired) == 2


def test_tab_goes_from_act_to_act(stage: Stage) -> None:
    from bench.screens.widgets import Act, Rows, SideAct

    rows = Rows()
    acts = [Act(text="All placed"), SideAct(text="Stringy"), SideAct(text="Pause", why_not="Nothing runs")]
    for one in acts:
        rows.add_widget(one)
    stage.show(rows)
    acts[0].focus = True
    stage.press("tab")
    assert [one.focus for one in acts] == [False, True, False]
    stage.press("tab")
    assert [one.focus for one in acts] == [True, False, False]


@pytest.mark.parametrize("density", [1, 2])
@pytest.mark.parametrize("kind", ["Act", "SideAct", "Rung", "PadKey"])
def test_targets_are_never_lower_than_a_glove_needs(stage: Stage, kind: str, density: int) -> None:
    """15 mm, 96 dp: more than the 19 mm of MIL-STD-1472E's mitten keys asks would not fit seven rungs."""
    from bench.screens import widgets

    stage.resize(2560 if density == 2 else 1280, 1600 if density == 2 else 800, density=density)
    if kind == "Rung":
        ladder = stage.show(widgets.Ladder(rungs=[("5.8", "2.9"), ("6.4", "3.2")], size_hint_x=0.15))
        stage.frame(3)
        heights = [rung.height for rung in ladder.children]
    elif kind == "PadKey":
        stage.show(widgets.NumberPad(size_hint_x=0.6))
        heights = [stage.find(f"pad_{sign}").height for sign in "17"]
    else:
        heights = [stage.show(getattr(widgets, kind)(text="x")).height]
    assert min(heights) >= 96 * density


def test_a_reason_coming_and_going_moves_no_key_of_the_pad(stage: Stage) -> None:
    from bench.screens.widgets import NumberPad

    stage.show(NumberPad(size_hint_x=0.6))
    before = [tuple(stage.find(f"pad_{sign}").pos) for sign in "1234567890"]
    stage.tap("pad_4")
    assert before == [tuple(stage.find(f"pad_{sign}").pos) for sign in "1234567890"]


def test_text_of_an_act_follows_the_theme_back_and_forth(stage: Stage) -> None:
    from bench.screens.theme import theme
    from bench.screens.widgets import SideAct

    act = stage.show(SideAct(text="Stringy"))
    label = next(w for w in act.walk() if w is not act and getattr(w, "text", "") == "Stringy")
    for look in ("dark", "light", "dark"):
        theme.look = look
        stage.frame(2)
        assert list(theme.ink) == list(label.color)
