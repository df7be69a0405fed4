"""A study changed by hand: each change is what was asked, nothing else moves, and the old study stays."""

import numpy as np
import pytest

from bench.drawing.study.edit import (
    changed_region,
    covered,
    merged,
    middle_of,
    region_at,
    renamed,
    split,
    with_area,
)
from bench.drawing.study.faults import AllOneShade, AreaTooSmall, NoSuchRegion, NotBeside, OneColour
from bench.drawing.study.model import Flow
from bench.drawing.study.propose import propose
from tests.fakes.studies import BLUE, CREAM, YELLOW, lemon_labels, lemon_study, painted, plain


@pytest.fixture(scope="module")
def proposal():
    return propose(painted(lemon_labels(), (CREAM, BLUE, YELLOW)), (200.0, 160.0))


def test_a_tap_finds_the_region_under_it():
    study = lemon_study()
    assert study.regions[region_at(study, 100, 88) - 1].name == "lemon"
    assert study.regions[region_at(study, 5, 5) - 1].name == "wall"
    assert [region_at(study, *off) for off in ((-1, 5), (5, -1), (201, 5), (5, 161))] == [0, 0, 0, 0]


def test_the_middle_of_a_region_lies_in_it_even_where_it_is_a_ring():
    study = lemon_study()
    assert middle_of(study, 3) == pytest.approx((100, 88), abs=1)
    ring = with_area(study, [(60, 60), (140, 60), (140, 116), (60, 116)], plain("hole"))
    assert region_at(ring, *middle_of(ring, 3)) == 3


def test_two_regions_become_one_laid_as_the_larger():
    study = lemon_study()
    one = merged(study, 3, 1)
    assert [r.name for r in one.regions] == ["wall", "cloth"]
    assert one.area_mm2().sum() == pytest.approx(study.area_mm2().sum())
    assert len(study.regions) == 3


def test_regions_that_do_not_touch_are_not_made_one():
    study = with_area(lemon_study(), [(2, 2), (12, 2), (12, 12), (2, 12)], plain("sun"))
    with pytest.raises(NotBeside, match="'sun' and 'cloth'"):
        merged(study, 4, 2)
    with pytest.raises(NotBeside):
        merged(study, 2, 2)


def test_parting_a_region_finds_the_paint_again(proposal):
    three = proposal.study(3)
    names = {r.name for r in three.regions}
    two = merged(three, 1, 2)
    assert {r.name for r in split(two, 1, proposal).regions} == names


def test_the_larger_part_keeps_its_name_and_both_their_rows(proposal):
    three = proposal.study(3)
    to = merged(three, 1, 2).regions[0].model_copy(
        update={"name": "table", "aspect": 1.5, "flow": Flow(kind="loose")}
    )
    parts = split(changed_region(merged(three, 1, 2), 1, to), 1, proposal)
    larger, smaller = parts.regions[0], parts.regions[-1]
    assert larger.name == "table"
    assert smaller.name != "table"
    assert {(r.aspect, r.flow.kind) for r in (larger, smaller)} == {(1.5, "loose")}
    assert parts.area_mm2()[0] > parts.area_mm2()[-1]


def test_what_is_one_shade_cannot_be_parted():
    proposal = propose(painted(lemon_labels(), (CREAM, BLUE, YELLOW), noise=0.0), (200.0, 160.0))
    with pytest.raises(AllOneShade):
        split(proposal.study(3), 3, proposal)


def test_a_name_taken_twice_is_told_apart():
    assert [r.name for r in renamed(lemon_study(), 3, "wall").regions] == ["wall", "cloth", "wall-2"]


def test_how_one_region_is_laid_changes_alone():
    study = lemon_study()
    to = study.regions[1].model_copy(update={"flow": Flow(kind="straight", angle_deg=20), "piece_mm": 9.0})
    after = changed_region(study, 2, to)
    assert [r.piece_mm for r in after.regions] == [6.0, 9.0, 6.0]
    np.testing.assert_array_equal(after.labels, study.labels)


def test_an_area_drawn_by_hand_takes_its_place_and_no_more():
    study = lemon_study()
    after = with_area(study, [(10, 10), (40, 10), (40, 30), (10, 30)], plain("window"))
    assert after.area_mm2()[3] == pytest.approx(600)
    assert after.area_mm2()[0] == pytest.approx(study.area_mm2()[0] - 600)


def test_an_area_beyond_the_panels_outline_is_not_drawn():
    study = lemon_study()
    labels = study.labels.copy()
    labels[:, :50] = 0
    bare = type(study)(labels, study.size_mm, study.regions)
    after = with_area(bare, [(40, 10), (60, 10), (60, 30), (40, 30)], plain("window"))
    assert after.area_mm2()[3] == pytest.approx(200)
    with pytest.raises(AreaTooSmall):
        with_area(bare, [(1, 1), (9, 1), (9, 9)], plain("lost"))


@pytest.mark.parametrize(
    "outline", [[], [(1, 1), (2, 2)], [(np.nan, 1), (3, 4), (5, 1)], [(1e9, 0), (1e9, 9), (2e9, 3)]]
)
def test_an_outline_of_nothing_covers_nothing(outline):
    assert not covered(lemon_study(), np.array(outline, float).reshape(-1, 2)).any()


@pytest.mark.parametrize("region", [0, 4, -1])
def test_a_region_that_is_not_there_is_named(region):
    with pytest.raises(NoSuchRegion, match="regions 1 to 3"):
        renamed(lemon_study(), region, "sky")


def test_a_picture_of_one_colour_is_no_study():
    blank = painted(np.ones((60, 80), np.int32), (CREAM,), noise=0.4)
    with pytest.raises(OneColour):
        propose(blank, (200.0, 150.0))
