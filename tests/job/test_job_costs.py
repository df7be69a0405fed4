"""Materials and hours out of the book: what was poured and timed, and what only the maker knows."""

import pytest

from bench.finish.cut_waste import DEFAULT_CUT_WASTE
from bench.finish.money import BadHours, BadPrice, NoSuchWork
from bench.finish.money_words import money_lines
from bench.job import costs
from bench.job.acts import glueup
from bench.job.acts.opening import open_panel
from tests.fakes.benches import set_section, start_mix
from tests.fakes.drawings import grid_svg

RESIN = "White paste, typical, resin"


def amounts(job):
    return {one.material: one for one in costs.amounts_of(job)}


def test_adhesive_moves_from_needed_to_used_as_it_is_mixed(job):
    before = amounts(job)[RESIN]
    assert before.used == 0
    mix = set_section(job, 1)
    after = amounts(job)[RESIN]
    assert after.used == pytest.approx(job.mix(mix).batch.resin_g)
    assert after.needed < before.needed
    assert after.needed + after.used == pytest.approx(before.needed, rel=0.15)


def test_glass_is_what_is_cut_up_for_it_and_adds_up_to_the_panel(begun):
    glass = amounts(begun)["glass"]
    whole_m2 = begun.panel.glass_area_mm2 / (1 - DEFAULT_CUT_WASTE) / 1e6
    assert glass.used + glass.needed == pytest.approx(whole_m2)
    assert glass.used > 0


def test_hours_are_timed_by_step_and_all_of_them_make_up_the_glue_up(job):
    mix = start_mix(job, 1)
    for step, wait_s in (("spread", 70.0), ("set", 40.0), ("clean", 400.0)):
        job.clock.advance(wait_s)
        glueup.begin_step(job, mix, step)
    job.clock.advance(90.0)
    glueup.close(job, mix)
    timed_s = {kind: 3600 * h for kind, h in costs.timed_h(job).items()}
    assert timed_s["mixing"] == pytest.approx(110.0)
    assert timed_s["setting"] == pytest.approx(400.0)
    assert timed_s["cleaning"] == pytest.approx(90.0)


def test_where_no_steps_were_told_the_kinds_still_make_up_the_whole(job):
    set_section(job, 1, minutes=15.0)
    assert sum(costs.timed_h(job).values()) == pytest.approx(0.25)


def test_a_mix_that_was_forgotten_overnight_is_no_work(job):
    set_section(job, 1, minutes=14 * 60.0)
    assert sum(costs.timed_h(job).values()) == 0


def test_hours_belong_to_the_panel_and_prices_to_the_workshop(store, clock, job):
    other = open_panel(store, clock, grid_svg(4, 4), "small.svg")
    costs.set_hours(job, "laying", 12.0)
    costs.set_sold(job, 500.0)
    costs.set_price(job, "glass", 90.0)
    assert {h.kind: h.hours for h in costs.money_of(job).hours} == {"laying": 12.0}
    assert costs.money_of(other).hours == ()
    assert costs.money_of(other).sold is None
    assert {a.material: a.price for a in costs.money_of(other).amounts}["glass"] == 90.0


def test_what_is_given_goes_before_what_was_kept_and_is_not_kept(job):
    costs.set_hours(job, "laying", 12.0)
    given = costs.money_of(job, told_h={"laying": 3.0}, prices={"board": 10.0}, sold=100.0)
    assert (given.total_h, given.sold) == (3.0, 100.0)
    assert (costs.money_of(job).total_h, costs.money_of(job).sold) == (12.0, None)
    assert costs.kept_prices(job) == {}


@pytest.mark.parametrize(
    ("act", "wrong", "fault"),
    [
        (costs.set_hours, ("laying", -1.0), BadHours),
        (costs.set_hours, ("sleeping", 1.0), NoSuchWork),
        (costs.set_price, ("glass", -1.0), BadPrice),
        (costs.set_sold, (float("nan"),), BadPrice),
    ],
)
def test_what_cannot_be_is_refused_and_changes_nothing(job, act, wrong, fault):
    before = costs.money_of(job)
    with pytest.raises(fault):
        act(job, *wrong)
    assert costs.money_of(job) == before


def test_in_words_what_has_no_price_is_named(job):
    costs.set_price(job, "glass", 100.0)
    told = "\n".join(money_lines(costs.money_of(job)))
    assert "No price, and not counted:" in told
    assert RESIN in told
    assert "earned" not in told
