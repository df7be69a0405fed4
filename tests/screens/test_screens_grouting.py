"""Grout, ink, seal by touches: zones drawn with a finger, mixes with their cautions, from when on."""

import pytest
import vobject

from bench.job.acts import grouting, inking, zoning
from bench.job.finish_advice import finish_next
from bench.job.finish_settings import grouting as how
from bench.job.zones import laid_zones
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed
from tests.fakes.drawings import grid_svg
from tests.fakes.finished import GREY, grout_zone, hard_at_once, whole_panel
from tests.fakes.gloves import complaints
from tests.fakes.tapping import at_mm

SIZES = [(1280, 800), (800, 1280), (2560, 1600)]
COLOURS = grid_svg(
    24, 14, colour=lambda c, r: "#b3262a" if 3 < c < 9 and 3 < r < 9 else "#2f4a63" if r > 9 else "#d8d0b8"
)


@pytest.fixture
def desk(stage: Stage):
    with at_the_bench(stage, COLOURS) as desk:
        desk.go("grouting")
        stage.frame(3)
        yield desk


def tap(stage: Stage, *names: str) -> None:
    for name in names:
        stage.tap(name)
        stage.run(0.4)
        stage.frame(3)


def typed(stage: Stage, figure: str) -> None:
    tap(stage, *(f"pad_{'mark' if sign == '.' else sign}" for sign in figure), "pad_use")


def hard(stage: Stage, desk) -> None:
    hard_at_once(desk.job)
    changed(desk)
    stage.frame(3)


def test_the_sun_is_asked_about_once_and_what_follows_is_read(stage: Stage, desk) -> None:
    assert stage.find("next").text == "Say where"
    tap(stage, "next", "answer_0")
    assert desk.job.state.finish.sun == "direct"
    assert any("blue wool" in text for text in stage.texts())
    tap(stage, "reading_close")
    assert stage.find("next").text == "Choose a grout"


def test_a_stroke_gathers_whole_pieces_into_a_zone_under_a_name(stage: Stage, desk) -> None:
    tap(stage, "zones", "zone_new")
    stage.drag(at_mm(stage, 10, 10.5), at_mm(stage, 60, 10.5))
    tap(stage, "zone_keep", "word_focal")
    (zone,) = desk.job.state.finish.in_order
    assert zone.name == "focal"
    assert set(zone.tesserae) == set(range(24 + 1, 24 + 9))
    assert "Focal" in stage.texts()
    tap(stage, "zone_add")
    stage.drag(at_mm(stage, 10, 24.5), at_mm(stage, 30, 24.5))
    stage.frame(3)
    assert set(desk.job.state.finish.in_order[0].tesserae) == {*range(25, 33), *range(73, 77)}
    tap(stage, "undo")
    assert set(desk.job.state.finish.in_order[0].tesserae) == set(range(25, 33))


def test_a_tap_gathers_one_piece_and_a_tap_elsewhere_opens_a_zone(stage: Stage, desk) -> None:
    tap(stage, "zones", "zone_new")
    stage.tap_at(*at_mm(stage, 3.5, 3.5))
    stage.tap_at(*at_mm(stage, 10.5, 3.5))
    stage.frame(3)
    tap(stage, "zone_keep", "word_border")
    assert desk.job.state.finish.in_order[0].tesserae == (0, 1)
    stage.tap_at(*at_mm(stage, 100, 60))
    stage.run(0.4)
    assert "The rest" in stage.texts()
    stage.tap_at(*at_mm(stage, 3.5, 3.5))
    stage.run(0.4)
    assert "Border" in stage.texts()
    tap(stage, "zone_drop")
    assert not desk.job.state.finish.zones


def test_the_ways_are_offered_with_their_days_and_one_tap_takes_one(stage: Stage, desk) -> None:
    tap(stage, "sun", "answer_0", "reading_close", "zones", "zone_propose")
    stage.run(1)
    texts = " ".join(stage.texts())
    assert "days" in texts
    assert "through-coloured" in texts
    tap(stage, "answer_1")
    names = [z.name for z in desk.job.state.finish.in_order]
    assert len(names) == 3
    assert any("red" in name for name in names)


def test_grout_and_ink_are_chosen_by_a_word_or_by_letters(stage: Stage, desk) -> None:
    tap(stage, "zones", "zone_grout", "name_turn", "letter_s", "letter_k", "letter_y", "name_use")
    (zone,) = desk.job.state.finish.in_order
    assert zone.grout.name == "sky"
    tap(stage, "zone_ink", "word_blue")
    assert desk.job.state.finish.in_order[0].ink.name == "blue"
    tap(stage, "zone_ink", "word_no ink")
    assert desk.job.state.finish.in_order[0].ink is None


def test_a_mix_goes_through_cautions_powder_water_and_lot_into_the_book(stage: Stage, desk) -> None:
    zoning.tell_sun(desk.job, "indoors")
    number = whole_panel(desk.job)
    hard(stage, desk)
    assert stage.find("next").text == "Mix and grout"
    tap(stage, "next")
    assert any("safety data sheet" in text for text in stage.texts())
    tap(stage, "reading_close")
    assert desk.job.state.finish.zones[number].shown
    typed(stage, "24")
    typed(stage, "7.5")
    tap(stage, "lot_G", "lot_7", "lot_use")
    done = desk.job.state.finish.zones[number].grouted
    assert (done.powder_g, done.water_g, done.lot) == (24, 7.5, "G7")
    assert stage.find("next").text == "See when"
    assert "may be sealed" in stage.find("next_why").text


def test_grouting_out_of_turn_is_told_by_the_card_and_changes_nothing(stage: Stage, desk) -> None:
    zoning.tell_sun(desk.job, "indoors")
    number = whole_panel(desk.job)
    changed(desk)
    stage.frame(3)
    before = desk.job.store.last_seq(desk.job.panel_id)
    done, _ = desk.attempt(grouting.grout, number, powder_g=20, water_g=6)
    stage.frame(3)
    assert not done
    assert "not hard" in desk.fault_what
    assert desk.job.store.last_seq(desk.job.panel_id) == before


def test_the_way_to_the_wall_goes_by_the_one_big_act(stage: Stage, desk) -> None:
    zoning.tell_sun(desk.job, "direct")
    number = whole_panel(desk.job)
    zoning.choose_ink(desk.job, number, "blue", GREY)
    hard(stage, desk)
    grout_zone(desk.job, number)
    way = (
        ("try_ink", ("next",), 24),
        ("ink", ("next", "lot_K", "lot_4", "lot_use"), 72),
        ("seal", ("next", "word_No name on it"), 72),
    )
    for act, taps, wait_h in way:
        changed(desk)
        stage.frame(3)
        assert finish_next(desk.job).act == act
        tap(stage, *taps)
        desk.job.clock.advance(wait_h * 3600)
    changed(desk)
    stage.frame(3)
    tap(stage, "next", "answer_0")
    finish = desk.job.state.finish
    assert (finish.zones[number].inked.lot, finish.sealed.name) == ("K4", "")
    assert finish.hung.where == "outdoors"
    assert "It hangs" in stage.texts()


def test_the_name_of_a_sealer_is_typed_and_the_lot_of_an_ink_may_be_left_out(stage: Stage, desk) -> None:
    zoning.tell_sun(desk.job, "indoors")
    number = whole_panel(desk.job)
    zoning.choose_ink(desk.job, number, "blue", GREY)
    hard(stage, desk)
    grout_zone(desk.job, number)
    inking.try_ink(desk.job, number)
    desk.job.clock.advance(72 * 3600)
    changed(desk)
    stage.frame(3)
    tap(stage, "next", "lot_use")
    assert desk.job.state.finish.zones[number].inked.lot == ""
    desk.job.clock.advance(72 * 3600)
    changed(desk)
    stage.frame(3)
    tap(stage, "next", "name_turn", "letter_w", "letter_a", "letter_x", "name_use")
    assert desk.job.state.finish.sealed.name == "wax"


def test_the_days_are_read_and_written_as_a_calendar_into_the_documents(stage: Stage, desk, home) -> None:
    from bench.book import documents_folder

    tap(stage, "when")
    assert any("may be grouted" in text for text in stage.texts())
    tap(stage, "when_write")
    (path,) = documents_folder().glob("*.ics")
    assert vobject.readOne(path.read_text()).vevent_list
    assert path.name in stage.find("when_said").text
    tap(stage, "reading_close")
    assert stage.find("next")


def test_times_are_set_by_a_tap_and_a_figure(stage: Stage, desk) -> None:
    tap(stage, "when", "when_times", "time_tint_h")
    typed(stage, "12")
    assert how(desk.job).tint_h == 12
    assert "12 h" in stage.texts()
    tap(stage, "few_leave")
    assert stage.find("picture")


def test_what_may_be_done_is_told_on_finish_and_leads_here(stage: Stage, desk) -> None:
    hard(stage, desk)
    grout_zone(desk.job, whole_panel(desk.job))
    desk.go("finish")
    stage.frame(3)
    assert "may be sealed" in stage.find("grout_when").text
    tap(stage, "grouting")
    assert desk.screen == "grouting"


@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_cut_small_or_overlapping(stage: Stage, desk, size) -> None:
    stage.resize(*size)
    stage.frame(3)
    seen = {"at first": complaints(stage)}
    for name, *taps in (
        ("sun", "sun"),
        ("read", "answer_0"),
        ("choose", "reading_close"),
        ("zone", "zones"),
        ("ways", "zone_propose"),
        ("zones", "answer_1"),
        ("new", "zone_new"),
        ("grout", "zone_new", "zone_grout"),
        ("named", "word_sand"),
        ("ink", "zone_ink"),
        ("inked", "word_blue"),
        ("when", "zone_keep", "when"),
        ("times", "when_times"),
        ("left", "few_leave"),
    ):
        tap(stage, *taps)
        stage.run(0.5)
        stage.frame(3)
        seen[name] = complaints(stage)
    assert {name: found for name, found in seen.items() if found} == {}


def test_a_card_says_no_more_than_there_is_room_for(stage: Stage, desk) -> None:
    """The larger the type, the fewer lines: the acts never leave the screen."""
    from bench.screens.theme import theme

    zoning.tell_sun(desk.job, "direct")
    zoning.propose_zones(desk.job)
    for zone in desk.job.state.finish.in_order:
        zoning.choose_grout(desk.job, zone.number, f"grout of {zone.name}", GREY)
        zoning.choose_ink(desk.job, zone.number, f"ink of {zone.name}", GREY)
    for scale in (1.0, 1.5):
        theme.text_scale = scale
        changed(desk)
        tap(stage, "zones")
        card = stage.find("zone_says").parent
        assert card.to_window(0, card.top)[1] <= stage.window.size[1]
        assert complaints(stage) == {}
        tap(stage, "zone_keep")
    assert len(laid_zones(desk.job).numbers) == 3


def test_on_a_low_screen_more_than_one_answer_has_room(stage: Stage, desk) -> None:
    tap(stage, "sun")
    stage.resize(1024, 600)
    stage.frame(5)
    assert {"answer_0", "answer_1", "page_more", "few_leave"} <= set(stage.names())
    assert complaints(stage) == {}
    stage.resize(1280, 800)
