"""Whatever is done with bottles and mixes: grams balance, and undo restores."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.book import Store
from bench.book.events import BatchPrescribed, BottleTaken, ContactMade
from bench.job import faults, stock_faults
from bench.job.acts import stock
from bench.job.acts.opening import open_panel
from bench.job.stock import STOCK_KINDS, apply_stock, fold_stock, stock_of
from bench.job.stock_need import today_of
from tests.fakes.benches import PACE
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

PASTE = "White paste, typical"

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
        except (stock_faults.NoSuchBottle, faults.NothingToUndo, stock_faults.BottleInUse):
            continue
    return poured_g


def pour(job, found, mix, resin_g, hardener_g):
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
