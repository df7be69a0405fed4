"""What the bottles suffice for, what is past its date, which bottle is taken, and lots."""

from datetime import date, timedelta

import pytest

from bench.job import cup_faults, stock_faults
from bench.job.acts import cup, dry, glueup, stock
from bench.job.advice import advise, facts, shorts
from bench.job.foretelling import left_of
from bench.job.measuring import sizer
from bench.job.stock import months_after, stock_of
from bench.job.stock_need import Short, lasting, needs_of, today_of
from bench.job.stock_words import lasting_words, short_words
from bench.job.taught import LEARNT_FROM, glue_ups_of
from tests.fakes.benches import start_mix
from tests.fakes.bottles import PASTE, left_g


def test_the_words_of_what_a_section_lacks(job):
    stock.open_bottle(job, PASTE, "hardener", net_g=0.5, lot="A12")
    number = advise(job).section
    need_g = needs_of(sizer(job), [job.section(number)])[PASTE, "hardener"]
    (short,) = shorts(job)[number]
    said = f"Section {number} takes {need_g:.1f} g of hardener; 0.5 g are left in lot A12."
    assert short_words(short) == said
    assert advise(job).why == said
    assert advise(job).section == number  # stock bars nothing


@pytest.mark.parametrize(
    ("left_g", "others_g", "lot", "said"),
    [
        (4.0, 0.0, "A12", "4.0 g are left in lot A12."),
        (4.0, 0.0, "", "4.0 g are left."),
        (4.0, 1.5, "A12", "5.5 g are left in all bottles."),
        (4.0, 9.0, "A12", "4.0 g are left in lot A12, the rest in other bottles."),
        (4.0, 9.0, "", "4.0 g are left in one bottle, the rest in others."),
        (4.0, 0.0, "LOT-2026-04-A12", "4.0 g are left in lot LOT-2026-04…."),
    ],
)
def test_what_is_left_is_said_of_the_bottle_or_of_all(left_g, others_g, lot, said):
    short = Short(7, PASTE, "hardener", 6.2, left_g, lot, others_g)
    assert short_words(short) == f"Section 7 takes 6.2 g of hardener; {said}"


def test_a_section_that_the_bottles_suffice_for_goes_before_others(two_adhesives):
    job = two_adhesives
    first = advise(job).section
    short_of = job.product(job.section(first).adhesive).name
    need_g = needs_of(sizer(job), [job.section(first)])[short_of, "hardener"]
    stock.open_bottle(job, short_of, "hardener", net_g=0.5, lot="A12")
    told = advise(job)
    assert job.product(job.section(told.section).adhesive).name != short_of
    assert told.why == (
        f"Next is section {told.section}: section {first} takes {need_g:.1f} g of hardener; "
        "0.5 g are left in lot A12."
    )


def test_the_calendar_leaves_no_section_out_for_want_of_a_bottle(job):
    stock.open_bottle(job, PASTE, "hardener", net_g=0.5)
    assert all(f.adhesive_in_stock for f in facts(job))


def test_how_far_a_part_lasts_worked_by_hand(job):
    measures, left = sizer(job), left_of(job)
    order = [s.number for s in left]
    needs = [needs_of(measures, [s])[PASTE, "hardener"] for s in left]
    stock.open_bottle(job, PASTE, "hardener", net_g=sum(needs[:2]) + 0.01)
    (found,) = lasting(stock_of(job.store), measures, left, order)
    assert (found.until, found.needed_g) == (order[1], pytest.approx(sum(needs)))
    assert lasting_words(found) == f"Hardener lasts until section {order[1]}"
    stock.open_bottle(job, PASTE, "hardener", net_g=1000.0)
    (found,) = lasting(stock_of(job.store), measures, left, order)
    assert found.until is None
    assert lasting_words(found) == ""


def test_a_part_without_any_bottle_is_taken_to_be_there(job):
    assert shorts(job) == {}
    assert lasting(stock_of(job.store), sizer(job), left_of(job), []) == ()


# -- dates --------------------------------------------------------------------------------------------


def test_a_bottle_past_its_date_needs_a_knowing_word_before_gloves_go_on(job):
    yesterday = today_of(job) - timedelta(days=1)
    stock.open_bottle(job, PASTE, "hardener", net_g=90.0, lot="A12", best_before=yesterday)
    number = advise(job).section
    dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    with pytest.raises(stock_faults.LotPast, match="lot A12, was good until 3 May 2026"):
        cup.acknowledge(job, mix)
    assert not job.mix(mix).acknowledged
    stock.take_from(job, mix, 1, knowing=True)
    cup.acknowledge(job, mix)
    assert job.mix(mix).taken["hardener"].knowing


def test_a_fresh_bottle_is_taken_before_one_past_its_date(job):
    today = today_of(job)
    stock.open_bottle(job, PASTE, "resin", net_g=90.0, best_before=today - timedelta(days=1))
    stock.open_bottle(job, PASTE, "resin", net_g=90.0, best_before=today)  # good on the day itself
    assert stock_of(job.store).bottle_for(PASTE, "resin", 5.0, today).number == 2


@pytest.mark.parametrize(
    ("bought", "months", "last"),
    [
        (date(2025, 8, 31), 6, date(2026, 2, 28)),
        (date(2023, 8, 31), 6, date(2024, 2, 29)),
        (date(2025, 12, 15), 1, date(2026, 1, 15)),
        (date(2026, 5, 4), 24, date(2028, 5, 4)),
    ],
)
def test_shelf_life_ends_on_the_same_day_so_many_months_later(bought, months, last):
    assert months_after(bought, months) == last


def test_the_earlier_of_label_and_shelf_life_counts(job):
    bought = date(2026, 1, 10)
    how = {"net_g": 9.0, "bought": bought, "shelf_life_months": 3}
    stock.open_bottle(job, PASTE, "resin", best_before=date(2026, 12, 31), **how)
    stock.open_bottle(job, PASTE, "resin", best_before=date(2026, 2, 1), **how)
    days = [b.last_day for b in stock_of(job.store).bottles.values()]
    assert days == [date(2026, 4, 10), date(2026, 2, 1)]


# -- switching, and lots ------------------------------------------------------------------------------


def test_another_bottle_can_be_taken_until_resin_meets_hardener(bottles):
    stock.open_bottle(bottles, PASTE, "hardener", net_g=50.0, lot="B03")
    stock.open_bottle(bottles, "Clear, typical", "hardener", net_g=50.0)
    number = advise(bottles).section
    dry.lay(bottles, number)
    mix = cup.open_mix(bottles, number, 21.0)
    stock.take_from(bottles, mix, 3)
    with pytest.raises(stock_faults.OtherProduct):
        stock.take_from(bottles, mix, 4)
    with pytest.raises(stock_faults.NoSuchBottle):
        stock.take_from(bottles, mix, 9)
    cup.acknowledge(bottles, mix)
    cup.first_contact(bottles, mix)
    with pytest.raises(cup_faults.AlreadyStarted):
        stock.take_from(bottles, mix, 2)
    assert left_g(bottles, 2) == 125.0
    assert left_g(bottles, 3) == pytest.approx(50.0 - bottles.mix(mix).batch.hardener_g)


def test_life_is_learned_for_the_lot_in_use(bottles):
    """Two stringy mixes of an old lot count less once a fresh lot is in use."""
    for _ in range(2):
        mix = start_mix(bottles, advise(bottles).section)
        bottles.clock.advance(14 * 60)
        glueup.stringy(bottles, mix)
        glueup.close(bottles, mix)
        bottles.clock.advance(24 * 3600)
    lots = [g.lot for _, g in glue_ups_of(bottles.store.of_kinds(LEARNT_FROM))]
    assert lots == ["hardener A12, resin R7"] * 2
    old = sizer(bottles).known.life_of("white-paste").quantile_s(0.5, 1500.0)
    stock.empty_bottle(bottles, 2)
    stock.open_bottle(bottles, PASTE, "hardener", net_g=125.0, lot="B03")
    fresh = sizer(bottles).known.life_of("white-paste").quantile_s(0.5, 1500.0)
    assert old < fresh < 1500.0
