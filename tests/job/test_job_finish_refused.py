"""Names, grams, rooms and tables of finishing that cannot be: one clear line each, and nothing is written."""

import pytest

from bench.fault import Fault
from bench.finish.faults import JointsWiderThanPieces, NamelessColour, TooColdForGrout, ZoneWithoutGrout
from bench.job.acts import grouting, inking, opening, zoning
from bench.job.acts.opening import open_panel
from bench.job.faults import NoSuchZone
from bench.job.finish_faults import PowderOutOfRange, StillWet, WaterOutOfRange
from bench.job.finish_settings import grouting as how
from bench.job.finish_settings import set_grouting
from bench.job.stock_faults import LotUnreadable
from tests.fakes.drawings import grid_svg
from tests.fakes.finished import BLUE, GREY, grout_zone, hard_at_once, hard_panel, refused, whole_panel

HOUR_S = 3600.0
LEFT_HALF = [row * 12 + column for row in range(6) for column in range(6)]


@pytest.fixture
def job(store, clock):
    return hard_panel(store, clock)


def test_figures_and_names_that_cannot_be_are_each_told_in_one_line(job):
    refused(job, NamelessColour, zoning.choose_grout, 0, "  ", GREY, match="grout has no name")
    refused(job, NamelessColour, zoning.draw_zone, LEFT_HALF, "", match="zone has no name")
    zone = whole_panel(job)
    refused(job, NamelessColour, zoning.choose_ink, zone, "", BLUE, match="ink has no name")
    grouting.read_cautions(job, zone)
    fault = refused(job, WaterOutOfRange, grouting.grout, zone, powder_g=50, water_g=150)
    assert fault.share == 3
    refused(job, WaterOutOfRange, grouting.grout, zone, powder_g=50, water_g=0)
    refused(job, WaterOutOfRange, grouting.grout, zone, powder_g=50, water_g=float("nan"))
    refused(job, PowderOutOfRange, grouting.grout, zone, powder_g=0, water_g=0)
    refused(job, LotUnreadable, grouting.grout, zone, powder_g=50, water_g=15, lot="x" * 41)
    refused(job, NoSuchZone, grouting.mask, 99)


def test_no_grout_in_a_room_too_cold_for_it(job):
    zone = whole_panel(job)
    opening.set_bench(job, job.state.bench.model_copy(update={"temperature_C": 4.0}))
    grouting.read_cautions(job, zone)
    refused(job, TooColdForGrout, grouting.grout, zone, powder_g=50, water_g=15, match="does not cure")


def test_in_the_cold_all_takes_twice_as_long(job, clock):
    zone = whole_panel(job)
    opening.set_bench(job, job.state.bench.model_copy(update={"temperature_C": 12.0}))
    grout_zone(job, zone)
    clock.advance(72 * HOUR_S)
    refused(job, StillWet, inking.seal)
    clock.advance(72 * HOUR_S)
    inking.seal(job)


def test_pieces_that_touch_all_round_leave_no_grout(store, clock):
    job = open_panel(store, clock, grid_svg(6, 6, joint_mm=0.0), "tight.svg")
    refused(job, ZoneWithoutGrout, zoning.draw_zone, [0, 1], "tight", match="leaves no grout")
    refused(job, ZoneWithoutGrout, zoning.choose_grout, 0, "pale grey", GREY)


def test_joints_wider_than_the_pieces_are_refused_before_anything_is_mixed(store, clock):
    job = open_panel(store, clock, grid_svg(6, 6, joint_mm=4.0), "wide.svg")
    hard_at_once(job)
    zone = whole_panel(job)
    grouting.read_cautions(job, zone)
    refused(job, JointsWiderThanPieces, grouting.grout, zone, powder_g=50, water_g=15)


@pytest.mark.parametrize(
    "wrong",
    [
        {"tint_h": 0},
        {"seal_h": float("nan")},
        {"seal_h": 12},
        {"pot_life_min": 10},
        {"area_cm2_min": -1},
        {"water_share": 3},
    ],
)
def test_a_table_that_cannot_be_is_refused_and_the_old_one_stays(job, wrong):
    set_grouting(job, tint_h=30)
    with pytest.raises(Fault, match="cannot be"):
        set_grouting(job, **wrong)
    assert how(job).tint_h == 30
    assert how(job).seal_h == 72


def test_the_products_own_times_are_heard(job, clock):
    zone = whole_panel(job)
    set_grouting(job, tint_h=2, seal_h=6)
    grout_zone(job, zone)
    clock.advance(6 * HOUR_S)
    inking.seal(job)
