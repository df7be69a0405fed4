"""Zones drawn, changed, dropped: each piece in one at most, joints going along, what is grouted staying."""

import numpy as np
import pytest

from bench.finish.faults import ZoneWithoutGrout
from bench.job.acts import cure, opening, record, revising, zoning
from bench.job.acts.opening import open_panel
from bench.job.finish_faults import OutOfTurn
from bench.job.fold import fold
from bench.job.zones import joints_mm2, laid_zones, plan, rest_of
from tests.fakes.drawings import BLUE, YELLOW, grid_svg
from tests.fakes.finished import GREY, grout_zone, hard_at_once, two_coloured, whole_panel


@pytest.fixture
def bare(store, clock):
    """Nothing is set: zones may be drawn long before they are grouted."""
    return two_coloured(store, clock)


def tesserae_of(job, number):
    return set(job.state.finish.zones[number].tesserae)


def test_a_piece_lies_in_one_zone_at_most_and_the_last_stroke_counts(bare):
    one = zoning.draw_zone(bare, range(24), "one")
    two = zoning.draw_zone(bare, range(12, 36), "two")
    assert tesserae_of(bare, one) == set(range(12))
    assert tesserae_of(bare, two) == set(range(12, 36))
    assert set(rest_of(bare)) == set(range(36, 72))
    zoning.add_to_zone(bare, one, [12, 13, 40])
    assert tesserae_of(bare, one) == {*range(14), 40}
    assert tesserae_of(bare, two) == set(range(14, 36))


def test_a_zone_that_loses_its_last_piece_goes_and_comes_back_with_undo(bare):
    one = zoning.draw_zone(bare, [0, 1], "one")
    two = zoning.draw_zone(bare, range(12), "two")
    assert one not in bare.state.finish.zones
    record.undo(bare)
    assert tesserae_of(bare, one) == {0, 1}
    assert two not in bare.state.finish.zones
    assert fold(bare.store.events(bare.panel_id)) == bare.state


def test_joints_go_along_with_their_pieces_and_add_up(bare):
    zoning.propose_zones(bare)
    laid = laid_zones(bare)
    areas = [joints_mm2(bare, laid.members(n)) for n in laid.numbers]
    assert sum(areas) == pytest.approx(bare.panel.joint_area_mm2)
    assert areas[0] == pytest.approx(areas[1], rel=0.01)
    assert {z.name for z in plan(bare).zones} == set(laid.names)


def test_dropped_pieces_are_of_the_rest_again(bare):
    one = zoning.draw_zone(bare, range(24), "one")
    zoning.drop_zone(bare, one)
    assert len(rest_of(bare)) == 72
    assert laid_zones(bare).names == ("the panel",)


def test_groups_and_colours_are_proposed_and_replace_what_is_not_grouted(bare):
    zoning.draw_zone(bare, range(3), "by hand")
    numbers = zoning.propose_zones(bare)
    assert len(numbers) == 2
    assert not rest_of(bare)
    assert {len(tesserae_of(bare, n)) for n in numbers} == {36}
    assert len(zoning.propose_zones(bare, "one")) == 1


def test_what_is_grouted_stays_in_its_zone_whatever_is_drawn(store, clock):
    job = open_panel(store, clock, grid_svg(12, 6), "grid.svg")
    hard_at_once(job)
    one = zoning.draw_zone(job, range(24), "one")
    zoning.choose_grout(job, one, "pale grey", GREY)
    grout_zone(job, one)
    two = zoning.draw_zone(job, range(12, 48), "two")
    assert tesserae_of(job, one) == set(range(24))
    assert tesserae_of(job, two) == set(range(24, 48))
    zoning.propose_zones(job)
    assert tesserae_of(job, one) == set(range(24))
    for act, *given in (
        (zoning.draw_zone, range(5), "again"),
        (zoning.add_to_zone, one, [60]),
        (zoning.drop_zone, one),
        (zoning.choose_grout, one, "sand", GREY),
    ):
        with pytest.raises(OutOfTurn, match="grouted"):
            act(job, *given)


def test_nothing_touched_or_nothing_there_makes_no_zone(bare):
    for tesserae in ([], [-1], [9999]):
        with pytest.raises(OutOfTurn, match="no piece"):
            zoning.draw_zone(bare, tesserae, "none")


def test_a_zone_that_would_take_all_joints_of_another_is_refused(store, clock):
    """Two pieces that touch leave no joint between them, nor at the page's edge."""
    job = open_panel(store, clock, grid_svg(4, 2, joint_mm=0.0), "tight.svg")
    with pytest.raises(ZoneWithoutGrout):
        zoning.draw_zone(job, [0, 1], "tight")


def test_choosing_a_grout_for_the_rest_makes_it_a_zone(bare):
    one = zoning.draw_zone(bare, range(24), "one")
    rest = zoning.choose_grout(bare, 0, "pale grey", GREY)
    assert bare.state.finish.zones[rest].name == "the rest"
    assert tesserae_of(bare, rest) == set(range(24, 72))
    assert one != rest
    record.undo(bare)
    assert rest not in bare.state.finish.zones


def test_spans_say_the_same_pieces_in_few_numbers():
    assert zoning.spans_of([5, 3, 4, 9]) == ((3, 3), (9, 1))
    assert zoning.spans_of([]) == ()


def test_a_revised_drawing_keeps_zones_on_the_pieces_that_stay(bare):
    one = zoning.draw_zone(bare, range(24), "one")
    spots = {tuple(xy) for xy in np.round(bare.panel.centroid_mm[sorted(tesserae_of(bare, one))], 3).tolist()}
    data = grid_svg(12, 6, colour=lambda c, r: BLUE if c < 5 else YELLOW)
    revising.revise(bare, revising.try_revise(bare, data, "again.svg"))
    now = sorted(tesserae_of(bare, one))
    assert now
    assert {tuple(xy) for xy in np.round(bare.panel.centroid_mm[now], 3).tolist()} <= spots
    assert fold(bare.store.events(bare.panel_id)) == bare.state


def test_chipping_out_and_dividing_anew_leaves_pieces_in_their_zones(store, clock):
    job = open_panel(store, clock, grid_svg(12, 6), "grid.svg")
    hard_at_once(job)
    zone = whole_panel(job)
    before = tesserae_of(job, zone)
    cure.chip_out(job, min(job.state.sections))
    opening.divide_anew(job)
    assert tesserae_of(job, zone) == before
