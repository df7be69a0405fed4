"""A draft's areas: what its paint shows, changed word by word, taken back, and laid in a trial."""

import numpy as np
import pytest
import shapely

from bench.book import Store
from bench.drawing.lay import Brush, LayHow
from bench.drawing.study import Flow, StudyHow
from bench.drawing.study.edits import Drawn, LaidSo, MadeOne, Named
from bench.drawing.study.faults import AreaTooSmall, NothingTouched, OneColour, PieceTooLarge, TooManyPieces
from bench.drawing.study.outline import Outline
from bench.job import drafts as d
from bench.job.faults import SizeNotTold
from bench.job.studying import (
    check_lay,
    counted_anew,
    laid_so,
    main_glass,
    pieces_of,
    said,
    studied,
    taken_back,
)
from bench.job.trial import stepped_joint, trial
from tests.fakes.shapes import polygons_of
from tests.fakes.studies import BLUE, CREAM, YELLOW, lemon_labels, painted, plain

SIZE_MM = (200.0, 160.0)
PAINT = painted(lemon_labels(), (CREAM, BLUE, YELLOW))
PATCH = ((10.0, 10.0), (60.0, 10.0), (60.0, 40.0), (10.0, 40.0))
STROKE = ((20.0, 140.0), (180.0, 140.0))


@pytest.fixture(scope="module")
def found():
    return studied(d.Draft(name="lemon.png", kind="study"), PAINT, SIZE_MM)


@pytest.fixture
def draft():
    return d.Draft(name="lemon.png", kind="study", study=StudyHow(regions=3, piece_mm=9.0))


def empty(**more):
    return d.Draft(name=d.EMPTY, kind="empty", width_mm=300.0, height_mm=200.0, **more)


# -- the draft -------------------------------------------------------------------------------------------


def test_a_draft_from_before_there_were_studies_is_read(clock):
    with Store.in_memory() as store:
        draft_id = d.begin_draft(store, clock, "lemons.jpg", b"picture")
        store.drafts.change(draft_id, '{"version": 1, "name": "lemons.jpg", "kind": "study"}', clock.utc())
        assert d.draft_of(store, draft_id).study == StudyHow()


def test_what_was_said_of_areas_comes_back_as_it_was(clock, draft):
    draft = said(draft, Drawn(outline_mm=PATCH, region=plain("window")))
    draft = counted_anew(said(draft, Named(region=1, name="cloth")), StudyHow(regions=5))
    draft = draft.changed(lay=LayHow(seed=3).brushed(Brush(stroke_mm=STROKE, radius_mm=4, follow=True)))
    with Store.in_memory() as store:
        draft_id = d.begin_draft(store, clock, draft.name, b"picture")
        d.keep_draft(store, clock, draft_id, draft)
        assert d.draft_of(store, draft_id) == draft


def test_what_was_said_of_areas_goes_with_the_paint_under_it_and_the_pieces_stay(draft):
    draft = said(draft, Named(region=1, name="cloth"))
    draft = draft.changed(lay=LayHow(joint_mm=1.2).brushed(Brush(stroke_mm=STROKE, radius_mm=4)))
    assert draft.changed(lighten=0) == draft
    for update in ({"lighten": 1}, {"turned": 1}, {"width_mm": 90.0}):
        anew = draft.changed(**update)
        assert (anew.study, anew.lay) == (StudyHow(piece_mm=9.0), LayHow(joint_mm=1.2))


def test_an_empty_panel_is_a_draft_without_a_file_and_keeps_its_areas_when_its_size_changes(clock):
    with Store.in_memory() as store:
        draft_id = d.begin_empty(store, clock)
        draft = d.draft_of(store, draft_id)
        assert (draft.kind, draft.step, d.file_of(store, draft_id)) == ("empty", "outline", None)
        draft = said(draft, Drawn(outline_mm=PATCH, region=plain("window")))
        assert draft.changed(width_mm=250.0).study == draft.study
        assert d.drop_draft(store, draft_id).files == {}


# -- the areas -------------------------------------------------------------------------------------------


def test_the_same_words_make_the_same_areas_and_are_not_worked_out_twice(found, draft):
    study = found.study(draft.study)
    more = said(draft, MadeOne(one=1, other=2))
    assert len(found.study(more.study).regions) == 2
    assert found.study(draft.study) is study
    assert found.study(taken_back(more).study) is study


def test_more_areas_are_more_and_fewer_are_fewer_to_the_end(found, draft):
    how, counts = draft.study, []
    for _ in range(8):
        how = found.stepped(how, 1)
        counts.append(len(found.study(how).regions))
    assert counts == sorted(set(counts))
    assert counts[0] > 3
    for _ in range(40):
        how = found.stepped(how, -1)
    assert len(found.study(how).regions) == 1
    assert found.stepped(how, -1) == how


def test_counting_anew_drops_what_was_said_and_take_back_brings_it(found, draft):
    named = said(said(draft, Named(region=1, name="cloth")), Named(region=2, name="wall"))
    anew = counted_anew(named, found.stepped(named.study, 1))
    assert anew.study.edits == ()
    again = counted_anew(anew, found.stepped(anew.study, 1))
    assert taken_back(again).study == named.study
    assert taken_back(taken_back(taken_back(again))).study == draft.study
    assert taken_back(draft) == draft


def test_a_word_said_again_and_again_is_one_word(found, draft):
    study = found.study(draft.study)
    thicker = study.regions[0].model_copy(update={"piece_mm": 12.0})
    once = laid_so(draft, study, 1, thicker)
    twice = laid_so(once, study, 1, thicker.model_copy(update={"piece_mm": 15.0}), instead=True)
    assert len(twice.study.edits) == 1
    assert found.study(twice.study).regions[0].piece_mm == 15.0
    assert taken_back(twice).study == draft.study


def test_pieces_that_do_not_fit_are_refused_with_what_would(found, draft):
    study = found.study(draft.study)
    huge = study.regions[0].model_copy(update={"piece_mm": 161.0})
    with pytest.raises(PieceTooLarge) as told:
        laid_so(draft, study, 1, huge)
    assert "160 mm" in told.value.todo


def test_too_many_pieces_are_told_with_their_number(found):
    draft = d.Draft(name="lemon.png", kind="study", study=StudyHow(regions=3, piece_mm=0.2))
    with pytest.raises(TooManyPieces) as told:
        check_lay(draft.changed(lay=LayHow(joint_mm=0.0)), found.study(draft.study))
    assert told.value.count == pytest.approx(200 * 160 / 0.04, rel=0.01)


def test_a_drawn_area_is_of_the_paint_under_it_or_of_the_colour_asked(found, draft):
    study = found.study(draft.study)
    under = found.drawn(study, PATCH, 5.0)
    assert np.abs(np.array(under.region.mix[0].colour, int) - CREAM).max() < 12
    assert under.region.piece_mm == 5.0
    blue = found.drawn(study, PATCH, 5.0, BLUE)
    assert np.abs(np.array(blue.region.mix[0].colour, int) - BLUE).max() < 9
    with pytest.raises(AreaTooSmall):
        found.drawn(study, PATCH[:2], 5.0)


def test_a_long_stroke_is_kept_in_few_points(found, draft):
    turn = np.linspace(0, 2 * np.pi, 20_000)
    ring = [(100 + 30 * x, 80 + 30 * y) for x, y in zip(np.cos(turn), np.sin(turn), strict=True)]
    word = found.drawn(found.study(draft.study), ring, 5.0)
    assert len(word.outline_mm) <= 2000
    assert shapely.Polygon(word.outline_mm).area == pytest.approx(np.pi * 900, rel=0.01)


def test_an_empty_panel_is_all_ground_until_areas_are_drawn():
    draft = empty(outline=Outline(shape="oval"))
    found = studied(draft, None, (None, None))
    study = found.study(draft.study)
    assert [r.name for r in study.regions] == ["ground"]
    assert study.area_mm2()[0] == pytest.approx(np.pi * 150 * 100, rel=0.005)
    assert found.fits(draft, None)
    assert not found.fits(draft.changed(width_mm=310.0), None)
    assert found.stepped(draft.study, 1) == draft.study
    with pytest.raises(SizeNotTold):
        studied(d.Draft(name=d.EMPTY, kind="empty"), None, (None, None))


def test_words_that_no_longer_fit_a_smaller_panel_end_what_is_read_of_them():
    draft = said(empty(), Named(region=1, name="wall"))
    far = ((250.0, 150.0), (290.0, 150.0), (290.0, 190.0))
    draft = said(draft, Drawn(outline_mm=far, region=plain("sun")))
    draft = said(draft, LaidSo(region=2, to=plain("sun", 4.0)))
    small = draft.changed(width_mm=100.0, height_mm=100.0)
    how, study = studied(small, None, (None, None)).as_far_as_it_goes(small.study)
    assert how.edits == draft.study.edits[:1]
    assert [r.name for r in study.regions] == ["wall"]


def test_a_picture_of_one_colour_says_so():
    blank = painted(np.ones((60, 80), np.int32), (CREAM,), noise=0.0)
    with pytest.raises(OneColour, match="one colour only"):
        studied(d.Draft(name="blank.png"), blank, SIZE_MM)


def test_each_area_shows_its_main_glass_and_about_how_many_pieces(found, draft):
    study = found.study(draft.study)
    assert np.abs(np.array(sorted(main_glass(study)), int) - sorted((CREAM, BLUE, YELLOW))).max() < 12
    expected = study.area_mm2() / (9.0 + 0.8) ** 2
    assert pieces_of(study, 0.8) == pytest.approx(expected, abs=0.51)


# -- the trial lay ---------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def first(found):
    study = found.study(StudyHow(regions=3, piece_mm=9.0))
    return trial(study, LayHow(), PAINT)


def test_the_pieces_of_each_area_add_up_and_are_named_for_it(first):
    counts = dict(first.counts())
    assert sum(counts.values()) == first.panel.tessera_count
    assert set(counts) == {region.name for region in first.study.regions}
    union = shapely.union_all(polygons_of(first.panel))
    assert union.area < 200 * 160


def test_what_is_the_same_is_not_laid_again(first):
    assert trial(first.study, LayHow(), PAINT, first) is first
    brush = Brush(stroke_mm=STROKE, radius_mm=8, larger=0.7)
    brushed = trial(first.study, LayHow().brushed(brush), PAINT, first)
    assert brushed.bare is first.bare
    assert brushed.lay.piece_count > first.lay.piece_count
    back = trial(first.study, LayHow(), PAINT, brushed)
    assert back.lay is first.bare


@pytest.mark.parametrize("known", [True, False])
def test_a_stroke_lays_the_same_whether_or_not_the_lay_before_is_at_hand(first, known):
    one = Brush(stroke_mm=STROKE, radius_mm=8, larger=0.7)
    other = Brush(stroke_mm=((30.0, 30.0), (90.0, 30.0)), radius_mm=9, follow=True)
    how = LayHow().brushed(one).brushed(other)
    before = trial(first.study, LayHow().brushed(one), PAINT, first) if known else None
    found = trial(first.study, how, PAINT, before)
    np.testing.assert_array_equal(found.lay.cell, trial(first.study, how, PAINT).lay.cell)


def test_a_stroke_taken_back_leaves_the_ones_before_it(first):
    one = LayHow().brushed(Brush(stroke_mm=STROKE, radius_mm=8, larger=0.7))
    two = one.brushed(Brush(stroke_mm=((30.0, 30.0), (90.0, 30.0)), radius_mm=9, flow=Flow(kind="loose")))
    both = trial(first.study, two, PAINT, first)
    back = trial(first.study, two.taken_back(), PAINT, both)
    np.testing.assert_array_equal(back.lay.cell, trial(first.study, one, PAINT, first).lay.cell)


def test_another_joint_or_seed_is_another_lay(first):
    for how in (LayHow(joint_mm=2.0), LayHow(seed=1)):
        other = trial(first.study, how, PAINT, first)
        assert other.bare is not first.bare
        assert not np.array_equal(other.panel.points_mm, first.panel.points_mm)


def test_a_lay_that_is_stopped_is_none_and_a_stroke_over_nothing_is_refused(first):
    assert trial(first.study, LayHow(seed=9), PAINT, None, lambda _share: False) is None
    with pytest.raises(NothingTouched):
        trial(first.study, LayHow().brushed(Brush(stroke_mm=((900.0, 900.0),), radius_mm=2)), PAINT, first)


def test_joints_are_stepped_from_none_to_three_millimetres():
    joint_mm, seen = 0.8, []
    for _ in range(9):
        joint_mm = stepped_joint(joint_mm, 1)
        seen.append(joint_mm)
    assert seen[-1] == 3.0
    for _ in range(12):
        joint_mm = stepped_joint(joint_mm, -1)
    assert joint_mm == 0.0
