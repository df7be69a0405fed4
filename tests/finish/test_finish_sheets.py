"""Sheets to buy against brute force and CP-SAT, stock on hand, and what sheets that were used teach."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from bench.finish.buying import wanted
from bench.finish.cut_waste import DEFAULT_CUT_WASTE, learned_cut_waste, sheet_area_mm2
from bench.finish.faults import AmountOutOfRange, BadCut, BadSheet, TooManySizes
from bench.finish.glass import glass_list
from bench.finish.sheets import Purchase, Sheet, sheet_of
from tests.fakes.glasses import some_glass, squares

SIDE = st.integers(20, 140)
SIZES = st.lists(st.builds(lambda a, b: Sheet(max(a, b), min(a, b)), SIDE, SIDE), min_size=1, max_size=3)


def cost(bought):
    """Area first, then how many."""
    return sum(s.area_mm2 * n for s, n in bought.items()), sum(bought.values())


def cheapest(sizes, need_mm2):
    """Every combination there is."""
    ranges = [range(math.ceil(need_mm2 / s.area_mm2) + 1) for s in sizes]
    totals = ((dict(zip(sizes, counts, strict=True))) for counts in itertools.product(*ranges))
    return min(cost(c) for c in totals if cost(c)[0] >= need_mm2)


@given(SIZES, st.integers(0, 40_000))
def test_a_purchase_is_the_cheapest_of_all_combinations(sizes, need_mm2):
    sizes = sorted(set(sizes))
    assert cost(Purchase(sizes, need_mm2).buy(need_mm2)) == cheapest(sizes, need_mm2)


@pytest.mark.parametrize("need_mm2", [1.0, 90_000.0, 90_000.5, 381_000.0, 1_234_567.0])
def test_a_purchase_of_common_sizes_is_that_of_an_exact_solver(need_mm2):
    """OR-tools' CP-SAT: least area, then fewest sheets."""
    sizes = [Sheet(300, 300), Sheet(305, 200), Sheet(150, 150), Sheet(400, 250)]
    model = cp_model.CpModel()
    counts = [model.new_int_var(0, 60, str(s)) for s in sizes]
    area = sum(c * s.area_mm2 for c, s in zip(counts, sizes, strict=True))
    model.add(area >= math.ceil(need_mm2))
    model.minimize(area * 1000 + sum(counts))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    best = {s: solver.value(c) for c, s in zip(counts, sizes, strict=True)}
    assert cost(Purchase(sizes, 2e6).buy(need_mm2)) == cost(best)


def test_no_need_buys_nothing_and_a_need_without_bound_is_covered():
    purchase = Purchase([Sheet(305, 305), Sheet(297, 210), Sheet(201, 199)], 4e8)
    assert purchase.buy(0) == {}
    assert 4e8 <= cost(purchase.buy(4e8))[0] < 4e8 + 305 * 305


def test_the_sheet_cut_up_is_more_than_the_glass_laid():
    """10 000 mm² laid, 35 % of the sheet lost: 10 000 / 0.65."""
    assert sheet_area_mm2(10_000, 0.35) == pytest.approx(15_384.6, abs=0.1)
    assert DEFAULT_CUT_WASTE == 0.35
    with pytest.raises(AmountOutOfRange, match=r"from 0 to 0\.95"):
        sheet_area_mm2(10_000, 1.0)


@given(some_glass(), st.floats(0, 6), st.lists(st.floats(0, 30_000), min_size=30, max_size=30), st.data())
def test_more_on_hand_never_buys_more(panel, like_de, held, data):
    listed = glass_list(panel, like_de=like_de)
    sizes = [Sheet(150, 100), Sheet(60, 50)]
    held = held[: len(listed.glasses)]
    more = [h + data.draw(st.floats(0, 5_000)) for h in held]
    few, many = (wanted(listed, sizes, on_hand_mm2=h) for h in (held, more))
    for less_held, more_held in zip(few, many, strict=True):
        bought_mm2 = _bought_mm2(more_held)
        assert bought_mm2 <= _bought_mm2(less_held)
        assert bought_mm2 + more_held.on_hand_mm2 >= more_held.need_mm2 - 1e-6


def _bought_mm2(row):
    return sum(sheet.area_mm2 * count for sheet, count in row.buy)


@given(some_glass(), st.floats(0, 6))
def test_the_sheet_of_all_glasses_is_that_of_the_panel(panel, like_de):
    need_mm2 = sum(w.need_mm2 for w in wanted(glass_list(panel, like_de=like_de)))
    assert need_mm2 == pytest.approx(panel.glass_area_mm2 / 0.65)


def test_a_sheet_too_small_for_the_longest_piece_is_not_bought():
    listed = glass_list(squares([(42, 92, 170), (232, 201, 58)], side_mm=[80, 20]))
    large, small = wanted(listed, [Sheet(70, 70)])
    assert (large.fits, large.buy) == (False, ())
    assert small.buy == ((Sheet(70, 70), 1),)
    assert wanted(listed, [Sheet(70, 70), Sheet(200, 90)])[0].buy == ((Sheet(200, 90), 1),)


@pytest.mark.parametrize("text", ["300x200", "200X300", "300 × 200", " 300x200 "])
def test_a_size_is_read_either_way_round(text):
    assert sheet_of(text) == Sheet(300, 200)


@pytest.mark.parametrize(
    "text", ["", "300", "300x", "0x300", "-300x300", "300x300x3", "nanxnan", "9x9", "1e3x300"]
)
def test_what_is_no_size_is_refused(text):
    with pytest.raises(BadSheet, match="no size of a sheet"):
        sheet_of(text)


def test_a_size_and_how_many_there_may_be_have_bounds():
    with pytest.raises(BadSheet):
        Sheet(200, 300)
    with pytest.raises(TooManySizes, match="at most 8"):
        Purchase([Sheet(100 + k, 100) for k in range(9)], 1.0)
    with pytest.raises(BadSheet):
        Purchase([], 1.0)


def test_waste_is_learned_from_the_sheets_used_and_shrunk_to_what_was_thought():
    """P = 0.27 m²: as much sheet again at 15 % waste brings 35 % to their mean, 25 %."""
    assert learned_cut_waste([]) == 0.35
    assert learned_cut_waste([(270_000, 229_500)]) == pytest.approx(0.25)
    assert learned_cut_waste([(2_700_000, 2_295_000)]) == pytest.approx((0.35 + 10 * 0.15) / 11)
    assert learned_cut_waste([(90_000, 0)], before=0.95) <= 0.95


@given(st.lists(st.tuples(st.floats(1, 1e7), st.floats(0, 1)), max_size=12), st.floats(0, 0.95))
def test_what_is_learned_lies_between_what_was_thought_and_what_was_seen(cuts, before):
    pairs = [(used, used * share) for used, share in cuts]
    learned = learned_cut_waste(pairs, before=before)
    seen = 1 - sum(laid for _, laid in pairs) / sum(used for used, _ in pairs) if pairs else before
    assert min(before, seen, 0.95) - 1e-9 <= learned <= max(before, seen) + 1e-9


@pytest.mark.parametrize(
    "pair", [(0, 0), (-1, 0), (100, 101), (100, -1), (math.inf, 1), (math.nan, 1), (9, math.nan)]
)
def test_a_cut_that_cannot_be_is_refused(pair):
    with pytest.raises(BadCut, match="cannot be"):
        learned_cut_waste([pair])
