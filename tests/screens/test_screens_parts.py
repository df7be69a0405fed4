"""Numbers, pad, ladder, border and cards."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.screens.offscreen import Stage
from bench.screens.parts.band import hatch, rim_boxes


def pad(stage: Stage, **kwargs):
    from bench.screens.widgets import NumberPad

    made = NumberPad(size_hint_x=0.6, **kwargs)
    made.used = []
    made.bind(on_use=lambda _pad, value: made.used.append(value))
    return stage.show(made)


def tap_all(stage: Stage, keys: str) -> None:
    for key in keys:
        stage.tap({".": "pad_mark", ",": "pad_mark", "<": "pad_back", "!": "pad_use"}.get(key, f"pad_{key}"))


@pytest.mark.parametrize(
    ("keys", "mark", "expected"),
    [
        ("12.3", ".", 12.3),
        ("12,3", ",", 12.3),
        (".5", ".", 0.5),
        ("007", ".", 7.0),
        ("1.25", ".", 1.2),
        ("1..5", ".", 1.5),
        ("58<6", ".", 56.0),
        ("1234567", ".", 123456.0),
    ],
)
def test_what_is_typed_is_what_is_meant(stage: Stage, keys: str, mark: str, expected: float) -> None:
    typed = pad(stage, mark=mark, most=1e9)
    tap_all(stage, keys)
    assert expected == typed.value


def test_nothing_typed_and_numbers_out_of_bounds_cannot_be_used(stage: Stage) -> None:
    typed = pad(stage, least=0.5, most=40, unit="g")
    tap_all(stage, "!")
    assert typed.why_not == "Type a number"
    tap_all(stage, ".4!")
    assert typed.why_not == "At least 0.5"
    tap_all(stage, "<<<58!")
    assert typed.why_not == "At most 40"
    tap_all(stage, "<.8!")
    assert typed.used == [5.8]


def test_whole_numbers_have_no_mark(stage: Stage) -> None:
    typed = pad(stage, decimals=0)
    tap_all(stage, "8.4")
    assert typed.value == 84.0


@given(st.text(alphabet="0123456789.<", max_size=14))
@settings(max_examples=60, deadline=None)
def test_any_typing_leaves_a_number_or_nothing(keys: str) -> None:
    from bench.screens.widgets import NumberPad

    typed = NumberPad()
    for key in keys:
        typed.take_back() if key == "<" else typed.type_sign(key)
    assert (typed.value is None) == (typed.text in ("", "."))
    assert typed.value is None or typed.value >= 0


@pytest.mark.parametrize(
    ("seconds", "expected"),
    [(1066, "17:46"), (0.9, "0:00"), (59.99, "0:59"), (-0.5, "0:00"), (-35, "−0:35"), (6000, "100:00")],
)
def test_time_is_written_in_minutes_and_never_flatters(seconds: float, expected: str) -> None:
    from bench.screens.widgets import minutes_text

    assert expected == minutes_text(seconds)


@pytest.mark.parametrize("text", ["0:00", "17:46", "117:46"])
@pytest.mark.parametrize("size", [(1000, 300), (300, 300), (180, 700)])
def test_a_big_number_fills_its_box_and_is_not_cut(stage: Stage, text: str, size: tuple[int, int]) -> None:
    from bench.screens.widgets import BigNumber

    number = stage.show(BigNumber(text=text, size_hint=(None, None), size=size))
    stage.frame(2)
    assert all(inner <= outer for inner, outer in zip(number.texture_size, size, strict=True))
    assert any(inner >= 0.85 * outer for inner, outer in zip(number.texture_size, size, strict=True))


def test_a_countdown_keeps_its_size_while_it_runs(stage: Stage) -> None:
    from bench.screens.widgets import BigNumber

    number = stage.show(BigNumber(text="11:11"))
    before = number.font_size
    number.text = "08:40"
    assert before == number.font_size


def test_a_rung_tapped_is_chosen_and_told(stage: Stage) -> None:
    from bench.screens.widgets import Ladder

    ladder = Ladder(rungs=[("5.5", "2.8"), ("5.8", "2.9"), ("6.1", "3.1")], prescribed=1)
    told: list[int] = []
    ladder.bind(on_rung=lambda _ladder, k: told.append(k))
    stage.show(ladder)
    stage.tap("rung_2")
    assert told == [2]
    assert [(rung.prescribed, rung.chosen) for rung in reversed(ladder.children)] == [
        (False, False),
        (True, False),
        (False, True),
    ]


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280), (1024, 600)])
def test_five_rungs_fit_half_a_landscape_or_a_portrait_screen(stage: Stage, size: tuple[int, int]) -> None:
    from bench.screens.widgets import Ladder

    stage.resize(*size)
    ladder = stage.show(Ladder(rungs=[(f"{k}.0", f"{k / 2:.1f}") for k in range(10, 15)], size_hint_x=0.6))
    assert ladder.height <= size[1]
    assert min(min(rung.size) for rung in ladder.children) >= 96


@given(
    width=st.floats(50, 3000),
    height=st.floats(50, 3000),
    band=st.floats(1, 200),
    start=st.floats(0, 1),
    end=st.floats(0, 1),
)
@settings(max_examples=100)
def test_the_border_holds_just_the_part_of_the_rim_that_is_left(width, height, band, start, end) -> None:
    """Length along the rim, corners counted once, is the part asked for."""
    thick = min(band, width / 2, height / 2)
    boxes = rim_boxes(width, height, band, start, end)
    rim = 2 * width + 2 * (height - 2 * thick)
    covered = sum(w * h for _, _, w, h in boxes)
    assert max(0.0, end - start) * rim * thick == pytest.approx(covered, rel=1e-6, abs=1e-3)
    assert all(min(x, y) >= -1e-6 for x, y, _, _ in boxes)
    assert all(x + w <= width + 1e-6 and y + h <= height + 1e-6 for x, y, w, h in boxes)


def test_the_border_drains_clockwise_from_the_middle_of_the_top() -> None:
    first = rim_boxes(100, 60, 5, 0.0, 0.01)
    assert [(x, y) for x, y, _, _ in first] == [(50.0, 55.0)]


@given(st.floats(-50, 50), st.floats(-50, 50), st.floats(1, 90), st.floats(1, 90), st.floats(2, 30))
@settings(max_examples=100)
def test_hatching_stays_in_its_box_and_on_one_set_of_diagonals(x, y, width, height, pitch) -> None:
    for x1, y1, x2, y2 in hatch((x, y, width, height), pitch):
        assert x - 1e-6 <= x1 < x2 <= x + width + 1e-6
        assert y - 1e-6 <= y1 < y2 <= y + height + 1e-6
        assert (x1 - y1) / pitch == pytest.approx(round((x1 - y1) / pitch), abs=1e-6)


def test_time_left_is_kept_between_all_and_nothing(stage: Stage) -> None:
    from bench.screens.widgets import DrainingBorder

    border = stage.show(DrainingBorder(left=0.5, marks=[0.5, 0.1]))
    border.left = -0.2
    assert border.left == 0.0
    border.left = 1.7
    assert border.left == 1.0


def test_a_notice_has_an_act_only_while_it_has_a_name(stage: Stage) -> None:
    from bench.screens.widgets import Notice

    notice = Notice(title="Fresh gloves", text="Nitrile", care=True, test_name="gloves")
    told: list[int] = []
    notice.bind(on_act=lambda _notice: told.append(1))
    stage.show(notice)
    assert "gloves_act" not in stage.names()
    notice.act_text = "I have read it"
    stage.frame(2)
    stage.tap("gloves_act")
    assert told == [1]


def test_a_pane_turns_with_the_screen(stage: Stage) -> None:
    from bench.screens.widgets import Pane

    pane = stage.show(Pane())
    assert pane.orientation == "horizontal"
    stage.resize(800, 1280)
    assert pane.orientation == "vertical"
