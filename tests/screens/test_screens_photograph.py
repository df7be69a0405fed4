"""A dry lay photographed by touches: from the file over its corners to the count, and seen again."""

import io

import pytest
from PIL import Image

from bench.job.acts import dry_photo, record
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, start_mix
from tests.fakes.gloves import complaints
from tests.fakes.photographing import GRID, flow, photo_of, to_pieces, until

SIZES = [(1280, 800), (800, 1280)]


@pytest.fixture
def desk(stage: Stage, home):
    with at_the_bench(stage, GRID) as desk:
        yield desk


def tap_mm(stage: Stage, x_mm: float, y_mm: float) -> None:
    picture = stage.find("laid")
    x, y = picture.view.to_px(x_mm, y_mm)
    stage.tap_at(picture.x + x, picture.y + y)
    stage.frame(2)


def test_from_the_file_over_corners_and_taps_to_the_count(stage: Stage, desk, home) -> None:
    number = 1
    members = desk.job.section(number).tesserae
    photo = to_pieces(stage, desk, home, number, missing=members[5:6])
    assert stage.find("laid_count").text == str(len(members) - 1)
    assert f"{len(members)} drawn; 1 gap" in stage.find("laid_says").text
    gap = dry_photo.task_for(desk.job, number).frame.in_photo(desk.job.panel.centroid_mm[[members[5]]])[0]
    tap_mm(stage, *gap)
    assert stage.find("laid_count").text == str(len(members))
    assert "gap" not in stage.find("laid_says").text
    tap_mm(stage, *photo.centroid_mm[2])
    tap_mm(stage, *photo.centroid_mm[3])
    assert stage.find("laid_count").text == str(len(members) - 2)
    stage.tap("word_back")
    assert stage.find("count_is").text == f"Count is {len(members) - 1}"
    stage.tap("count_is")
    section = desk.job.section(number)
    assert desk.screen == "dry"
    assert (section.stage, section.piece_count) == ("dry", len(members) - 1)
    assert [c.kind for c in section.photo.corrections] == ["added", "taken_away"]
    record.undo(desk.job)
    assert desk.job.section(number).photo is None


def test_all_gaps_are_filled_with_one_touch_and_taken_back_with_one(stage: Stage, desk, home) -> None:
    """A white piece on white paper may be passed over; the maker sees it lie where it was drawn."""
    members = desk.job.section(1).tesserae
    photo = to_pieces(stage, desk, home, 1, missing=members[4:7])
    assert stage.find("fill_gaps").text == "Fill 3 gaps"
    stage.tap("fill_gaps")
    assert stage.find("laid_count").text == str(photo.count + 3)
    assert stage.find("fill_gaps").disabled
    stage.tap("word_back")
    assert stage.find("laid_count").text == str(photo.count)
    assert stage.find("word_back").disabled


def test_strokes_part_and_join_and_the_photo_stays_where_it_is(stage: Stage, desk, home) -> None:
    photo = to_pieces(stage, desk, home, 1)
    count = int(stage.find("laid_count").text)
    stage.tap("draw")
    picture = stage.find("laid")
    view = picture.view

    def draw(*points_mm):
        ends = [picture.view.to_px(*p) for p in points_mm]
        a, b = ((picture.x + x, picture.y + y) for x, y in ends)
        stage.drag(a, b, steps=12)
        stage.frame(2)

    x, y = photo.centroid_mm[4]
    draw((x, y - 4.5), (x, y + 4.5))
    assert stage.find("laid_count").text == str(count + 1)
    draw(tuple(photo.centroid_mm[1]), tuple(photo.centroid_mm[2]))
    assert stage.find("laid_count").text == str(count)
    assert picture.view == view
    x, y = photo.centroid_mm[6]
    draw((x, y), (x + 1.5, y))
    assert "parts no piece" in stage.find("laid_how").text
    assert stage.find("laid_count").text == str(count)


@pytest.mark.parametrize("size", SIZES)
def test_every_step_can_be_worked_in_gloves(stage: Stage, desk, home, size) -> None:
    stage.resize(*size)
    to_pieces(stage, desk, home, 1, missing=desk.job.section(1).tesserae[:3])
    stage.frame(4)
    assert complaints(stage) == {}
    stage.tap("draw")
    stage.frame(4)
    assert complaints(stage) == {}
    stage.tap("back")
    stage.frame(4)
    assert complaints(stage) == {}
    stage.tap("margin")
    stage.frame(4)
    assert complaints(stage) == {}
    stage.tap("pad_leave")
    stage.tap("back")
    stage.frame(4)
    assert complaints(stage) == {}
    stage.tap("photo_leave")
    stage.frame(4)
    assert (desk.screen, complaints(stage)) == ("dry", {})


def test_the_rectangle_follows_the_margin_that_is_typed_and_the_photo_turns(stage: Stage, desk, home) -> None:
    to_pieces(stage, desk, home, 1)
    stage.tap("back")
    stage.frame(2)
    before = stage.find("film_size").text
    stage.tap("margin")
    stage.tap("pad_4")
    stage.tap("pad_use")
    assert stage.find("film_size").text != before
    assert flow(stage).margin_mm == 4
    stage.tap("whole_panel")
    width_mm, height_mm = desk.job.panel.width_mm, desk.job.panel.height_mm
    assert stage.find("film_size").text == f"Of {width_mm:.0f} × {height_mm:.0f} mm on the cartoon"
    shape, corner = flow(stage).raw.pixels.shape, flow(stage).corner_px[0]
    stage.tap("turn")
    assert stage.find("corners").size_px == (shape[0], shape[1])
    assert flow(stage).corner_px[1] == pytest.approx((shape[0] - corner[1], corner[0]))


def test_a_turned_photo_is_counted_like_an_upright_one(stage: Stage, desk, home) -> None:
    photo = photo_of(desk, 1)
    Image.open(io.BytesIO(photo.data)).transpose(Image.Transpose.ROTATE_90).save(
        home / "lay.jpg", quality=90
    )
    desk.go("photograph", section=1)
    stage.frame(2)
    stage.tap("photo_lay")
    until(stage, "corner_name")
    stage.tap("turn")
    stage.find("corners").corners = list(photo.corner_px)
    stage.tap("go_on")
    until(stage, "count_is")
    assert stage.find("laid_count").text == str(photo.count)


def test_a_counted_photo_is_gone_on_with_where_it_was(stage: Stage, desk, home) -> None:
    members = desk.job.section(1).tesserae
    photo = to_pieces(stage, desk, home, 1)
    tap_mm(stage, *photo.centroid_mm[0])
    stage.tap("count_is")
    (home / "lay.jpg").unlink()
    stage.frame(3)
    assert stage.find("photograph").text == "Photo"
    stage.tap("photograph")
    until(stage, "count_is")
    assert stage.find("laid_count").text == str(len(members) - 1)
    stage.tap("word_back")
    assert stage.find("laid_count").text == str(len(members))
    stage.tap("count_is")
    assert desk.job.section(1).piece_count == len(members)
    assert desk.job.section(1).photo.corrections == ()


def test_what_is_half_done_is_still_there_after_looking_elsewhere(stage: Stage, desk, home) -> None:
    photo = to_pieces(stage, desk, home, 1)
    tap_mm(stage, *photo.centroid_mm[0])
    desk.go("book")
    stage.frame(2)
    desk.go("photograph", section=1)
    stage.frame(2)
    assert stage.find("laid_count").text == str(photo.count - 1)


def test_a_section_already_set_has_nothing_to_photograph(stage: Stage, desk, home) -> None:
    start_mix(desk.job, 1)
    desk.go("photograph", section=1)
    stage.frame(2)
    assert desk.screen == "dry"


def test_the_book_shows_a_photo_again_though_it_was_taken_back(stage: Stage, desk, home) -> None:
    to_pieces(stage, desk, home, 1)
    stage.tap("count_is")
    record.undo(desk.job)
    changed(desk)
    desk.go("book")
    stage.frame(3)
    entry = next(x for x in desk.job.store.events(desk.job.panel_id) if x.event.kind == "dry_photographed")
    stage.tap(f"entry_{entry.seq}")
    until(stage, "kept_photo")
    assert "photographed" in stage.find("kept_head").text
    assert complaints(stage) == {}
    stage.tap("kept_back")
    assert f"entry_{entry.seq}" in stage.names()
