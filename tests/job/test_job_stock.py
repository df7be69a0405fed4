"""The workshop's bottles: what mixes take, what weighing corrects, what runs out, what is past its date."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.book import WORKSHOP, Store
from bench.book.events import BatchPrescribed, BottleEmptied, BottleOpened, BottleTaken, BottleWeighed
from bench.job import faults
from bench.job.acts import cup, dry, glueup, record, stock
from bench.job.acts.opening import open_panel, sizer
from bench.job.advice import advise, facts, shorts
from bench.job.foretelling import left_of
from bench.job.job import Job
from bench.job.learning import LEARNT_FROM, glue_ups_of
from bench.job.stock import STOCK_KINDS, apply_stock, fold_stock, months_after, stock_of
from bench.job.stock_need import lasting, lasting_words, needs_of, short_words, today_of
from tests.fakes.benches import PACE, set_section, start_mix
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

PASTE = "White paste, typical"


@pytest.fixture
def bottles(job):
    """A resin and a hardener in use: bottles 1 and 2."""
    stock.open_bottle(job, PASTE, "resin", net_g=250.0, lot="R7")
    stock.open_bottle(job, PASTE, "hardener", net_g=125.0, lot="A12")
    return job


def left_g(job, number):
    return stock_of(job.store).bottles[number].left_g


def test_a_mix_takes_what_was_poured_out_of_the_bottles_in_use(bottles):
    number = advise(bottles).section
    dry.lay(bottles, number)
    mix = cup.open_mix(bottles, number, 21.0)
    cup.acknowledge(bottles, mix)
    hardener_g = cup.pour_resin(bottles, mix, 4.0)
    assert (left_g(bottles, 1), left_g(bottles, 2)) == (250.0, 125.0)
    cup.first_contact(bottles, mix)
    assert left_g(bottles, 1) == pytest.approx(246.0)
    assert left_g(bottles, 2) == pytest.approx(125.0 - hardener_g)
    assert {p: x.lot for p, x in bottles.mix(mix).taken.items()} == {"resin": "R7", "hardener": "A12"}


def test_without_a_word_of_pouring_it_is_the_batch_that_was_prescribed(bottles):
    mix = start_mix(bottles, advise(bottles).section)
    batch = bottles.mix(mix).batch
    assert left_g(bottles, 1) == pytest.approx(250.0 - batch.resin_g)
    assert left_g(bottles, 2) == pytest.approx(125.0 - batch.hardener_g)


@pytest.mark.parametrize(("poured_g", "left"), [(None, 250.0), (4.0, 246.0)])
def test_a_cup_put_away_costs_the_resin_that_was_poured_and_nothing_else(bottles, poured_g, left):
    number = advise(bottles).section
    dry.lay(bottles, number)
    mix = cup.open_mix(bottles, number, 21.0)
    cup.acknowledge(bottles, mix)
    if poured_g is not None:
        cup.pour_resin(bottles, mix, poured_g)
    cup.put_away(bottles, mix)
    assert (left_g(bottles, 1), left_g(bottles, 2)) == (left, 125.0)


def test_a_weighed_bottle_goes_before_what_was_reckoned(bottles):
    set_section(bottles, advise(bottles).section)
    stock.weigh_bottle(bottles, 1, 200.0)
    assert left_g(bottles, 1) == 200.0
    stock.empty_bottle(bottles, 2)
    assert left_g(bottles, 2) == 0.0
    assert stock_of(bottles.store).in_use(PASTE, "hardener") == []


def test_bottles_are_the_workshops_and_seen_from_every_panel(bottles, clock):
    other = open_panel(bottles.store, clock, grid_svg(12, 8), "other.svg", bench=PACE)
    set_section(other, advise(other).section)
    taken_g = other.mix(1).batch.resin_g
    assert left_g(bottles, 1) == pytest.approx(250.0 - taken_g)
    assert [row.panel_id for row in bottles.store.panels()] == [1, 2]
    with pytest.raises(faults.NoSuchPanel):
        Job(bottles.store, clock, WORKSHOP)


def test_undo_takes_back_the_newest_act_on_the_bottles_and_leaves_panels_alone(bottles):
    before = bottles.state.act_ids[:]
    stock.weigh_bottle(bottles, 1, 100.0)
    assert isinstance(stock.undo_stock(bottles), BottleWeighed)
    assert left_g(bottles, 1) == 250.0
    stock.empty_bottle(bottles, 1)
    assert isinstance(stock.undo_stock(bottles), BottleEmptied)
    assert isinstance(stock.undo_stock(bottles), BottleOpened)
    assert set(stock_of(bottles.store).bottles) == {1}
    assert stock.open_bottle(bottles, PASTE, "hardener", net_g=10.0) == 3  # a number is used once
    assert bottles.state.act_ids == before


def test_a_bottle_that_a_mix_came_out_of_is_not_taken_back(bottles):
    start_mix(bottles, advise(bottles).section)
    with pytest.raises(faults.BottleInUse):
        stock.undo_stock(bottles)
    assert set(stock_of(bottles.store).bottles) == {1, 2}


def test_an_undone_glue_up_leaves_the_charge_and_an_undone_cup_takes_it_back(bottles):
    number = advise(bottles).section
    dry.lay(bottles, number)
    cup.open_mix(bottles, number, 21.0)
    record.undo(bottles)
    assert stock_of(bottles.store).draws == {}
    mix = start_mix(bottles, number)
    bottles.clock.advance(600)
    left = left_g(bottles, 1)
    glueup.close(bottles, mix)
    record.undo(bottles)
    assert left_g(bottles, 1) == left < 250.0


def test_the_bottle_opened_first_is_used_first_and_one_that_suffices_before_one_that_does_not(job):
    today = today_of(job)
    for net_g, days in ((1.0, 40), (60.0, 10), (80.0, 20)):
        stock.open_bottle(job, PASTE, "hardener", net_g=net_g, opened=today - timedelta(days=days))
    found = stock_of(job.store)
    assert found.bottle_for(PASTE, "hardener", 5.0, today).number == 3
    assert found.bottle_for(PASTE, "hardener", 0.5, today).number == 1
    assert found.bottle_for(PASTE, "hardener", 500.0, today).number == 3
    assert found.bottle_for(PASTE, "resin", 5.0, today) is None


def test_what_one_bottle_lacks_comes_out_of_the_next(job):
    stock.open_bottle(job, PASTE, "resin", net_g=2.0)
    stock.open_bottle(job, PASTE, "resin", net_g=1.8)
    start_mix(job, advise(job).section)
    poured_g = job.mix(1).batch.resin_g
    found = stock_of(job.store)
    assert found.left_g(PASTE, "resin") == pytest.approx(max(0.0, 3.8 - poured_g))
    assert sum(b.overdrawn_g for b in found.bottles.values()) == pytest.approx(max(0.0, poured_g - 3.8))


# -- what runs out ------------------------------------------------------------------------------------


def test_the_words_of_what_a_section_lacks(job):
    stock.open_bottle(job, PASTE, "hardener", net_g=1.0, lot="A12")
    number = advise(job).section
    need_g = needs_of(sizer(job), [job.section(number)])[PASTE, "hardener"]
    (short,) = shorts(job)[number]
    said = f"Section {number} takes {need_g:.1f} g of hardener; 1.0 g are left in lot A12."
    assert short_words(short) == said
    assert advise(job).why == said
    assert advise(job).section == number  # stock bars nothing


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
    with pytest.raises(faults.LotPast, match="lot A12, was good until 3 May 2026"):
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
    with pytest.raises(faults.OtherProduct):
        stock.take_from(bottles, mix, 4)
    with pytest.raises(faults.NoSuchBottle):
        stock.take_from(bottles, mix, 9)
    cup.acknowledge(bottles, mix)
    cup.first_contact(bottles, mix)
    with pytest.raises(faults.AlreadyStarted):
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


# -- bad input ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("net_g", [0.0, -5.0, 1e9, math.nan, math.inf])
def test_grams_that_no_bottle_holds_are_refused_and_nothing_is_written(job, net_g):
    with pytest.raises(faults.BottleGrams, match="cannot be"):
        stock.open_bottle(job, PASTE, "resin", net_g=net_g)
    assert job.store.events(WORKSHOP) == []


@pytest.mark.parametrize("left", [-1.0, 1e9, math.nan, 262.6])
def test_a_bottle_cannot_weigh_less_than_nothing_or_more_than_was_in_it(bottles, left):
    with pytest.raises(faults.BottleGrams):
        stock.weigh_bottle(bottles, 1, left)
    assert left_g(bottles, 1) == 250.0


def test_a_bottle_a_little_fuller_than_its_label_is_believed(bottles):
    stock.weigh_bottle(bottles, 1, 255.0)
    assert left_g(bottles, 1) == 255.0


@pytest.mark.parametrize("lot", ["A" * 500, "A12\x00", "A\u202e12"])
def test_a_lot_that_nobody_can_read_is_refused_in_one_line(job, lot):
    with pytest.raises(faults.LotUnreadable) as caught:
        stock.open_bottle(job, PASTE, "resin", net_g=50.0, lot=lot)
    assert len(str(caught.value)) < 200
    assert job.store.events(WORKSHOP) == []


@pytest.mark.parametrize("what", ["opened", "bought"])
def test_a_day_that_has_not_come_is_refused(job, what):
    with pytest.raises(faults.DayOutOfRange, match=what):
        stock.open_bottle(job, PASTE, "resin", net_g=50.0, **{what: today_of(job) + timedelta(days=1)})


def test_an_empty_bottle_is_neither_weighed_nor_emptied_again(bottles):
    stock.empty_bottle(bottles, 1)
    for act in (lambda: stock.weigh_bottle(bottles, 1, 5.0), lambda: stock.empty_bottle(bottles, 1)):
        with pytest.raises(faults.NoSuchBottle, match="bottle 1 is empty"):
            act()


def test_with_nothing_done_there_is_nothing_to_undo(job):
    assert stock.newest_stock_act(job) is None
    with pytest.raises(faults.NothingToUndo):
        stock.undo_stock(job)


# -- whatever happens ---------------------------------------------------------------------------------

WEIGHTS = st.floats(0.01, 400.0)
STEPS = st.one_of(
    st.tuples(st.just("open"), st.sampled_from(["resin", "hardener"]), WEIGHTS),
    st.tuples(st.just("weigh"), st.integers(1, 5), st.floats(0.0, 1.05)),
    st.tuples(st.just("empty"), st.integers(1, 5), st.none()),
    st.tuples(st.just("mix"), WEIGHTS, WEIGHTS),
    st.tuples(st.just("undo"), st.none(), st.none()),
)


def play(job, steps):
    """Do the steps that are allowed; mixes are written as the cup writes them. Return the grams poured."""
    poured_g = 0.0
    for turn, (what, a, b) in enumerate(steps):
        found = stock_of(job.store)
        try:
            if what == "open":
                stock.open_bottle(job, PASTE, a, net_g=b)
            elif what == "weigh":
                stock.weigh_bottle(job, a, b * stock.bottle_in_use(found, a).net_g)
            elif what == "empty":
                stock.empty_bottle(job, a)
            elif what == "undo":
                stock.undo_stock(job)
            else:
                poured_g += pour(job, found, 100 + turn, a, b)
        except (faults.NoSuchBottle, faults.NothingToUndo, faults.BottleInUse):
            continue
    return poured_g


def pour(job, found, mix, resin_g, hardener_g):
    from bench.book.events import ContactMade

    amounts = {"resin": resin_g, "hardener": hardener_g}
    bottles = [found.bottle_for(PASTE, part, g, today_of(job)) for part, g in amounts.items()]
    job.store.append(
        job.panel_id,
        [
            *(BottleTaken(mix=mix, part=b.part, bottle=b.number) for b in bottles if b is not None),
            BatchPrescribed(
                mix=mix,
                resin_g=resin_g,
                hardener_g=hardener_g,
                total_g=resin_g + hardener_g,
                worst_ratio_error=0.0,
                scale_ok=True,
                working_time_s=1500.0,
                in_time=0.9,
            ),
            ContactMade(mix=mix, working_time_s=1500.0),
        ],
        at_utc=job.clock.utc(),
    )
    return sum(amounts[b.part] for b in bottles if b is not None)


@pytest.fixture(scope="module")
def drawing():
    return grid_svg(4, 3)


@settings(max_examples=60, deadline=None)
@given(steps=st.lists(STEPS, max_size=14))
def test_grams_balance_and_never_fall_below_nothing(drawing, steps):
    with Store.in_memory() as store:
        job = open_panel(store, FakeClock(), drawing, "tiny.svg", bench=PACE)
        poured_g = play(job, steps)
        found = stock_of(store)
        for bottle in found.bottles.values():
            assert bottle.left_g >= 0
            assert bottle.net_g + bottle.corrected_g - bottle.taken_g == pytest.approx(bottle.left_g)
        assert sum(b.taken_g for b in found.bottles.values()) <= poured_g + 1e-6
        if not any(step[0] in ("weigh", "empty", "undo") for step in steps):
            taken = sum(b.taken_g + b.overdrawn_g for b in found.bottles.values())
            assert taken == pytest.approx(poured_g)


@settings(max_examples=40, deadline=None)
@given(steps=st.lists(STEPS, max_size=12), at=st.integers(0, 40))
def test_the_fold_is_what_was_followed_event_by_event_and_undo_restores(drawing, steps, at):
    with Store.in_memory() as store:
        job = open_panel(store, FakeClock(), drawing, "tiny.svg", bench=PACE)
        play(job, [s for s in steps if s[0] != "undo"])
        entries = store.of_kinds(STOCK_KINDS)
        followed = fold_stock(entries[:at])
        for entry in entries[at:]:
            apply_stock(followed, entry)
        before = stock_of(store)
        assert followed == before
        stock.open_bottle(job, PASTE, "resin", net_g=50.0)
        stock.undo_stock(job)
        after = stock_of(store)
        assert (after.bottles, after.draws) == (before.bottles, before.draws)
