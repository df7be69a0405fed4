"""Zones planned: grout by zone and colour, batches, inks; and what the sun asks for."""

import numpy as np
import pytest

from bench.adhesive.product import ServiceTable
from bench.adhesive.product_file import find_product
from bench.drawing.svg import read_drawing
from bench.finish.batches import GroutPace, batches_of
from bench.finish.drying import DryingTimes, drying_times
from bench.finish.faults import AmountOutOfRange, NamelessColour, TooColdForGrout, ZoneWithoutGrout
from bench.finish.grout import grout_for
from bench.finish.sun import bed_in_sun, fading_of, fugitive, is_red, is_vivid
from bench.finish.zone_plan import Mix, Tint, plan_inks, plan_zones
from tests.fakes.drawings import grid_svg

RED, BLUE, GREY = Tint("red", (160, 48, 42)), Tint("blue", (58, 88, 138)), Tint("pale grey", (205, 203, 198))


@pytest.fixture
def panel():
    return read_drawing(grid_svg(12, 8), "grid.svg")


@pytest.fixture
def thirds():
    """Three zones side by side, of four columns each."""
    return (np.arange(96) % 12 // 4).astype(np.int32)


def test_zones_of_three_like_parts_share_everything_alike(panel, thirds):
    """84 × 56 mm, joints of 10 %: by hand 4704 − 96 · 38.44 = 1013.76 mm², a third to each."""
    plan = plan_zones(panel, thirds, ("a", "b", "c"), (RED, GREY, BLUE), Mix(2.0))
    for zone in plan.zones:
        assert zone.joint_mm2 == pytest.approx(1013.76 / 3, rel=2e-3)
        assert zone.grout.powder_g == pytest.approx(1013.76 / 3 * 2 / 1000 * 1.6 * 1.1, rel=2e-3)
        assert zone.sand == "unsanded"
    assert [round(zone.tape_mm, 1) for zone in plan.zones] == [49.6, 99.2, 49.6]
    whole = grout_for(panel.joint_area_mm2, 2.0)
    assert sum(g.grout.powder_g for g in plan.grouts) == pytest.approx(whole.powder_g)
    assert sum(g.grout.water_g for g in plan.grouts) == pytest.approx(whole.water_g)


def test_zones_of_one_grout_are_one_grout_without_tape_between(panel, thirds):
    plan = plan_zones(panel, thirds, ("a", "b", "c"), (GREY, GREY, BLUE), Mix(2.0))
    assert [g.zones for g in plan.grouts] == [(0, 1), (2,)]
    assert plan.zones[0].tape_mm == 0
    assert len(plan.days) == 2
    assert plan.tape_mm == pytest.approx(49.6, abs=0.1)


def test_grouts_that_do_not_meet_share_a_day(panel, thirds):
    plan = plan_zones(panel, thirds, ("a", "b", "c"), (RED, GREY, BLUE), Mix(2.0))
    assert sorted(map(sorted, (day.colours for day in plan.days))) == [[0, 2], [1]]


def test_one_pale_neutral_with_several_inks_takes_one_day_of_grout_and_no_tape(panel, thirds):
    """Common practice, no source: the grout is one, and the inks come over it once it is dry."""
    plan = plan_zones(panel, thirds, ("a", "b", "c"), (GREY, GREY, GREY), Mix(2.0))
    assert (len(plan.grouts), len(plan.days), plan.tape_mm) == (1, 1, 0)
    inks = plan_inks(panel, thirds, ("a", "b", "c"), (RED, None, BLUE))
    assert [(i.tint.name, i.zones) for i in inks.inks] == [("red", (0,)), ("blue", (2,))]
    assert inks.inks[0].joint_mm2 == pytest.approx(1013.76 / 3, rel=2e-3)
    assert inks.days == 2  # grout, then both inks: they do not meet
    meets = plan_inks(panel, thirds, ("a", "b", "c"), (RED, BLUE, None))
    assert meets.days == 3
    assert plan_inks(panel, thirds, ("a", "b", "c"), (None, None, None)).days == 1


def test_a_batch_is_what_is_worked_before_it_stiffens():
    """1 m² at 25 cm² a minute is 400 min; 60 min of pot life less 15 to mix it: 9 batches (8.9)."""
    grout = grout_for(200_000, 2.0)
    batch = batches_of(grout, 1e6, GroutPace(25, 60))
    assert batch.count == 9
    assert batch.count * batch.powder_g == pytest.approx(grout.powder_g)
    assert batch.count * batch.water_g == pytest.approx(grout.water_g)
    assert batch.minutes <= 45
    assert batches_of(grout, 45 * 25 * 100, GroutPace(25, 60)).count == 1
    assert batches_of(grout_for(0, 2.0), 1e6, GroutPace()).count == 0


def test_a_zone_without_joints_and_a_colour_without_a_name_are_refused():
    tight = read_drawing(grid_svg(4, 4, joint_mm=0.0), "tight.svg")
    with pytest.raises(ZoneWithoutGrout, match="leaves no grout"):
        plan_zones(tight, np.zeros(16, np.int32), ("all",), (GREY,), Mix(2.0))
    with pytest.raises(NamelessColour):
        Tint("  ", (1, 2, 3))


@pytest.mark.parametrize("wrong", [{"area_cm2_min": 0}, {"pot_life_min": 15}, {"pot_life_min": float("nan")}])
def test_a_pace_that_cannot_be_is_refused(wrong):
    with pytest.raises(AmountOutOfRange):
        GroutPace(**wrong)


# -- drying ----------------------------------------------------------------------------------------------


def test_drying_goes_forward_and_is_longer_in_the_cold():
    usual = DryingTimes()
    assert usual.tint_h < usual.seal_h
    assert drying_times(usual, 21.0) == usual
    cold = drying_times(usual, 10.0)
    assert (cold.tint_h, cold.outdoors_h) == (2 * usual.tint_h, 2 * usual.outdoors_h)
    with pytest.raises(TooColdForGrout):
        drying_times(usual, 4.9)


@pytest.mark.parametrize(
    "wrong", [{"tint_h": 0}, {"ink_h": -1}, {"seal_h": 20}, {"outdoors_h": float("inf")}]
)
def test_times_that_cannot_be_are_refused(wrong):
    with pytest.raises(AmountOutOfRange):
        DryingTimes(**wrong)


# -- the sun ---------------------------------------------------------------------------------------------


def test_reds_and_vivid_hues_in_direct_sun_want_through_coloured_grout():
    """Common practice, no source."""
    for colour in ((178, 38, 42), (220, 120, 130), (232, 180, 20), (0, 130, 60)):
        assert fading_of(colour, "direct").through
        assert not fading_of(colour, "indirect").through
        assert not fading_of(colour, "indoors").through
    for colour in ((205, 203, 198), (140, 139, 136), (110, 104, 92)):
        assert not fading_of(colour, "direct").through


def test_colour_names_of_css_are_told_red_and_vivid():
    """CSS Color 4 keywords: crimson, tomato, pink; gold, lime, blue are vivid; grey and tan neither red."""
    reds = np.array([(220, 20, 60), (255, 99, 71), (255, 192, 203)], np.uint8)
    assert is_red(reds).all()
    others = np.array([(255, 215, 0), (0, 255, 0), (0, 0, 255)], np.uint8)
    assert not is_red(others).any()
    assert is_vivid(others).all()
    assert not is_red(np.array([(128, 128, 128)], np.uint8)).any()


def test_reds_fade_first_and_each_step_of_light_takes_longer():
    colours = ((178, 38, 42), (232, 180, 20), (140, 139, 136))
    red, yellow, grey = (fading_of(colour, "direct").years[0] for colour in colours)
    assert red < yellow < grey
    years = [fading_of((178, 38, 42), sun).years[0] for sun in ("direct", "indirect", "indoors")]
    assert years == sorted(years)
    assert "roughly" in fading_of((178, 38, 42), "direct").words


def test_fugitive_pieces_are_those_of_red_and_vivid_glass():
    panel = read_drawing(grid_svg(4, 2, colour=lambda c, r: "#b3262a" if c < 1 else "#9a9890"), "g.svg")
    assert np.flatnonzero(fugitive(panel, "direct")).tolist() == [0, 4]
    assert not fugitive(panel, "indoors").any()


def test_the_bed_under_clear_or_dark_glass_is_spoken_of_by_the_service_temperature():
    panel = read_drawing(grid_svg(4, 4, colour=lambda c, r: "#181818", clear=lambda c, r: r == 0), "g.svg")
    product = find_product("clear-slow")
    soft = product.model_copy(update={"service": ServiceTable(range_C=(-20.0, 55.0))})
    firm = product.model_copy(update={"service": ServiceTable(range_C=(-20.0, 120.0))})
    assert "may soften" in " ".join(bed_in_sun(panel, soft, "direct"))
    assert "soften" not in " ".join(bed_in_sun(panel, firm, "direct"))
    assert "no service temperature" in " ".join(bed_in_sun(panel, product, "direct"))
    assert "yellow" in " ".join(bed_in_sun(panel, firm, "indirect"))
    assert bed_in_sun(panel, soft, "indoors") == ()
    pale = read_drawing(grid_svg(4, 4, colour=lambda c, r: "#e0e0e0"), "g.svg")
    assert bed_in_sun(pale, soft, "direct") == ()
