"""Grout colours seen and chosen by touches, and measured on a photographed tile."""

import pytest

from bench.drawing.grouted import grouted, ungrouted
from bench.job import seeing
from bench.job.acts import record, zoning
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed
from tests.fakes.drawings import grid_svg
from tests.fakes.gloves import complaints
from tests.fakes.photographing import until
from tests.fakes.tiles import CARD_MM, CORNERS, LAMP, SIZE_MM, joint_mm, photo_of_tile
from tests.gallery.views import View

SIZES = [(1280, 800), (800, 1280), (2560, 1600)]
COLOURS = grid_svg(24, 14, colour=lambda c, r: "#b3262a" if 3 < c < 9 and 3 < r < 9 else "#2f4a63")
GROUTS = ((190, 186, 180), (70, 70, 72))


@pytest.fixture
def desk(stage: Stage, home):
    with at_the_bench(stage, COLOURS) as desk:
        desk.go("grouting")
        stage.frame(3)
        yield desk


def tap(stage: Stage, *names: str) -> None:
    for name in names:
        stage.tap(name)
        stage.run(0.4)
        stage.frame(3)


def to_tile(stage: Stage, desk, home) -> None:
    """Go from the colours to the tile squared up."""
    (home / "tile.png").write_bytes(photo_of_tile(GROUTS, light=LAMP))
    tap(stage, "see", "measure", "photo_tile")
    until(stage, "corner_name")
    stage.find("corners").corners = list(CORNERS)
    stage.tap("go_on")
    until(stage, "tile_keep")


def touch(stage: Stage, at_mm) -> None:
    picture = stage.find("tile_photo")
    shape = stage.find("tile_photo")._size_mm
    x, y = picture.view.to_px(at_mm[0] / SIZE_MM[0] * shape[0], at_mm[1] / SIZE_MM[1] * shape[1])
    stage.tap_at(picture.x + x, picture.y + y)
    stage.run(0.4)
    stage.frame(2)


def region(stage: Stage) -> str:
    """Return what is said above how to choose."""
    return stage.find("seeing_says").parent.children[-1].text


def test_a_tap_on_a_picture_chooses_its_grout_for_the_region(stage: Stage, desk) -> None:
    tap(stage, "see")
    assert region(stage) == "The panel"
    assert "joints" in stage.find("seen_0_says").text
    assert stage.find("seen_1_known").text.endswith(", guessed")
    tap(stage, "seen_3")
    (zone,) = desk.job.state.finish.in_order
    assert zone.grout.name == "charcoal"
    assert stage.find("seen_3").chosen
    record.undo(desk.job)
    changed(desk)
    stage.frame(3)
    assert not stage.find("seen_3").chosen


@pytest.mark.parametrize("size", [(1024, 600), (1280, 800), (800, 1280)])
def test_the_pictures_that_are_compared_are_equally_large(stage: Stage, desk, size) -> None:
    stage.resize(*size)
    stage.frame(3)
    tap(stage, "see")
    places = [stage.find(f"seen_{k}").ids.place for k in range(4)]
    assert len({(round(place.width), round(place.height)) for place in places}) == 1
    assert places[0].height > 40


@pytest.mark.parametrize("size", ["1280x800", "800x1280", "1024x600"])
def test_large_words_give_way_before_the_pictures_do(stage: Stage, desk, size) -> None:
    tap(stage, "see")
    View(size, text=1.5).take(stage)
    stage.frame(8)
    tiles = [stage.find(f"seen_{k}") for k in range(4)]
    assert all(tile.ids.place.height > 0.35 * tile.height for tile in tiles)
    assert len({tile.lines for tile in tiles}) == 1
    assert all(tile.lines == 2 or not stage.find(f"{tile.test_name}_known").text for tile in tiles)
    View("1280x800").take(stage)


def test_regions_are_chosen_one_by_one_and_read_together(stage: Stage, desk) -> None:
    zoning.propose_zones(desk.job)
    changed(desk)
    tap(stage, "see")
    first = region(stage)
    tap(stage, "seen_0", "region_next", "seen_3")
    assert region(stage) != first
    assert [z.grout.name for z in desk.job.state.finish.in_order] == ["pale grey", "charcoal"]
    tap(stage, "regions")
    told = [text for text in stage.texts() if "ΔE" in text]
    assert any("pale grey" in text for text in told)
    assert any("charcoal" in text for text in told)


def test_an_ink_is_seen_over_the_neutral_and_chosen_with_it(stage: Stage, desk) -> None:
    tap(stage, "see", "inks")
    assert stage.find("seen_0_name").text == "blue"
    assert "offcut" in stage.find("seeing_says").text
    tap(stage, "seen_0")
    (zone,) = desk.job.state.finish.in_order
    assert (zone.grout.name, zone.ink.name) == ("pale grey", "blue")


def test_the_colours_compared_are_changed_by_taps(stage: Stage, desk) -> None:
    tap(stage, "see", "colours", "drop_0", "colour_add", "word_sand", "few_leave")
    assert seeing.compared(desk.job) == ("white", "grey", "charcoal", "sand")
    assert stage.find("seen_3_name").text == "sand"


def test_what_is_shown_is_the_panel_in_that_colour(stage: Stage, desk) -> None:
    tap(stage, "see")
    (look, *_) = seeing.seen(desk.job, 0)
    shown = stage.find("seen_0")._photo.pixels
    glass = ungrouted(desk.job.panel, long_side_px=max(shown.shape))
    assert (shown == grouted(glass, look.grout)).all()


def test_a_tile_is_tapped_and_its_colours_take_the_place_of_guesses(stage: Stage, desk, home) -> None:
    to_tile(stage, desk, home)
    assert stage.find("tile_head").text == "Tap a white card"
    assert stage.find("tile_keep").disabled
    touch(stage, CARD_MM)
    assert stage.find("tile_head").text == "Tap the joint of pale grey"
    touch(stage, joint_mm(0))
    assert stage.find("tile_head").text == "Tap the joint of white"
    tap(stage, "tile_state", "tile_keep")
    assert desk.screen == "seeing"
    found = desk.job.state.finish.measured["pale grey", "sealed"]
    assert found.colour == pytest.approx(GROUTS[0], abs=6)
    assert stage.find("seen_0_known").text.endswith("measured on a tile, sealed")


def test_a_grout_of_another_name_is_measured_and_then_known(stage: Stage, desk, home) -> None:
    to_tile(stage, desk, home)
    tap(stage, "tile_other", "letter_s", "letter_k", "letter_y", "name_use")
    assert stage.find("tile_head").text == "Tap the joint of sky"
    touch(stage, joint_mm(1))
    tap(stage, "tile_keep")
    assert ("sky", "dry") in desk.job.state.finish.measured
    assert "sky" in seeing.known_colours(desk.job)


def test_what_is_no_white_card_is_told_by_the_card_and_not_taken(stage: Stage, desk, home) -> None:
    to_tile(stage, desk, home)
    touch(stage, (8.0, 30.0))
    assert "no white card" in stage.find("fault").title
    stage.tap("fault_act")  # it stands in the place of the photo, which wants all the room
    stage.frame(2)
    assert stage.find("tile_head").text == "Tap a white card"


@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_cut_small_or_overlapping(stage: Stage, desk, home, size) -> None:
    stage.resize(*size)
    zoning.propose_zones(desk.job)
    changed(desk)
    stage.frame(3)
    seen = {"next": complaints(stage)}
    for name, *taps in (
        ("see", "see"),
        ("chosen", "seen_1"),
        ("inks", "region_next", "inks"),
        ("regions", "regions"),
        ("colours", "reading_close", "colours"),
        ("three", "drop_0"),
        ("add", "colour_add"),
        ("back", "word_sand", "few_leave", "seeing_close"),
    ):
        tap(stage, *taps)
        seen[name] = complaints(stage)
    to_tile(stage, desk, home)
    seen["tile"] = complaints(stage)
    for at_mm in (CARD_MM, joint_mm(0), joint_mm(1)):
        touch(stage, at_mm)
    seen["tapped"] = complaints(stage)
    tap(stage, "back")
    seen["corners"] = complaints(stage)
    assert {name: found for name, found in seen.items() if found} == {}
