"""Dry: from the panel over the count to the cup."""

import numpy as np
import pytest

from bench.job.acts import dry
from bench.job.advice import advise
from bench.job.words import book_lines
from bench.resources import resource
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, set_section
from tests.fakes.drawings import BLUE, YELLOW, grid_svg
from tests.fakes.gloves import complaints
from tests.fakes.tapping import pinch, type_in
from tests.gallery.ways import too_slow


@pytest.fixture
def desk(stage: Stage):
    with at_the_bench(stage) as desk:
        stage.tap("next")
        yield desk


def type_number(stage: Stage, number: int) -> None:
    for sign in str(number):
        stage.tap(f"pad_{sign}")


def test_from_the_panel_over_the_count_to_the_cup(stage: Stage, desk) -> None:
    number = int(desk.section)
    drawn = len(desk.job.section(number).tesserae)
    assert stage.find("pieces").text == f"{drawn} pieces to lay"
    assert stage.find("as_drawn").text == f"As drawn: {drawn}"
    stage.tap("as_drawn")
    assert desk.job.section(number).stage == "dry"
    assert desk.job.section(number).piece_count == drawn
    stage.tap("to_the_cup")
    assert (desk.screen, desk.section) == ("cup", number)


def test_the_section_fills_the_picture_and_no_pointer_hides_its_pieces(stage: Stage, desk) -> None:
    picture = stage.find("picture")
    left, top, right, bottom = picture.section(int(desk.section)).box_mm
    filled = max(
        (right - left) * picture.view.px_per_mm / picture.width,
        (bottom - top) * picture.view.px_per_mm / picture.height,
    )
    assert filled == pytest.approx(0.96, abs=0.01)
    assert not picture.pointing


def test_another_count_shows_what_it_means_with_every_digit(stage: Stage, desk) -> None:
    section = desk.job.section(int(desk.section))
    more = len(section.tesserae) + 40
    stage.tap("count")
    type_number(stage, more)
    expected = dry.in_time(desk.job, section, pieces=more)
    assert expected < 0.9
    told = stage.find("sure").text
    assert told.startswith(f"Sure of {100 * expected:.0f} in 100, less than 90: leave ")
    assert section.stage == "drawn"
    stage.tap("pad_use")
    assert (section.stage, section.piece_count) == ("dry", more)
    marked = stage.find("picture").marked
    assert 0 < len(marked) < len(section.tesserae)
    assert set(marked) <= set(section.tesserae)
    stage.frame(4)
    assert complaints(stage) == {}


def test_too_many_pieces_are_split_into_mixes_that_keep_the_promise(stage: Stage, desk) -> None:
    number = int(desk.section)
    more = len(desk.job.section(number).tesserae) + 40
    before = set(desk.job.state.sections)
    stage.tap("count")
    type_number(stage, more)
    stage.tap("pad_use")
    stage.tap("split")
    parts = [number, *(set(desk.job.state.sections) - before)]
    assert sum(desk.job.section(n).piece_count for n in parts) == more
    assert all(dry.in_time(desk.job, desk.job.section(n)) >= 0.9 for n in parts)
    assert desk.section == number
    assert "split" not in stage.names()


def test_too_many_pieces_may_be_mixed_as_one_all_the_same(stage: Stage, desk) -> None:
    stage.tap("count")
    type_number(stage, len(desk.job.section(int(desk.section)).tesserae) + 40)
    stage.tap("pad_use")
    stage.tap("to_the_cup")
    assert desk.screen == "cup"


def test_a_dry_section_is_counted_again_or_taken_up(stage: Stage, desk) -> None:
    section = desk.job.section(int(desk.section))
    stage.tap("as_drawn")
    stage.tap("count")
    type_number(stage, 30)
    stage.tap("pad_use")
    assert section.piece_count == 30
    assert stage.find("pieces").text == f"30 pieces lie dry, {len(section.tesserae)} drawn"
    stage.tap("take_up")
    assert section.stage == "drawn"
    assert stage.find("pieces").text == f"{len(section.tesserae)} pieces to lay"


def test_the_pad_can_be_left_and_nothing_is_counted(stage: Stage, desk) -> None:
    before = stage.find("sure").text
    stage.tap("count")
    type_number(stage, 9)
    stage.tap("pad_leave")
    assert stage.find("sure").text == before
    assert desk.job.section(int(desk.section)).stage == "drawn"
    assert "as_drawn" in stage.names()


def test_a_count_far_beyond_the_drawing_is_not_taken(stage: Stage, desk) -> None:
    stage.tap("count")
    type_number(stage, 9999)
    stage.tap("pad_use")
    assert desk.job.section(int(desk.section)).stage == "drawn"
    assert stage.find("pad_use").disabled


def test_the_pieces_are_listed_by_group_with_their_shades_from_dark_to_light(stage: Stage) -> None:
    svg = grid_svg(8, 7, colour=lambda column, row: YELLOW if row < 3 else BLUE).decode()
    rects = svg.split("<rect")
    lemon, cloth = "<rect".join(["", *rects[1:25]]), "<rect".join(["", *rects[25:]]).removesuffix("</svg>")
    drawing = f'{rects[0]}<g id="lemon">{lemon}</g><g id="cloth">{cloth}</g></svg>'
    with at_the_bench(stage, drawing.encode()) as desk:
        assert len(desk.job.state.sections) == 1
        stage.tap("next")
        listed = {text for text in stage.texts() if text.endswith(("lemon", "cloth"))}
        assert sorted(listed) == ["24 lemon", "32 cloth"]


def test_shades_stand_one_a_piece_from_dark_to_light_and_are_thinned_out_when_there_are_many() -> None:
    from bench.screens.contrast import luminance
    from bench.screens.parts.shades import MOST_BANDS, bands

    few = bands(np.array([[255, 255, 255], [0, 0, 0], [200, 30, 30]]))
    assert few == [(0.0, 0.0, 0.0), (200 / 255, 30 / 255, 30 / 255), (1.0, 1.0, 1.0)]
    many = bands(np.random.default_rng(0).integers(0, 256, (300, 3)))
    assert len(many) == MOST_BANDS
    assert sorted(map(luminance, many)) == list(map(luminance, many))


def test_a_section_chosen_elsewhere_is_the_one_shown(stage: Stage, desk) -> None:
    other = next(n for n in desk.job.state.sections if n != advise(desk.job).section)
    desk.go("panel")
    desk.go("dry", section=other)
    stage.frame(2)
    assert f"Section {other}" in stage.texts()


def test_with_nothing_to_lay_the_way_leads_to_the_panel(stage: Stage) -> None:
    with at_the_bench(stage, grid_svg(6, 5)) as desk:
        set_section(desk.job, 1)
        changed(desk)
        desk.go("dry")
        stage.frame(2)
        assert "Nothing to lay" in stage.texts()
        stage.tap("to_panel")
        assert desk.screen == "panel"


def test_a_line_drawn_across_parts_what_lies_dry_for_two_mixes(stage: Stage, desk) -> None:
    number = int(desk.section)
    stage.tap("as_drawn")
    stage.frame(4)
    before = set(desk.job.state.sections)
    xy = desk.job.panel.centroid_mm[list(desk.job.section(number).tesserae)]
    x_mm = float(np.median(xy[:, 0])) + 0.01
    stage.tap("split_line")
    stage.frame(4)
    assert complaints(stage) == {}
    picture = stage.find("picture")
    pinch(stage, picture.center, first_goes_on=True)  # to see closer; no line yet
    assert picture.inking
    assert not desk.fault_what
    stage.tap("zoom_fit")
    ends = [picture.view.to_px(x_mm, y) for y in (xy[:, 1].min() - 4, xy[:, 1].max() + 4)]
    start, end = ((picture.x + x, picture.y + y) for x, y in ends)
    stage.drag(start, end, steps=12)
    stage.frame(4)
    fresh = set(desk.job.state.sections) - before
    assert len(fresh) == 1
    assert desk.job.section(fresh.pop()).stage == desk.job.section(number).stage == "dry"
    assert not picture.inking


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
def test_a_section_of_many_groups_has_room_for_its_words_drawn_and_dry(stage: Stage, size) -> None:
    """The demo, whose sections hold pieces of up to five groups."""
    stage.resize(*size)
    data = resource("assets", "demo", "lemons.svg").read_bytes()
    with at_the_bench(stage, data) as desk:
        many = max(
            desk.job.state.sections.values(), key=lambda s: len(set(desk.job.panel.group[list(s.tesserae)]))
        )
        desk.go("dry", section=many.number)
        stage.frame(4)
        assert complaints(stage) == {}
        stage.tap("as_drawn")
        stage.frame(4)
        assert complaints(stage) == {}


def test_too_many_pieces_say_which_edge_to_leave_and_the_line_between_two_mixes_is_drawn(stage, desk) -> None:
    stage.tap("as_drawn")
    number = int(desk.section)
    dry.lay(desk.job, number, desk.job.section(number).piece_count + 40)
    changed(desk)
    stage.run(0.5)
    said = stage.find("sure").text
    assert any(f"along the {side} edge (" in said for side in ("upper", "lower", "left", "right", "open"))
    assert said.endswith("cm), or two mixes")
    picture = stage.find("picture")
    assert len(picture.marked) > 0
    other = max(s.number for s in picture.sections)
    assert other not in desk.job.state.sections
    box = np.array([picture.section(n).box_mm for n in (number, other)])
    low, high = box[:, :2].min(axis=0), box[:, 2:].max(axis=0)
    filled = max((high - low) * picture.view.px_per_mm / np.array(picture.size))
    assert filled == pytest.approx(0.96, abs=0.01)
    stage.tap("split")
    assert set(desk.job.state.sections) >= {number, other}


def test_the_hours_of_laying_are_told_once_it_lies_dry(stage: Stage, desk) -> None:
    stage.tap("as_drawn")
    stage.tap("hours_laying")
    type_in(stage, "2.5")
    number = int(desk.section)
    assert book_lines(desk.job)[0].text.startswith(f"Section {number}: 2.5 h to lay")
    assert stage.find("pieces").text.endswith("lie dry")


def test_a_section_lies_there_and_says_why_nothing_can_be_said_of_it(stage: Stage, desk) -> None:
    number = int(desk.section)
    dry.lay(desk.job, number)
    cold = desk.job.state.bench.model_copy(update={"temperature_C": -10.0})
    desk.job.write(cold)  # a room that this adhesive is not for, as an older book may hold it
    changed(desk)
    desk.go("dry")
    stage.frame(3)
    assert "-10 °C is outside the" in stage.find("sure").text
    assert {"to_the_cup", "count"} & set(stage.names())
    assert "split" not in stage.names()
    assert not complaints(stage)


def test_where_not_one_piece_is_sure_the_next_act_leads_to_how_the_bench_is_set(stage: Stage, desk) -> None:
    too_slow(stage, desk)
    before = len(desk.job.state.act_ids)
    desk.go("dry")
    stage.frame(3)
    assert "not even one piece is" in stage.find("sure").text
    assert stage.find("split").text == "Go to Setup"
    stage.tap("split")
    assert desk.screen == "setup"
    assert len(desk.job.state.act_ids) == before
