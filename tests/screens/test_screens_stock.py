"""Stock by touches: bottles told of, weighed, emptied, bought and opened."""

from datetime import date

import pytest

from bench.job.acts import stock
from bench.job.stock import stock_of
from bench.screens.offscreen import Stage
from tests.fakes import tapping
from tests.fakes.benches import changed
from tests.fakes.gloves import complaints

SIZES = [(1280, 800), (800, 1280), (2560, 1600)]
PASTE = "White paste, typical"


def type_in(stage: Stage, number: str) -> None:
    tapping.type_in(stage, number)
    stage.run(1)


def fine(stage: Stage) -> None:
    """Look at what is shown in every size."""
    for size in SIZES:
        stage.resize(*size)
        stage.run(1)
        assert complaints(stage) == {}, size
    stage.resize(1280, 800)
    stage.run(1)


def bottles(desk) -> list:
    return list(stock_of(desk.job.store).bottles.values())


@pytest.fixture
def at_stock(stage: Stage, desk):
    desk.go("setup")
    stage.frame(2)
    stage.tap("to_stock")
    return desk


@pytest.mark.parametrize("size", SIZES[:2])
def test_a_bottle_is_told_of_by_touches_alone(stage: Stage, at_stock, size) -> None:
    stage.resize(*size)
    stage.run(1)
    assert stage.find("lasts").text.startswith("No bottle is entered yet.")
    stage.tap("add_bottle")
    assert complaints(stage) == {}
    stage.tap("answer_1")
    assert complaints(stage) == {}
    stage.tap("answer_0")  # it is open
    assert complaints(stage) == {}
    type_in(stage, "125.5")
    for sign in "A12-7X":
        stage.tap(f"lot_{sign}")
    stage.tap("lot_back")
    assert stage.find("lot_value").text == "A12-7"
    assert complaints(stage) == {}
    stage.tap("lot_use")
    assert complaints(stage) == {}
    stage.tap("answer_0")
    type_in(stage, "2")
    type_in(stage, "2028")
    (bottle,) = bottles(at_stock)
    assert (bottle.product, bottle.part, bottle.lot, bottle.net_g) == (PASTE, "hardener", "A12-7", 125.5)
    assert bottle.best_before == date(2028, 2, 29)
    assert stage.find("bottle_1").says == "125.5 of 125.5 g left, good until 29 Feb 2028"
    assert complaints(stage) == {}


def test_nothing_printed_and_no_lot_is_fine_too(stage: Stage, at_stock) -> None:
    for name in ("add_bottle", "answer_0", "answer_0"):
        stage.tap(name)
    type_in(stage, "250")
    stage.tap("lot_use")
    stage.tap("answer_1")
    months = at_stock.job.product("white-paste").shelf_life_months
    if months is not None:
        stage.tap("answer_1")
    (bottle,) = bottles(at_stock)
    assert (bottle.part, bottle.lot, bottle.best_before) == ("resin", "", None)
    assert bottle.bought == (None if months is None else date(2026, 2, 4))


def test_whatever_is_left_unanswered_leaves_nothing_behind(stage: Stage, at_stock) -> None:
    stage.tap("add_bottle")
    stage.tap("answers_leave")
    for name in ("add_bottle", "answer_0", "answers_leave", "add_bottle", "answer_0", "answer_1"):
        stage.tap(name)
    stage.tap("pad_leave")
    for name in ("add_bottle", "answer_0", "answer_0"):
        stage.tap(name)
    type_in(stage, "250")
    stage.tap("lot_leave")
    assert bottles(at_stock) == []
    assert "add_bottle" in stage.names()


def test_a_bottle_is_weighed_and_emptied_and_both_are_taken_back(stage: Stage, at_stock) -> None:
    stock.open_bottle(at_stock.job, PASTE, "resin", net_g=250.0, lot="R7")
    changed(at_stock)
    stage.frame(2)
    stage.tap("bottle_1")
    fine(stage)
    stage.tap("weigh_bottle")
    tapping.on_pad(stage, "999")
    assert stage.find("pad").why_not == "At most 262.5"  # more than ever was in it
    for _ in range(3):
        stage.tap("pad_back")
    type_in(stage, "80")
    assert bottles(at_stock)[0].left_g == 80.0
    assert stage.find("bottle_1").share == pytest.approx(0.32)
    stage.tap("bottle_1")
    stage.tap("empty_bottle")
    assert bottles(at_stock)[0].emptied
    assert "bottle_1" not in stage.names()
    stage.tap("undo")
    stage.run(1)
    stage.tap("undo")
    stage.run(1)
    assert (bottles(at_stock)[0].left_g, bottles(at_stock)[0].emptied) == (250.0, False)


def test_a_comma_types_the_same_grams(stage: Stage, at_stock) -> None:
    stock.open_bottle(at_stock.job, PASTE, "resin", net_g=250.0)
    changed(at_stock)
    stage.frame(2)
    stage.tap("bottle_1")
    stage.tap("weigh_bottle")
    stage.find("pad").mark = ","
    type_in(stage, "80,5")
    assert bottles(at_stock)[0].left_g == 80.5


def test_many_bottles_are_turned_by_pages(stage: Stage, at_stock) -> None:
    for k in range(9):
        stock.open_bottle(at_stock.job, PASTE, "resin", net_g=100.0 + k, lot=f"LOT-{k}")
    changed(at_stock)
    stage.frame(2)
    fine(stage)
    seen = set()
    while True:
        seen |= {name for name in stage.names() if name.startswith("bottle_")}
        if stage.find("page_more").disabled:
            break
        stage.tap("page_more")
    assert len(seen) == 9


def test_the_panel_says_how_far_the_hardener_lasts(stage: Stage, desk) -> None:
    job = desk.job
    stock.open_bottle(job, PASTE, "hardener", net_g=2.5, lot="A12")
    changed(desk)
    stage.run(2)
    assert "Hardener lasts until section" in stage.find("outlook").text
    fine(stage)
    stock.weigh_bottle(job, 1, 0.5)
    changed(desk)
    stage.run(2)
    assert "0.5\u00a0g are left in lot A12." in stage.find("why").text
    fine(stage)
    desk.go("stock")
    stage.frame(2)
    assert stage.find("lasts").text == "Hardener lasts for no section."


def with_shelf_life(desk, months: int = 12) -> None:
    product = desk.job.product("white-paste")
    desk.job._products["white-paste"] = product.model_copy(update={"shelf_life_months": months})


@pytest.mark.parametrize("size", SIZES[:2])
def test_an_unopened_bottle_is_told_of_with_when_it_was_made_and_opened_by_one_tap(
    stage: Stage, at_stock, size
) -> None:
    stage.resize(*size)
    stage.run(1)
    with_shelf_life(at_stock)
    for name in ("add_bottle", "answer_1", "answer_1"):  # hardener, unopened
        stage.tap(name)
    type_in(stage, "90")
    stage.tap("lot_use")
    assert complaints(stage) == {}
    stage.tap("answer_1")  # when it was made
    type_in(stage, "1")
    type_in(stage, "2026")
    (bottle,) = bottles(at_stock)
    assert (bottle.is_sealed, bottle.made, bottle.last_day) == (True, date(2026, 1, 1), date(2027, 1, 1))
    assert stage.find("bottle_1").says == "90 g, unopened, good until 1 Jan 2027"
    stage.tap("bottle_1")
    assert complaints(stage) == {}
    stage.tap("unseal_bottle")
    stage.run(1)
    assert not bottles(at_stock)[0].is_sealed
    assert "weigh_bottle" in stage.names()
