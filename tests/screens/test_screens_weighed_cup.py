"""The cup weighed in the book by touches, after the glue-up."""

from bench.job.acts import dry
from bench.job.advice import advise
from bench.screens.offscreen import Stage
from tests.fakes.benches import changed, set_section, start_mix
from tests.screens.test_screens_stock import fine, type_in


def test_the_cup_is_weighed_in_the_book_after_the_glue_up(stage: Stage, desk) -> None:
    set_section(desk.job, advise(desk.job).section)
    changed(desk)
    desk.go("book")
    stage.frame(2)
    fine(stage)
    stage.tap("weigh_cup")
    type_in(stage, "5.9")
    type_in(stage, "4.2")
    assert "1.7 g stayed" in stage.find("cup_says").text
    fine(stage)
    stage.tap("cup_over")
    assert desk.job.mix(1).cup_weighed.cup == "over"
    assert "weigh_cup" not in stage.names()
    set_section(desk.job, advise(desk.job).section)
    changed(desk)
    stage.frame(2)
    stage.tap("weigh_cup")
    type_in(stage, "5.5")  # the empty cup is known by now
    stage.tap("cup_other")
    type_in(stage, "4.4")
    stage.tap("cup_scraped")
    assert desk.job.mix(2).cup_weighed.tare_g == 4.4
    desk.job.clock.advance(24 * 3600)
    number = advise(desk.job).section
    dry.lay(desk.job, number)
    desk.go("cup", section=number)
    stage.run(1)
    assert "Reckoned as your last 2 cups: " in stage.find("says").text
    fine(stage)


def test_a_cup_that_cannot_be_ends_in_a_card_and_can_be_typed_again(stage: Stage, desk) -> None:
    set_section(desk.job, advise(desk.job).section)
    changed(desk)
    desk.go("book")
    stage.frame(2)
    stage.tap("weigh_cup")
    type_in(stage, "3")
    type_in(stage, "4.2")
    assert desk.fault_what == "the cup weighs 3 g, less than the 4.2 g of an empty one"
    assert desk.job.mix(1).cup_weighed is None
    stage.tap("fault_act")
    stage.tap("weigh_cup")
    stage.tap("pad_leave")  # one tap leaves it
    assert "weigh_cup" in stage.names()


def test_no_cup_is_asked_for_while_a_mix_runs(stage: Stage, desk) -> None:
    set_section(desk.job, advise(desk.job).section)
    start_mix(desk.job, advise(desk.job).section)
    changed(desk)
    desk.go("book")
    stage.frame(2)
    assert "weigh_cup" not in stage.names()
