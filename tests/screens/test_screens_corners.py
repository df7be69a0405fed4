"""Corners are set on a photo by finger, by nudges and by arrows; the lens shows what the finger hides."""

import gc
import weakref

import numpy as np
import pytest

from bench.drawing.photo import inset
from bench.screens.offscreen import Stage
from tests.fakes.gloves import complaints

PIXELS = np.random.default_rng(2).integers(0, 256, (600, 800, 3), np.uint8)


@pytest.fixture
def part(stage: Stage):
    from bench.screens.parts.corners import CornersPart

    part = CornersPart()
    stage.show(part)
    part.show(PIXELS, inset((800, 600)), step_px=2)
    stage.frame(3)
    return part


def at(stage: Stage, *place_px: float) -> tuple[float, float]:
    return stage.find("corners").to_window_px(place_px)


def test_a_corner_follows_the_finger_that_takes_hold_of_it_without_jumping_to_it(stage: Stage, part) -> None:
    x, y = at(stage, *part.corners[1])
    before = part.corners[1]
    finger = stage.touch(x + 20, y + 10)
    assert part.corners[1] == before
    finger.slide(x - 30, y - 20)
    finger.up()
    scale = stage.find("corners").view.px_per_mm
    moved = (part.corners[1][0] - before[0], part.corners[1][1] - before[1])
    assert moved == pytest.approx((-50 / scale, 30 / scale), abs=1.5)
    assert part.name == "top right"


def test_a_tap_far_from_all_corners_puts_the_nearest_there(stage: Stage, part) -> None:
    stage.tap_at(*at(stage, 600, 400))
    assert part.corners[2] == pytest.approx((600, 400), abs=1.5)
    assert part.name == "bottom right"


def test_a_corner_never_leaves_the_picture(stage: Stage, part) -> None:
    start = at(stage, *part.corners[0])
    stage.drag(start, (start[0] - 400, start[1] + 300))
    assert part.corners[0] == (0, 0)


def test_nudges_and_arrows_move_the_chosen_corner_by_one_step(stage: Stage, part) -> None:
    stage.tap("corner_next")
    stage.tap("corner_next")
    x, y = part.corners[2]
    stage.tap("nudge_left")
    stage.tap("nudge_up")
    assert part.corners[2] == pytest.approx((x - 2, y - 2))
    stage.press("right")
    stage.press("down")
    stage.press("down")
    assert part.corners[2] == pytest.approx((x, y + 2))
    assert part.name == "bottom right"


def test_a_second_finger_changes_nothing(stage: Stage, part) -> None:
    first = stage.touch(*at(stage, *part.corners[0]))
    before = list(part.corners)
    second = stage.touch(*at(stage, 500, 300))
    second.slide(*at(stage, 400, 300))
    second.up()
    assert list(part.corners) == before
    first.up()


@pytest.mark.parametrize("which", range(4))
def test_the_lens_never_lies_under_the_finger(stage: Stage, part, which) -> None:
    finger = stage.touch(*at(stage, *part.corners[which]))
    x, y, edge = stage.find("corners").lens_box
    assert not (x <= finger.x <= x + edge and y <= finger.y <= y + edge)
    photo = stage.find("corners")
    assert photo.x <= x < x + edge <= photo.right
    assert photo.y <= y < y + edge <= photo.top
    finger.up()


def test_the_lens_shows_the_picture_around_the_chosen_corner(stage: Stage, part, tmp_path) -> None:
    """A white picture with one black quarter: the corner on its inner corner parts the lens in four."""
    from PIL import Image

    pixels = np.full((600, 800, 3), 255, np.uint8)
    pixels[:300, :400] = 0
    corners = ((400, 300), (780, 20), (780, 580), (20, 580))
    part.show(pixels, corners, step_px=1)
    stage.frame(3)
    x, y, edge = stage.find("corners").lens_box
    seen = np.asarray(Image.open(stage.picture(tmp_path / "lens.png")).convert("L"))

    def of(right: float, up: float) -> int:
        return int(seen[seen.shape[0] - 1 - round(y + up * edge), round(x + right * edge)])

    assert of(0.3, 0.7) < 40
    assert min(of(0.7, 0.7), of(0.3, 0.3), of(0.8, 0.3)) > 215


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
def test_it_can_be_done_in_gloves(stage: Stage, part, size) -> None:
    stage.resize(*size)
    stage.frame(4)
    assert complaints(stage) == {}


def test_a_photo_that_is_no_longer_shown_is_let_go(stage: Stage) -> None:
    from bench.screens.parts.corners import CornersPart

    part = CornersPart()
    part.show(PIXELS, inset((800, 600)), step_px=2)
    gone = weakref.ref(part.ids.photo.__self__)
    del part
    stage.frame(3)
    gc.collect()
    assert gone() is None
