"""Bottles at the cup by touches: a lot past its date, too little, none open."""

from datetime import date

from bench.job.acts import cup, dry, stock
from bench.job.advice import advise
from bench.screens.offscreen import Stage
from tests.fakes.benches import changed
from tests.screens.test_screens_stock import PASTE, bottles, fine


def to_the_cup(stage: Stage, desk) -> int:
    number = advise(desk.job).section
    dry.lay(desk.job, number)
    changed(desk)
    desk.go("cup", section=number)
    stage.frame(2)
    stage.tap("use_room")
    stage.run(1)
    return number


def test_a_lot_past_its_date_is_named_before_the_cautions_and_needs_a_knowing_tap(stage: Stage, desk) -> None:
    stock.open_bottle(desk.job, PASTE, "hardener", net_g=90.0, lot="A12", best_before=date(2026, 4, 30))
    to_the_cup(stage, desk)
    assert stage.find("stock_says").text.startswith("The hardener, lot A12, was good until 30 Apr 2026.")
    assert "cautions" not in stage.names()
    fine(stage)
    stage.tap("go_on")
    stage.run(1)
    assert "cautions" in stage.names()
    assert desk.job.mix(1).taken["hardener"].knowing
    cup.acknowledge(desk.job, 1)


def test_a_fresh_bottle_is_offered_and_taken_by_a_tap(stage: Stage, desk) -> None:
    stock.open_bottle(desk.job, PASTE, "hardener", net_g=0.4, lot="A12")
    to_the_cup(stage, desk)
    assert "0.4 g are left in lot A12." in stage.find("stock_says").text
    stage.tap("to_stock")
    stock.open_bottle(desk.job, PASTE, "hardener", net_g=90.0, lot="B03")
    changed(desk)
    desk.go("cup")
    stage.run(1)
    fine(stage)
    stage.tap("take_2")
    stage.run(1)
    assert desk.job.mix(1).taken["hardener"].lot == "B03"
    assert "cautions" in stage.names()


def test_any_bottle_of_the_adhesive_can_be_mixed_from(stage: Stage, desk) -> None:
    for lot in ("A12", "B03"):
        stock.open_bottle(desk.job, PASTE, "hardener", net_g=90.0, lot=lot)
    to_the_cup(stage, desk)
    desk.go("stock")
    stage.frame(2)
    stage.tap("bottle_1")
    assert "take_bottle" not in stage.names()  # it comes out of this one already
    stage.tap("bottle_close")
    stage.tap("bottle_2")
    fine(stage)
    stage.tap("take_bottle")
    assert desk.screen == "cup"
    assert desk.job.mix(1).taken["hardener"].lot == "B03"


def test_too_little_is_said_once_and_bars_nothing(stage: Stage, desk) -> None:
    stock.open_bottle(desk.job, PASTE, "resin", net_g=0.4)
    to_the_cup(stage, desk)
    stage.tap("go_on")
    stage.run(1)
    assert "cautions" in stage.names()
    desk.go("panel")
    desk.go("cup")
    stage.run(1)
    assert "cautions" in stage.names()


def test_a_cup_can_be_put_away_for_want_of_a_bottle(stage: Stage, desk) -> None:
    stock.open_bottle(desk.job, PASTE, "resin", net_g=0.4)
    to_the_cup(stage, desk)
    stage.tap("put_away")
    assert desk.job.mix(1).put_away


def test_at_the_cup_an_unopened_bottle_is_opened_by_one_tap(stage: Stage, desk) -> None:
    stock.buy_bottle(desk.job, PASTE, "hardener", net_g=90.0, lot="B03")
    to_the_cup(stage, desk)
    assert "None is open" in stage.texts()
    assert stage.find("stock_says").text.endswith("and none is open: open one.")
    fine(stage)
    stage.tap("take_1")
    stage.run(1)
    assert "cautions" in stage.names()
    assert not bottles(desk)[0].is_sealed
    assert desk.job.mix(1).taken["hardener"].lot == "B03"
