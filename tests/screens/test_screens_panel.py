"""Panel: the next act and why, any section's card, what remains, and the report on the drawing."""

import re
import time

import pytest

from bench.job.acts import dry
from bench.job.advice import advise
from bench.job.calendar import calendar
from bench.job.foretelling import forecast_left
from bench.resources import resource
from bench.screens.offscreen import Stage
from bench.screens.parts.pages import text_height_px
from tests.fakes.benches import at_the_bench, changed, set_section, start_mix
from tests.fakes.drawings import grid_svg
from tests.fakes.gloves import complaints


def said(stage: Stage) -> str:
    return " ".join(stage.texts()).replace("\u00a0", " ")


def tap_section(stage: Stage, desk, number: int) -> None:
    """Tap a section where its label stands."""
    picture = stage.find("picture")
    x, y = picture.view.to_px(*picture.section(number).anchor_mm)
    stage.tap_at(picture.x + x, picture.y + y)


def divided(stage: Stage, desk) -> None:
    """Wait for the thread that divides."""
    until = time.monotonic() + 20
    while desk.dividing and time.monotonic() < until:
        time.sleep(0.01)
        stage.frame()
    assert not desk.dividing


def test_the_one_big_act_lays_out_the_section_that_is_next_and_says_why(stage: Stage, desk) -> None:
    advice = advise(desk.job)
    assert advice.headline in said(stage)
    assert stage.find("why").text == advice.why
    assert stage.find("picture").next_number == advice.section
    stage.tap("next")
    assert (desk.screen, desk.section) == ("dry", advice.section)


def test_what_lies_dry_is_taken_to_the_cup(stage: Stage, desk) -> None:
    number = advise(desk.job).section
    desk.attempt(dry.lay, number)
    stage.frame(2)
    assert f"Go to the cup for section {number}" in said(stage)
    stage.tap("next")
    assert (desk.screen, desk.section) == ("cup", number)


def test_a_running_mix_goes_before_all_else(stage: Stage, desk) -> None:
    mix = start_mix(desk.job, advise(desk.job).section)
    changed(desk)
    stage.frame(2)
    stage.tap("next")
    assert (desk.screen, desk.mix) == ("glueup", mix)


def test_a_tap_on_a_section_opens_its_card_and_it_can_be_chosen(stage: Stage, desk) -> None:
    other = next(n for n in desk.job.state.sections if n != advise(desk.job).section)
    tap_section(stage, desk, other)
    section = desk.job.section(other)
    facts = stage.find("section_facts").text
    glass_cm2 = len(section.tesserae) * 6.2**2 / 100
    assert f"{len(section.tesserae)} pieces, {glass_cm2:.0f} cm²" in facts
    assert f"{section.expected_s / 60:.0f} min to set" in facts
    assert f"sure of {100 * section.in_time:.0f} in 100" in facts
    assert "White paste" in facts
    assert stage.find("picture").next_number == other
    stage.tap("section_choose")
    assert (desk.screen, desk.section) == ("dry", other)


def test_the_card_closes_and_the_next_act_is_back(stage: Stage, desk) -> None:
    tap_section(stage, desk, max(desk.job.state.sections))
    assert "next" not in stage.names()
    stage.tap("section_close")
    assert "next" in stage.names()
    assert stage.find("picture").next_number == advise(desk.job).section


def test_a_set_section_says_when_it_is_firm_and_hard(stage: Stage, desk) -> None:
    number = advise(desk.job).section
    set_section(desk.job, number)
    changed(desk)
    stage.frame(2)
    tap_section(stage, desk, number)
    firm, hard = desk.job.firm_utc(number), desk.job.hard_utc(number)
    facts = stage.find("section_facts").text
    assert f"firm from {firm.astimezone():%H:%M}" in facts
    assert f"hard from {hard.astimezone():%A %H:%M}" in facts
    assert not {"section_firm", "section_choose"} & set(stage.names())


def test_the_picture_says_how_far_each_section_is_and_until_when(stage: Stage) -> None:
    with at_the_bench(stage, resource("assets", "demo", "lemons.svg").read_bytes()) as desk:
        number = advise(desk.job).section
        set_section(desk.job, number)
        changed(desk)
        stage.frame(2)
        picture = stage.find("picture")
        firm = desk.job.firm_utc(number).astimezone()
        assert picture.notes == {number: f"firm {firm:%H:%M}"}
        lines = next(lines for s, lines, _ in picture._labels.shown if s.number == number)
        assert " ".join(" ".join(line) for line in lines) in (
            f"{number} soft firm {firm:%H:%M}",
            f"{number} soft, firm {firm:%H:%M}",
        )
        desk.attempt(dry.lay, advise(desk.job).section)
        stage.frame(2)
        assert picture._pointer.said == (str(advise(desk.job).section), "dry")
        desk.job.clock.reboot(60)
        changed(desk)
        stage.frame(2)
        assert picture.notes == {}  # unsure: nobody knows until when


def test_an_unsure_cure_is_tried_by_hand(stage: Stage, desk) -> None:
    number = advise(desk.job).section
    set_section(desk.job, number)
    desk.job.clock.reboot(60)
    changed(desk)
    stage.frame(2)
    tap_section(stage, desk, number)
    stage.tap("section_firm")
    assert desk.job.life(number) == "firm"
    stage.tap("section_hard")
    assert desk.job.life(number) == "hard"


def test_a_section_can_be_chipped_out_and_its_ground_is_divided_anew(stage: Stage, desk) -> None:
    number = advise(desk.job).section
    set_section(desk.job, number)
    changed(desk)
    stage.frame(2)
    tap_section(stage, desk, number)
    stage.tap("section_chip")
    divided(stage, desk)
    assert number not in desk.job.state.sections
    assert "section_facts" not in stage.names()
    assert {s.stage for s in desk.job.state.sections.values()} == {"drawn"}


def test_undo_names_what_it_takes_back(stage: Stage, desk) -> None:
    assert stage.find("undo").disabled
    number = advise(desk.job).section
    desk.attempt(dry.lay, number)
    stage.frame(2)
    assert stage.find("undo").says.startswith(f"Section {number} lies dry")
    stage.tap("undo")
    assert desk.job.life(number) == "drawn"
    assert stage.find("undo").disabled


def test_first_contact_is_no_act_that_undo_offers(stage: Stage, desk) -> None:
    start_mix(desk.job, advise(desk.job).section)
    changed(desk)
    stage.frame(2)
    assert stage.find("undo").disabled


def test_where_all_ground_lies_beside_soft_work_the_act_waits(stage: Stage) -> None:
    with at_the_bench(stage, grid_svg(16, 12)) as desk:
        while advise(desk.job).section is not None:
            set_section(desk.job, advise(desk.job).section)
        changed(desk)
        stage.frame(2)
        act = stage.find("next")
        assert act.disabled
        stage.tap("next")
        assert desk.screen == "panel"
        desk.job.clock.advance(3 * 24 * 3600)
        stage.run(6, dt_s=0.5)
        assert advise(desk.job).headline in said(stage)


def test_what_remains_is_foretold_after_the_first_frame(stage: Stage, desk) -> None:
    stage.run(0.5)
    foretold = forecast_left(desk.job).glue_ups
    assert stage.find("outlook").text.startswith(f"About {foretold['p50']:.0f} glue-ups to go")
    desk.dividing = True
    stage.run(0.5)
    assert stage.find("outlook").text == "Dividing anew …"


def test_what_remains_is_told_on_two_lines_at_the_usual_size(stage: Stage) -> None:
    with at_the_bench(stage, resource("assets", "demo", "lemons.svg").read_bytes()) as desk:
        stage.run(0.5)
        outlook = stage.find("outlook")
        last = calendar(desk.job)[-1].date
        assert outlook.text.endswith(f"until {last.day} {last:%b}")
        one_line = text_height_px("x", outlook.width, outlook.font_size, False)
        assert outlook.height < 2.5 * one_line


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
@pytest.mark.parametrize("left_handed", [False, True])
def test_one_touch_gives_the_picture_the_whole_screen_and_one_takes_it_back(
    stage: Stage, desk, size, left_handed: bool
) -> None:
    from bench.screens.theme import theme

    theme.left_handed = left_handed
    stage.resize(*size)
    picture = stage.find("picture")
    before = picture.width * picture.height
    stage.tap("zoom_in")
    stage.tap("zoom_fit")
    assert "next" in stage.names()  # it fits again, no more
    for back in (lambda: stage.tap("whole_back"), lambda: stage.press("escape")):
        stage.tap("zoom_fit")
        stage.frame(4)
        assert "next" not in stage.names()
        assert picture.width * picture.height > 1.25 * before
        assert picture.next_number == advise(desk.job).section
        assert picture.pointing
        assert complaints(stage) == {}
        if size[0] > size[1]:
            assert (stage.find("whole_back").center_x < picture.center_x) == left_handed
        back()
        stage.frame(4)
        assert "next" in stage.names()
        assert desk.screen == "panel"
        assert picture.width * picture.height == pytest.approx(before)


def test_over_the_whole_screen_a_running_mix_still_shows_and_a_tap_opens_a_card(stage: Stage, desk) -> None:
    mix = start_mix(desk.job, advise(desk.job).section)
    changed(desk)
    stage.frame(2)
    stage.tap("zoom_fit")
    stage.frame(4)
    assert f"watch_{mix}" in stage.names()
    tap_section(stage, desk, max(desk.job.state.sections))
    stage.frame(4)
    assert "section_facts" in stage.names()
    assert "undo" in stage.names()


def test_the_picture_is_zoomed_by_keys(stage: Stage, desk) -> None:
    picture = stage.find("picture")
    whole = picture.view.px_per_mm
    stage.tap("zoom_in")
    assert picture.view.px_per_mm > whole
    stage.tap("zoom_out")
    stage.tap("zoom_out")
    assert picture.view.px_per_mm < whole
    stage.tap("zoom_fit")
    assert picture.view.px_per_mm == pytest.approx(whole)


def test_the_report_on_the_drawing_is_shown_once_and_kept_at_hand(stage: Stage) -> None:
    drawing = grid_svg(12, 8).replace(b"</svg>", b'<text x="3" y="3">Blue</text></svg>')
    with at_the_bench(stage, drawing) as desk:
        assert "Left out: 1 × text" in said(stage)
        stage.tap("reading_close")
        assert "reading_close" not in stage.names()
        desk.go("book")
        desk.go("panel")
        stage.frame(2)
        assert "reading_close" not in stage.names()
        stage.tap("report")
        assert "Left out: 1 × text" in said(stage)


def test_a_clean_drawing_has_no_report(stage: Stage, desk) -> None:
    assert not {"report", "reading_close"} & set(stage.names())


def test_the_acts_lie_under_the_working_hand_or_below_on_a_tall_screen(stage: Stage, desk) -> None:
    from bench.screens.theme import theme

    assert stage.find("next").center_x > stage.find("picture").center_x
    theme.left_handed = True
    stage.frame(2)
    assert stage.find("next").center_x < stage.find("picture").center_x
    stage.resize(800, 1280)
    assert stage.find("next").top < stage.find("picture").y


def test_the_days_are_foreseen_a_line_each_and_every_section_is_in_them_once(stage: Stage, desk) -> None:
    stage.tap("days")
    stage.frame(4)
    days = calendar(desk.job)
    assert sorted(n for day in days for n in day.sections) == sorted(desk.job.state.sections)
    first = days[0].date
    assert f"{first:%a} {first.day} {first:%b}: {days[0].sections[0]}" in said(stage)
    assert complaints(stage) == {}
    while "To mix" not in said(stage) and "reading_more" in stage.names():
        stage.tap("reading_more")
        stage.frame(4)
    assert re.search(r"resin: \d+–\d+–\d+ g", said(stage))
    stage.tap("reading_close")
    assert "next" in stage.names()
