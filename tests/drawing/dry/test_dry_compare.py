"""What was laid against what was drawn: the best matching there is, judged by trying all."""

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.drawing.dry import Found, Frame, compared, frame_around, of_section
from bench.drawing.dry.compare import LEAST_REACH_MM, REACH
from tests.fakes.panels import courses

PANEL = courses(6, 5, joint_mm=1.0)
SECTION = [7, 8, 9, 13, 14, 15]
WHOLE = Frame(x_mm=0, y_mm=0, width_mm=PANEL.width_mm, height_mm=PANEL.height_mm)


def pieces_at(places_mm, frame=WHOLE, radius_mm=1.0):
    """Return round pieces at places of the photo, ten pixels to the millimetre."""
    labels = np.zeros((round(frame.height_mm * 10), round(frame.width_mm * 10)), np.int32)
    y, x = np.mgrid[: labels.shape[0], : labels.shape[1]] / 10 + 0.05
    for k, (px, py) in enumerate(places_mm, start=1):
        labels[(x - px) ** 2 + (y - py) ** 2 < radius_mm**2] = k
    return Found(labels, 0.1, np.zeros(len(places_mm), bool))


def test_pieces_where_they_were_drawn_match_each_its_own():
    found = pieces_at(PANEL.centroid_mm[SECTION])
    told = compared(found, PANEL, SECTION, WHOLE)
    assert told.pairs == tuple(zip(SECTION, range(1, 7), strict=True))
    assert (told.drawn, told.laid, told.gaps, told.added) == (6, 6, (), ())
    assert told.shift_mm == pytest.approx(0.0, abs=0.05)


def test_a_gap_an_added_piece_and_a_shift_are_told():
    places = [*(PANEL.centroid_mm[SECTION[1:]] + (0.6, 0.8)), (2.0, 31.0)]
    told = compared(pieces_at(places), PANEL, SECTION, WHOLE)
    assert told.gaps == (7,)
    assert told.added == (6,)
    assert told.shift_mm == pytest.approx(1.0, abs=0.05)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10_000), count=st.integers(0, 6))
def test_no_other_matching_has_more_pairs_or_as_many_and_shorter(seed, count):
    rng = np.random.default_rng(seed)
    low, high = PANEL.centroid_mm[SECTION].min(axis=0) - 3, PANEL.centroid_mm[SECTION].max(axis=0) + 3
    found = pieces_at(rng.uniform(low, high, (count, 2)), radius_mm=0.3)
    if len(np.unique(found.labels)) != count + 1:
        return  # one lay over another
    told = compared(found, PANEL, SECTION, WHOLE)
    far = np.hypot(*(PANEL.centroid_mm[SECTION][:, None] - found.centroid_mm()[None]).transpose(2, 0, 1))
    reach = np.maximum(REACH * np.sqrt(PANEL.area_mm2[SECTION]), LEAST_REACH_MM)
    best = (0, 0.0)
    for order in permutations(range(6), count):
        pairs = [(k, j) for j, k in enumerate(order) if far[k, j] <= reach[k]]
        best = max(best, (len(pairs), -sum(far[k, j] for k, j in pairs)))
    ours = [far[SECTION.index(t), piece - 1] for t, piece in told.pairs]
    assert (len(ours), -sum(ours)) == (best[0], pytest.approx(best[1]))
    assert len(told.gaps) == 6 - best[0]
    assert len(told.added) == count - best[0]


def test_of_nothing_laid_all_is_a_gap():
    told = compared(pieces_at([]), PANEL, SECTION, WHOLE)
    assert (told.laid, told.gaps, told.shift_mm) == (0, tuple(SECTION), 0.0)


def test_pieces_of_the_section_beside_it_are_left_to_that_one():
    beside = [10, 16]
    found = pieces_at(PANEL.centroid_mm[[*SECTION, *beside]])
    own = of_section(found, PANEL, SECTION, beside, WHOLE)
    assert own.count == 6
    assert compared(own, PANEL, SECTION, WHOLE).gaps == ()
    assert of_section(found, PANEL, SECTION, [], WHOLE).count == 8


def test_a_bare_outline_of_the_cartoon_is_no_piece_of_clear_glass():
    """Coloured glass that strayed beyond the section still counts, clear glass within it too."""
    places = pieces_at(PANEL.centroid_mm[[*SECTION, 10, 16]])
    found = Found(places.labels, places.mm_per_px, np.array([True] + [False] * 5 + [True, False]))
    own = of_section(found, PANEL, SECTION, [], WHOLE)
    assert own.count == 7
    assert own.by_edges.tolist() == [True] + [False] * 6
    told = compared(own, PANEL, SECTION, WHOLE)
    assert (told.gaps, told.added) == ((), (7,))


def test_the_rectangle_around_a_section_ends_at_the_panels_edge():
    frame = frame_around(PANEL, SECTION, 5.0)
    low = np.concatenate([PANEL.rings_mm(k)[0] for k in SECTION]).min(axis=0)
    assert (frame.x_mm, frame.y_mm) == pytest.approx(tuple(low - 5.0))
    wide = frame_around(PANEL, SECTION, 500.0)
    assert wide == frame_around(PANEL, SECTION, None)
    assert (wide.width_mm, wide.height_mm) == (PANEL.width_mm, PANEL.height_mm)


def test_a_mirrored_lay_is_matched_as_if_seen_from_the_front():
    frame = frame_around(PANEL, SECTION, 5.0, mirrored=True)
    places = PANEL.centroid_mm[SECTION]
    found = pieces_at(frame.in_photo(places), frame)
    told = compared(found, PANEL, SECTION, frame)
    assert told.gaps == ()
    assert told.shift_mm < 0.1
    assert frame.on_panel(frame.in_photo(places)) == pytest.approx(places)
