"""True size: the screen is measured against a bank card, and a piece is then drawn as large as it is."""

import numpy as np
import pytest

from bench.book import Device
from bench.job.advice import advise
from bench.screens.card import CARD_MM
from bench.screens.offscreen import Stage
from tests.fakes.gloves import complaints

LOW = [(1024, 600, 1, 1.0), (1024, 600, 1, 1.5)]
SIZES = [(1280, 800, 1, 1.0), (800, 1280, 1, 1.0), (2560, 1600, 2, 1.0), *LOW]


def to_dry(stage: Stage, desk) -> None:
    desk.go("dry", section=advise(desk.job).section)
    stage.frame(4)


def side_on_screen_px(stage: Stage, path, tessera: int, panel) -> float:
    """The width of a piece as it is drawn: pixels of its colour along the middle line, in the picture."""
    from PIL import Image

    picture = stage.find("picture")
    x, y = picture.view.to_px(*panel.centroid_mm[tessera])
    seen = np.asarray(Image.open(stage.picture(path)).convert("RGB"), int)
    row = seen[round(stage.window.height - (picture.y + y))]
    column = round(picture.x + x)
    alike = np.abs(row - row[column]).max(axis=1) < 12
    left = column - np.argmin(alike[column::-1])
    right = column + np.argmin(alike[column:])
    return float(right - left - 1)


def within(panel, tesserae) -> int:
    """Return a piece that lies among its own section on all sides, so that no outline covers its edge."""
    own = set(tesserae)
    facing: dict[int, list[int]] = {t: [] for t in own}
    for a, b in panel.joints.pair.tolist():
        for t, other in ((a, b), (b, a)):
            if t in own:
                facing[t].append(other)
    return next(t for t in tesserae if len(facing[t]) == 4 and own.issuperset(facing[t]))


def test_a_card_is_as_large_as_the_standard_says() -> None:
    """ISO/IEC 7810, ID-1: 85.60 by 53.98 mm; the figures from memory, no page seen."""
    assert CARD_MM == (85.60, 53.98)


@pytest.mark.parametrize("px_per_mm", [5.87, 8.4])
def test_at_true_size_a_piece_is_true_to_half_a_pixel(stage: Stage, desk, px_per_mm, tmp_path) -> None:
    desk.device.change(px_per_mm=px_per_mm)
    to_dry(stage, desk)
    stage.tap("zoom_fit")
    picture, panel = stage.find("picture"), desk.job.panel
    tessera = within(panel, desk.job.section(int(desk.section)).tesserae)
    ring = panel.points_mm[panel.ring_start[panel.tessera_ring[tessera]] :][:4]
    corners = np.array([picture.view.to_px(*point) for point in ring])
    assert np.ptp(corners[:, 0]) == pytest.approx(6.2 * px_per_mm, abs=0.01)  # the grid's squares: 6.2 mm
    drawn_px = side_on_screen_px(stage, tmp_path / "dry.png", tessera, panel)
    assert drawn_px == pytest.approx(6.2 * px_per_mm, abs=1.5)  # whole pixels on either side


def test_the_first_tap_measures_and_then_shows_the_section_at_true_size(stage: Stage, desk) -> None:
    to_dry(stage, desk)
    assert "1:1" in stage.texts()
    stage.tap("zoom_fit")
    assert desk.screen == "card"
    card = stage.find("card")
    before = card.long_px
    for name, by in (("card_more", 1), ("card_much_more", 10), ("card_less", -1), ("card_much_more", 10)):
        stage.tap(name)
        before += by
        assert card.long_px == before
    stage.tap("card_keep")
    assert desk.screen == "dry"
    picture = stage.find("picture")
    assert desk.device.settings.px_per_mm == before / 85.60
    assert picture.view.px_per_mm == before / 85.60
    stage.tap("zoom_fit")
    assert picture.view.px_per_mm > 1.2 * before / 85.60
    stage.tap("zoom_fit")
    assert picture.view.px_per_mm == before / 85.60


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
def test_a_finger_anywhere_moves_the_edge_as_far_as_it_moves(stage: Stage, desk, size) -> None:
    stage.resize(*size)
    desk.go("card")
    stage.frame(4)
    card = stage.find("card")
    before, (x, y) = card.long_px, card.to_window(*card.center)
    wide = card.lies
    stage.drag((x, y), (x + 60, y) if wide else (x, y - 60))
    assert card.long_px == pytest.approx(before + 60)
    box = card.box_px()
    assert (box[2] if wide else box[3]) == pytest.approx(before + 60)


def test_turning_the_tablet_keeps_the_true_size(stage: Stage, desk) -> None:
    desk.device.change(px_per_mm=5.9)
    to_dry(stage, desk)
    stage.tap("zoom_fit")
    for size in ((800, 1280), (1280, 800)):
        stage.resize(*size)
        stage.frame(4)
        assert stage.find("picture").view.px_per_mm == 5.9


def test_leaving_it_keeps_nothing_and_escape_leads_home(stage: Stage, desk) -> None:
    to_dry(stage, desk)
    stage.tap("zoom_fit")
    stage.tap("card_leave")
    assert desk.screen == "dry"
    assert desk.device.settings.px_per_mm is None
    stage.tap("zoom_fit")
    stage.press("escape")
    assert desk.screen == "panel"


def test_what_was_measured_is_of_the_machine_and_not_of_the_book(stage: Stage, tmp_path) -> None:
    Device(tmp_path).change(px_per_mm=6.1)
    assert Device(tmp_path).settings.px_per_mm == 6.1
    assert [path.name for path in tmp_path.iterdir()] == ["device.json"]


@pytest.mark.parametrize("size", SIZES)
def test_the_card_is_fit_for_gloves_and_drawn_at_every_size(stage: Stage, desk, size) -> None:
    from bench.screens.theme import theme

    theme.text_scale = size[3]
    stage.resize(*size[:2], density=size[2])
    desk.go("card")
    stage.frame(6)
    assert complaints(stage) == {}
    card = stage.find("card")
    assert min(card.size) >= 80 * size[2]
    assert card.long_px > 0
