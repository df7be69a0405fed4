"""Four corners and a true size take the perspective out of a photo; corners that span nothing are told."""

import numpy as np
import pytest
from PIL import Image
from skimage.transform import ProjectiveTransform, warp

from bench.drawing.faults import DrawingFault, SizeOutOfRange
from bench.drawing.photo import Corners, Picture, corner_error_mm, homography, square_up
from bench.drawing.photo import faults as f

SEEN = ((130.0, 90.0), (610.0, 60.0), (680.0, 470.0), (80.0, 430.0))
BLANK = Picture(np.full((520, 740, 3), 255, np.uint8), None, "lay.jpg")


def transform_between(source, target) -> ProjectiveTransform:
    one = ProjectiveTransform()
    assert one.estimate(np.array(source, float), np.array(target, float))
    return one


@pytest.mark.filterwarnings("ignore::FutureWarning")
def test_the_matrix_is_that_of_scikit_image():
    """scikit-image, transform.ProjectiveTransform."""
    target = np.array([(0, 0), (300, 0), (300, 200), (0, 200)], float)
    expected = transform_between(SEEN, target).params
    assert homography(np.array(SEEN), target) == pytest.approx(expected / expected[2, 2], rel=1e-8)


@pytest.mark.filterwarnings("ignore::FutureWarning")
def test_a_checkerboard_in_perspective_comes_out_square():
    """Our own board of 6 by 4 fields of 50 mm, put in perspective by scikit-image's warp."""
    board = np.kron(np.indices((4, 6)).sum(axis=0) % 2, np.ones((100, 100)))
    corners = [(0, 0), (600, 0), (600, 400), (0, 400)]
    # its coordinates are those of pixel centres, half a pixel off those of edges
    shift = transform_between(np.array(SEEN) - 0.5, np.array(corners) - 0.5)
    photo = (warp(board, shift, output_shape=(520, 740), cval=0.5) * 255).astype(np.uint8)
    picture = Picture(np.repeat(photo[..., None], 3, axis=2), None, "board.png")
    flat = square_up(picture, Corners(corner_px=SEEN, width_mm=300, height_mm=200))
    rows, columns, _ = flat.pixels.shape
    assert flat.mm_per_px * columns == pytest.approx(300)
    assert flat.mm_per_px * rows == pytest.approx(200, abs=flat.mm_per_px)
    seen = np.asarray(Image.fromarray(flat.pixels).convert("L").resize((600, 400))) > 127
    assert (seen == (board > 0.5)).mean() > 0.985


def test_a_photo_from_straight_above_errs_by_the_tap_alone():
    corners = Corners(
        corner_px=((0, 0), (600, 0), (600, 400), (0, 400)), width_mm=300, height_mm=200, tap_px=3
    )
    assert corner_error_mm(BLANK, corners) == pytest.approx([1.5] * 4)


def test_the_error_is_what_a_tap_beside_the_corner_comes_to():
    corners = Corners(corner_px=SEEN, width_mm=300, height_mm=200, tap_px=1)
    matrix = homography(np.array(SEEN), np.array([(0, 0), (300, 0), (300, 200), (0, 200)], float))
    angle = np.linspace(0, 2 * np.pi, 720)
    for corner, error in zip(SEEN, corner_error_mm(BLANK, corners), strict=True):
        around = np.array(corner) + 1e-3 * np.stack([np.cos(angle), np.sin(angle)], axis=1)
        both = np.column_stack([np.vstack([around, corner]), np.ones(721)]) @ matrix.T
        mm = both[:, :2] / both[:, 2:]
        assert np.hypot(*(mm[:-1] - mm[-1]).T).max() / 1e-3 == pytest.approx(error, rel=1e-3)


@pytest.mark.parametrize(
    "corner_px",
    [
        (SEEN[0], SEEN[2], SEEN[1], SEEN[3]),  # crossed
        SEEN[::-1],  # mirrored
        ((0, 0), (100, 0), (200, 0), (0, 100)),  # three in a line
        ((5, 5), (5, 5), (5, 5), (5, 5)),
        ((0, 0), (100, 0), (20, 20), (0, 100)),  # one pushed in
    ],
)
def test_corners_that_span_no_rectangle_are_told(corner_px):
    with pytest.raises(DrawingFault) as caught:
        square_up(BLANK, Corners(corner_px=corner_px, width_mm=300, height_mm=200))
    assert type(caught.value) is f.CornersCross
    assert caught.value.todo


@pytest.mark.parametrize("size", [(0, 200), (300, 40_000), (-5, 200)])
def test_a_size_of_nothing_or_of_a_wall_is_told(size):
    with pytest.raises(DrawingFault) as caught:
        square_up(BLANK, Corners(corner_px=SEEN, width_mm=size[0], height_mm=size[1]))
    assert type(caught.value) is SizeOutOfRange
