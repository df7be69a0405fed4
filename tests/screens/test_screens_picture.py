"""The panel's picture under a finger: true colours, taps, panning, zooming, and what is laid over it."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from bench.screens.offscreen import Stage
from tests.fakes.panels import blocks, courses, panel_of
from tests.fakes.tapping import pinch

PANEL = courses(30, 20)
NUMBER = blocks(PANEL, 3, 2)


@pytest.fixture
def picture(stage: Stage):
    from bench.screens.widgets import PanelPicture

    widget = PanelPicture(test_name="picture")
    widget.picked = []
    widget.bind(on_pick=lambda _picture, *what: widget.picked.append(what))
    stage.show(widget)
    widget.show(PANEL)
    stage.frame(2)
    return widget


def seen(stage: Stage, path: Path) -> np.ndarray:
    return np.asarray(Image.open(stage.picture(path)))


def spot(picture, tessera: int) -> tuple[int, int]:
    """Where a tessera's middle is on the window, y up."""
    x, y = picture.view.to_px(*PANEL.centroid_mm[tessera])
    return round(picture.x + x), round(picture.y + y)


@pytest.mark.parametrize(("width", "height", "density"), [(1280, 800, 1), (800, 1280, 1), (2560, 1600, 2)])
def test_every_piece_has_its_own_glass_colour(
    stage: Stage, picture, tmp_path: Path, width: int, height: int, density: int
) -> None:
    stage.resize(width, height, density=density)
    pixels = seen(stage, tmp_path / "glass.png")
    for k in range(PANEL.tessera_count):
        x, y = spot(picture, k)
        assert pixels[height - 1 - y, x].tolist() == PANEL.colour[k].tolist()


def test_a_division_leaves_the_colour_of_the_glass_alone(stage: Stage, picture, tmp_path: Path) -> None:
    """Seven in ten pieces at least show their colour in the middle; labels and lines cover the others."""
    picture.divide(NUMBER, {1: "hard", 2: "firm", 3: "dry", 4: "soft", 5: "drawn"}, 6)
    pixels = seen(stage, tmp_path / "divided.png")
    places = [spot(picture, k) for k in range(PANEL.tessera_count)]
    true = [pixels[799 - y, x].tolist() == PANEL.colour[k].tolist() for k, (x, y) in enumerate(places)]
    assert np.mean(true) > 0.7


def test_round_the_glass_all_is_neutral_grey(stage: Stage, picture, tmp_path: Path) -> None:
    pixels = seen(stage, tmp_path / "round.png")
    assert pixels[5, 5].tolist() == [119, 119, 119]


def test_a_tap_tells_the_piece_and_its_section(stage: Stage, picture) -> None:
    picture.divide(NUMBER)
    for tessera in (0, 17, 345, PANEL.tessera_count - 1):
        stage.tap_at(*spot(picture, tessera))
        assert picture.picked[-1] == (tessera, NUMBER[tessera])


def test_a_tap_beside_the_panel_tells_nothing(stage: Stage, picture) -> None:
    stage.tap_at(4, 4)
    assert picture.picked == []


def test_an_undivided_piece_has_section_nought(stage: Stage, picture) -> None:
    stage.tap_at(*spot(picture, 8))
    assert picture.picked == [(8, 0)]


def test_a_drag_pans_and_picks_nothing(stage: Stage, picture) -> None:
    before = picture.view
    stage.drag((640, 400), (700, 460))
    moved = picture.view.x_mm - before.x_mm, picture.view.y_mm - before.y_mm
    assert moved == pytest.approx((-60 / before.px_per_mm, 60 / before.px_per_mm), rel=0.02)
    assert picture.picked == []


def test_two_fingers_drawn_apart_zoom_in_and_pick_nothing(stage: Stage, picture) -> None:
    before = picture.view.px_per_mm
    left, right = stage.touch(540, 400), stage.touch(740, 400)
    right.slide(940, 400)
    left.up()
    right.up()
    stage.run(0.5)
    assert picture.view.px_per_mm == pytest.approx(2 * before, rel=0.02)
    assert picture.picked == []


@pytest.mark.parametrize("first_goes_on", [False, True])
def test_a_pinch_while_drawing_is_no_stroke_and_leaves_the_one_before(
    stage: Stage, picture, first_goes_on: bool
) -> None:
    picture.inking = True
    strokes, growing = [], []
    picture.bind(on_stroke=lambda _, points: strokes.append(points))
    picture.bind(on_stroking=lambda _, points: growing.append(points))
    stage.drag((500, 300), (600, 300))
    assert len(strokes) == 1
    before = picture.view.px_per_mm
    pinch(stage, (640, 400), first_goes_on=first_goes_on)
    assert picture.view.px_per_mm > before
    assert len(strokes) == 1
    assert growing[-1] == []
    assert picture._ink.points_mm == strokes[0]
    stage.drag((500, 350), (600, 350))
    assert len(strokes) == 2


def test_a_stroke_is_told_as_it_grows_at_most_once_a_frame(stage: Stage, picture) -> None:
    picture.inking = True
    growing = []
    picture.bind(on_stroking=lambda _, points: growing.append(len(points)))
    finger = stage.touch(500, 300)
    finger.slide(540, 300)
    finger.slide(560, 300)
    stage.frame()
    told = len(growing)
    stage.frame(3)
    assert growing == sorted(growing)
    assert 0 < told == len(growing) <= 3
    finger.up()
    stage.frame()
    assert len(growing) == told


def test_zooming_out_undoes_zooming_in(picture) -> None:
    before = picture.view
    picture.zoom_in()
    picture.zoom_out()
    assert picture.view.px_per_mm == pytest.approx(before.px_per_mm)
    assert picture.view.x_mm == pytest.approx(before.x_mm)


def test_focus_shows_one_section_whole_and_large(picture) -> None:
    picture.divide(NUMBER)
    picture.focus_on(4)
    members = PANEL.centroid_mm[NUMBER == 4]
    places = np.array([picture.view.to_px(*p) for p in members])
    assert (places >= 0).all()
    assert (places <= picture.size).all()
    assert max(np.ptp(places, axis=0) / picture.size) > 0.7


def test_focus_on_a_section_that_is_not_there_shows_the_panel(picture) -> None:
    whole = picture.view
    picture.zoom_in()
    picture.focus_on(99)
    assert picture.view == whole


def test_a_turned_screen_shows_the_whole_panel_again_or_keeps_the_middle(stage: Stage, picture) -> None:
    stage.resize(800, 1280)
    left, _ = picture.view.to_px(0, 0)
    assert left == pytest.approx(0.02 * 800, abs=1)
    picture.zoom_in()
    stage.drag((300, 500), (200, 700))
    middle = picture.view.x_mm, picture.view.y_mm
    stage.resize(1280, 800)
    assert (picture.view.x_mm, picture.view.y_mm) == middle


def test_what_sticks_out_is_cut_off_at_the_widget(stage: Stage, tmp_path: Path) -> None:
    from kivy.uix.floatlayout import FloatLayout

    from bench.screens.widgets import PanelPicture

    room = FloatLayout()
    picture = PanelPicture(size_hint=(0.5, 0.5), pos_hint={"x": 0.25, "y": 0.25})
    room.add_widget(picture)
    stage.show(room)
    picture.show(PANEL)
    for _ in range(4):
        picture.zoom_in()
    pixels = seen(stage, tmp_path / "cut.png")
    outside = np.ones(pixels.shape[:2], bool)
    outside[199:601, 319:961] = False
    assert (pixels[outside] == 119).all()
    assert (pixels[210:590, 330:950] != 119).any(axis=2).mean() > 0.7


def test_marked_pieces_are_framed_and_crossed(stage: Stage, picture, tmp_path: Path) -> None:
    before = seen(stage, tmp_path / "before.png")
    picture.mark([100, 101, 100])
    after = seen(stage, tmp_path / "after.png")
    assert picture.marked == [100, 101]
    changed = np.argwhere((before != after).any(axis=2))
    places = np.array([spot(picture, k) for k in (100, 101)])
    rows, columns = 799 - places[:, 1], places[:, 0]
    assert np.ptp(changed[:, 0]) < 60
    assert changed[:, 1].min() < columns.min() < columns.max() < changed[:, 1].max()
    assert changed[:, 0].min() < rows.min() <= rows.max() < changed[:, 0].max()
    picture.mark([])
    assert (seen(stage, tmp_path / "again.png") == before).all()


def test_states_and_the_next_section_are_kept_for_whoever_asks(picture) -> None:
    picture.divide(NUMBER, {2: "wet"}, 5)
    assert [s.number for s in picture.sections] == [1, 2, 3, 4, 5, 6]
    assert picture.section(2).stage == "wet"
    assert picture.section(1).stage == "drawn"
    assert picture.next_number == 5
    assert picture.section(7) is None


def test_words_on_labels_can_be_of_another_language(stage: Stage, picture, tmp_path: Path) -> None:
    picture.divide(NUMBER, dict.fromkeys(range(1, 7), "firm"))
    english = seen(stage, tmp_path / "en.png")
    german = {"hard": "hart", "firm": "fest", "soft": "weich", "wet": "nass", "dry": "trocken"}
    picture.word_for = lambda word: german.get(word, word)
    picture.divide(NUMBER, dict.fromkeys(range(1, 7), "firm"))
    assert (seen(stage, tmp_path / "de.png") != english).any()


def said_on(picture) -> dict[int, list[str]]:
    """What the labels say, by number, a string a line."""
    shown = picture._labels.shown
    return {section.number: [" ".join(line) for line in lines] for section, lines, _ in shown}


def test_a_label_says_until_when_where_there_is_room_and_less_where_there_is_not(
    stage: Stage, picture
) -> None:
    picture.notes = {2: "firm 13:54", 4: "firm 13:54, or when it is tried by hand in a cold room"}
    picture.divide(NUMBER, {2: "soft", 4: "soft", 5: "firm"}, 6)
    assert said_on(picture) == {
        1: ["1"],
        2: ["2 soft, firm 13:54"],
        3: ["3"],
        4: ["4 soft"],
        5: ["5 firm"],
    }
    heard = {2: set(), 5: set()}
    for width in (900, 640, 480, 360, 240, 160):
        stage.resize(width, width * 5 // 8)
        plates = picture._labels.plates
        px_per_mm = picture.view.px_per_mm
        assert not any(a.meets(b, px_per_mm) for k, a in enumerate(plates) for b in plates[:k])
        for number in heard:
            heard[number].add("/".join(said_on(picture).get(number, [])))
    assert {"2 soft/firm 13:54", "2 soft", "2"} <= heard[2]
    assert "5" in heard[5]


def test_a_cure_told_anew_is_on_the_label(picture) -> None:
    picture.divide(NUMBER, {2: "soft"}, 6)
    assert said_on(picture)[2] == ["2 soft"]
    picture.notes = {2: "firm 13:54"}
    assert said_on(picture)[2] == ["2 soft, firm 13:54"]


@pytest.mark.parametrize(("stage_of_it", "told"), [("dry", "dry"), ("soft", "soft"), ("drawn", "")])
def test_the_pointer_tells_how_far_the_next_section_is(picture, stage_of_it: str, told: str) -> None:
    picture.divide(NUMBER, {5: stage_of_it}, 5)
    assert picture._pointer.said == ("5", told)
    picture.divide(NUMBER, {5: stage_of_it}, 2)
    assert picture._pointer.said == ("2", "")


def test_a_division_with_pieces_of_no_section_or_no_section_at_all_is_drawn(picture) -> None:
    picture.divide(np.where(NUMBER == 3, 0, NUMBER))
    assert [s.number for s in picture.sections] == [1, 2, 4, 5, 6]
    picture.divide(np.zeros_like(NUMBER))
    assert picture.sections == ()


def test_a_panel_of_one_piece_can_be_shown_divided_and_focused(stage: Stage, picture) -> None:
    ring = np.array([[0, 0], [5, 0], [5, 4], [0, 4.0]])
    picture.show(panel_of([[ring]], width_mm=6, height_mm=5))
    picture.divide(np.array([1]), {1: "soft"}, 1)
    picture.focus_on(1)
    stage.frame(2)
    assert picture.section(1).anchor_mm == (2.5, 2.0)
