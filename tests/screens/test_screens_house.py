"""The house: the way round the bench, what runs elsewhere, and how a mistake is told."""

import gc
import weakref

import pytest

from bench.job.acts import opening
from bench.job.faults import WrongOrder
from bench.screens.fit import SETTLED
from bench.screens.house import SCREENS, House
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, set_section, start_mix

LONG = WrongOrder(  # a mistake of several lines, whatever the sentences of the house come to
    "of all that lies at the bench something lies where nobody who looks for it in the order of work will "
    "find it, and what was said of it before does not tell where",
    "look for it where it was last, or say of it that it is gone",
)
SHORT = WrongOrder("it was said already", "go on with the next step")


@pytest.mark.parametrize("place", ["panel", "dry", "cup", "finish", "book", "open", "setup"])
def test_every_place_is_two_taps_away_from_the_panel(stage: Stage, desk, place) -> None:
    stage.tap("elsewhere")
    stage.tap(f"to_{place}")
    assert place == desk.screen


def test_the_round_leads_back_to_where_one_came_from(stage: Stage, desk) -> None:
    desk.go("finish")
    stage.frame(2)
    stage.tap("elsewhere")
    assert desk.screen == "rounds"
    assert "Back" in stage.texts()
    stage.tap("elsewhere")
    assert desk.screen == "finish"


def test_the_round_says_what_lies_where(stage: Stage, desk) -> None:
    number = min(desk.job.state.sections)
    start_mix(desk.job, number)
    desk.go("rounds")
    stage.frame(2)
    assert "Nothing lies dry" in stage.texts()
    desk.job.clock.advance(60)
    stage.run(1)
    reading = desk.job.reading(1)
    minutes = f"{int(reading.left_s) // 60}:{int(reading.left_s) % 60:02d}"
    assert f"Section {number}: {minutes} left" in stage.texts()
    assert f"0 of {len(desk.job.state.sections)} sections are hard" in stage.texts()


def test_a_mix_that_runs_is_seen_from_every_other_screen_and_one_tap_away(stage: Stage, desk) -> None:
    number = min(desk.job.state.sections)
    mix = start_mix(desk.job, number)
    changed(desk)
    desk.go("book")
    stage.frame(2)
    plate = stage.find(f"watch_{mix}")
    before = plate.text
    assert before.startswith(f"Section {number} is being set: ")
    desk.job.clock.advance(61)
    stage.run(1)
    assert plate.text != before
    stage.tap(f"watch_{mix}")
    assert (desk.screen, desk.mix) == ("glueup", mix)
    assert f"watch_{mix}" not in stage.names()


def test_a_mix_whose_clock_cannot_be_trusted_says_so(stage: Stage, desk) -> None:
    mix = start_mix(desk.job, min(desk.job.state.sections))
    desk.job.clock.reboot(60)
    changed(desk)
    stage.frame(2)
    assert stage.find(f"watch_{mix}").text.endswith("clock unsure")


def test_a_mistake_is_a_card_with_its_remedy_until_it_is_understood(stage: Stage, desk) -> None:
    desk.tell(SHORT)
    stage.frame(2)
    assert "It was said already" in stage.texts()
    assert "Go on with the next step." in stage.texts()
    stage.tap("fault_act")
    assert "fault" not in stage.names()


def test_a_mistake_told_over_a_full_screen_takes_its_place_until_it_is_understood(stage: Stage, desk) -> None:
    desk.go("dry")
    stage.resize(1024, 600)
    stage.frame(4)
    try:
        desk.tell(LONG)
        stage.frame(SETTLED + 4)
        assert stage.find("fault").title.strip()
        assert "as_drawn" not in stage.names()
        stage.tap("fault_act")
        stage.frame(2)
        assert "fault" not in stage.names()
        assert "as_drawn" in stage.names()
    finally:
        stage.resize(1280, 800)
    desk.tell(SHORT)  # a screen with room keeps its place below the card
    stage.frame(SETTLED + 4)
    assert {"fault", "as_drawn"} <= set(stage.names())


def test_a_mistake_names_where_it_is(stage: Stage, desk) -> None:
    done, _ = desk.attempt(opening.set_bench, desk.job.state.bench.model_copy(update={"adhesive": "honey"}))
    stage.frame(2)
    assert not done
    assert any("honey" in text for text in stage.texts())


def test_the_key_lies_under_the_hand_that_works_it(stage: Stage, desk) -> None:
    desk.go("finish")
    stage.frame(2)
    assert stage.find("elsewhere").center_x > stage.window.width / 2
    desk.attempt(opening.set_bench, desk.job.state.bench.model_copy(update={"hand": "left"}))
    stage.frame(2)
    assert stage.find("elsewhere").center_x < stage.window.width / 2


def test_look_and_size_of_text_are_as_they_were_left(stage: Stage, desk) -> None:
    from bench.screens.house import House
    from bench.screens.theme import theme

    desk.job.store.set_setting("look", "dark")
    desk.job.store.set_setting("text_scale", "1.25")
    House(desk=desk)
    assert (theme.look, theme.text_scale) == ("dark", 1.25)


def test_finish_counts_what_is_hard_and_says_when_to_grout(stage: Stage, desk) -> None:
    desk.go("finish")
    stage.frame(2)
    joints_cm2 = (24 * 7 * 12 * 7 - 288 * 6.2**2) / 100  # 24 × 12 squares of 6.2 mm, 7 mm apart
    assert stage.find("joint_area").text == f"{joints_cm2:.0f} cm²"
    assert stage.find("hard").text == f"0 of {len(desk.job.state.sections)}"
    for number in list(desk.job.state.sections):
        set_section(desk.job, number)
        desk.job.clock.advance(24 * 3600)
    changed(desk)
    stage.frame(2)
    assert "the last one is hard from" in stage.find("grout_when").text
    desk.job.clock.advance(14 * 24 * 3600)
    stage.run(40, dt_s=0.5)
    count = len(desk.job.state.sections)
    assert stage.find("hard").text == f"{count} of {count}"
    assert stage.find("grout_when").text == "Every section is hard: grout when you like."


def test_a_closed_app_lets_go_of_its_house_and_its_job(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        for screen in ("dry", "cup", "book", "open", "setup", "finish", "rounds"):
            desk.go(screen)
            stage.frame(2)
        held = [weakref.ref(desk.job), *(weakref.ref(w) for w in stage.window.children)]
    del desk
    stage.frame(2)
    gc.collect()
    assert [ref() for ref in held] == [None, None]


def test_a_house_that_speaks_otherwise_lets_go_of_every_screen_it_had(stage: Stage, desk) -> None:
    house = next(w for w in stage.widgets() if isinstance(w, House))
    for name in SCREENS:  # made, and looked at where they can be
        house.screen(name)
        desk.go(name)
        stage.frame(2)
    held = {name: weakref.ref(house.screen(name)) for name in SCREENS}
    desk.speak(language="de")
    stage.frame(2)
    gc.collect()
    assert [name for name, ref in held.items() if ref() is not None] == []


def test_practice_is_the_same_panel_on_a_fast_clock_and_leaves_no_trace(stage: Stage, desk) -> None:
    real = desk.job
    before = real.store.last_seq(real.panel_id)
    stage.tap("elsewhere")
    stage.tap("to_practice")
    stage.tap("practice_20")
    stage.run(1)
    assert desk.practice
    assert desk.screen == "panel"
    assert desk.job.clock.factor == 20
    assert desk.job is not real
    assert desk.job.clock.factor > 1
    assert desk.job.panel.ids == real.panel.ids
    assert any("no trace in the book" in text for text in stage.texts())
    mix = start_mix(desk.job, min(desk.job.state.sections))
    real.clock.advance(30)
    assert desk.job.reading(mix).spent_s == pytest.approx(30 * desk.job.clock.factor)
    changed(desk)
    stage.tap("elsewhere")
    stage.tap("to_practice")
    stage.run(1)
    assert not desk.practice
    assert desk.job is real
    assert real.store.last_seq(real.panel_id) == before
    assert not any("no trace in the book" in text for text in stage.texts())


def test_nobody_practises_while_a_mix_runs(stage: Stage, desk) -> None:
    start_mix(desk.job, min(desk.job.state.sections))
    changed(desk)
    stage.tap("elsewhere")
    stage.tap("to_practice")
    stage.tap("practice_10")
    stage.run(1)
    assert not desk.practice
    assert "must stay in sight" in stage.find("fault").title


def test_in_practice_a_made_up_hand_sets_the_pieces_without_a_trace(stage: Stage, desk) -> None:
    real = desk.job
    before = real.store.last_seq(real.panel_id)
    desk.practise(10)
    mix = start_mix(desk.job, min(desk.job.state.sections))
    changed(desk)
    desk.go("glueup", mix=mix)
    pieces = desk.job.section(desk.job.mix(mix).section).piece_count
    seen = []
    with stage.followed_by(real.clock.advance):
        for _ in range(10):
            stage.run(12, dt_s=0.5)
            seen.append(desk.job.mix(mix).placed)
    assert seen == sorted(seen)
    assert seen[0] < pieces / 4
    assert seen[-1] == pieces
    assert len(set(seen)) >= 5
    desk.end_practice()
    assert real.store.last_seq(real.panel_id) == before


def test_in_practice_each_screen_says_what_it_is_for(stage: Stage, desk) -> None:
    desk.practise(10)
    told = {}
    for place in ("panel", "dry", "finish", "book", "open", "setup", "workshop"):
        desk.go(place)
        stage.frame(3)
        (told[place],) = (w.text for w in stage.widgets() if getattr(w, "test_name", "") == "practice")
    assert len(set(told.values())) == len(told)
    assert told["dry"] == "Practice 10×: no glue, no trace in the book. Lay and count before mixing."
    desk.end_practice()
