"""Taps and strokes correct what was found; said again over the same photo they give the same."""

import numpy as np
import pytest
from skimage.measure import label as components

from bench.drawing.dry import (
    Correction,
    CutsNothing,
    Found,
    NoPieceThere,
    NoRoomThere,
    TooFarApart,
    corrected,
    stroked,
    tapped,
)


def found():
    """Two squares of 6 mm, 1 mm apart, and a third far off; 5 pixels to the millimetre."""
    labels = np.zeros((100, 150), np.int32)
    labels[20:50, 20:50], labels[20:50, 55:85], labels[60:90, 110:140] = 1, 2, 3
    return Found(labels, 0.2, np.array([False, True, False]), "lay.jpg")


def test_a_tap_on_a_piece_takes_it_away_and_the_others_keep_their_marks():
    said = tapped(found(), 7.0, 7.0)
    after = corrected(found(), [said])
    assert said.kind == "taken_away"
    assert (after.count, after.by_edges.tolist()) == (2, [True, False])
    assert after.area_mm2() == pytest.approx([36.0, 36.0])


def test_a_tap_on_bare_ground_adds_a_piece_as_large_as_its_neighbours_allow():
    said = tapped(found(), 10.5, 15.0, slack_mm=1.0)
    after = corrected(found(), [said])
    assert said.kind == "added"
    assert after.count == 4
    assert after.area_mm2()[3] == pytest.approx(36.0, rel=0.05)
    assert np.hypot(*(after.centroid_mm()[3] - (10.5, 15.0))) < 0.2
    tight = corrected(found(), [Correction(kind="added", points_mm=((10.5, 11.6),))])
    assert tight.area_mm2()[3] < 10
    assert components(tight.labels > 0).max() == 4


def test_a_tap_with_slack_takes_the_piece_that_a_thumb_just_missed():
    assert tapped(found(), 3.2, 7.0, slack_mm=1.2).kind == "taken_away"
    assert tapped(found(), 2.0, 7.0, slack_mm=1.2).kind == "added"


def test_a_stroke_across_a_piece_parts_it_and_nothing_of_it_is_lost():
    said = stroked(found(), [(7.0, 3.0), (7.0, 11.0)])
    after = corrected(found(), [said])
    assert said.kind == "parted"
    assert after.count == 4
    assert after.area_mm2().sum() == pytest.approx(108.0)
    assert sorted(after.area_mm2())[:2] == pytest.approx([18.0, 18.0], abs=1.5)


def test_one_stroke_may_part_several():
    after = corrected(found(), [stroked(found(), [(3.0, 7.0), (18.0, 7.0)])])
    assert after.count == 5
    assert after.by_edges.tolist().count(True) == 1


def test_a_stroke_from_one_piece_into_the_next_makes_them_one_with_their_joint():
    said = stroked(found(), [(8.0, 7.0), (13.0, 7.0)])
    after = corrected(found(), [said])
    assert said.kind == "made_one"
    assert after.count == 2
    assert after.area_mm2()[0] == pytest.approx(6.0 * 13.0, rel=0.02)
    assert components(after.labels == 1).max() == 1


@pytest.mark.parametrize(
    ("kind", "points", "fault"),
    [
        ("taken_away", [(1.0, 1.0)], NoPieceThere),
        ("taken_away", [(-50.0, 900.0)], NoPieceThere),
        ("added", [(7.0, 7.0)], NoRoomThere),
        ("added", [(10.5, 7.0)], NoRoomThere),
        ("added", [(-3.0, 7.0)], NoRoomThere),
        ("added", [(1e9, 7.0)], NoRoomThere),
        ("parted", [(7.0, 3.0), (7.0, 7.0)], CutsNothing),
        ("parted", [(1.0, 1.0), (1.0, 19.0)], CutsNothing),
        ("parted", [(7.0, 7.0)], CutsNothing),
        ("made_one", [(7.0, 7.0), (8.0, 7.0)], TooFarApart),
        ("made_one", [(7.0, 7.0), (25.0, 15.0)], TooFarApart),
        ("made_one", [(7.0, 7.0), (1.0, 1.0)], TooFarApart),
    ],
)
def test_what_cannot_be_done_is_told_and_changes_nothing(kind, points, fault):
    before = found()
    with pytest.raises(fault, match=r"lay\.jpg"):
        corrected(before, [Correction(kind=kind, points_mm=points)])
    assert np.array_equal(before.labels, found().labels)


def test_words_read_back_and_said_again_over_the_same_photo_give_the_same():
    said = [
        Correction(kind="added", points_mm=((10.5, 15.0),)),
        stroked(found(), [(7.0, 3.0), (7.0, 11.0)]),
        Correction(kind="made_one", points_mm=((9.0, 7.0), (12.0, 7.0))),
        Correction(kind="taken_away", points_mm=((25.0, 15.0),)),
    ]
    read = [Correction.model_validate_json(one.model_dump_json()) for one in said]
    assert read == said
    once, again = corrected(found(), said), corrected(found(), read)
    assert np.array_equal(once.labels, again.labels)
    assert once.count == 3
    assert corrected(corrected(found(), said[:2]), said[2:]).count == 3
    assert corrected(found(), said[:-1]).count == 4
