"""The cup, the bottles and the label in another unit and another language; the book keeps °C and its keys."""

from pathlib import Path

import pytest

from bench.adhesive.product_file import find_product
from bench.job.acts import stock
from bench.job.stock import stock_of
from bench.screens.offscreen import Stage
from bench.speech import Tongue, speak
from tests.fakes.benches import at_the_bench, changed
from tests.fakes.tapping import tap_all, to_the_cup, type_in
from tests.screens.test_screens_label import home, keep, kept, name_it, number, tap, to_the_label  # noqa: F401

FAHRENHEIT, GERMAN = Tongue(fahrenheit=True), Tongue("de")


def test_the_room_is_stepped_and_typed_in_the_unit_spoken_and_kept_in_celsius(stage: Stage) -> None:
    """1.8 °F to the °C, water freezes at 32 °F."""
    speak(FAHRENHEIT)
    with at_the_bench(stage) as desk:
        to_the_cup(stage, desk)
        assert stage.find("degrees").text == "69.8 °F"
        stage.tap("warmer")
        assert stage.find("degrees").text == "70 °F"
        tap_all(stage, *["cooler"] * 3)
        assert stage.find("degrees").text == "67 °F"
        stage.tap("type_room")
        type_in(stage, "68")
        assert stage.find("degrees").text == "68 °F"
        stage.tap("bottles")
        type_in(stage, "77")
        stage.tap("use_room")
        mix = desk.job.state.mix_at_cup
        assert mix.temperature_C == pytest.approx(20.0, abs=1e-3)
        assert mix.adhesive_C == pytest.approx(25.0, abs=1e-3)


def test_a_room_too_warm_is_told_in_the_unit_spoken(stage: Stage) -> None:
    """The shipped paste may be used from 10 to 35 °C, says its file: 50 to 95 °F."""
    speak(FAHRENHEIT)
    with at_the_bench(stage) as desk:
        to_the_cup(stage, desk)
        stage.tap("type_room")
        type_in(stage, "106")
        assert "106 °F is outside the 50 to 95 °F" in stage.find("says").text


def test_a_label_read_out_in_fahrenheit_is_a_file_in_celsius(stage: Stage, home: Path) -> None:  # noqa: F811
    speak(FAHRENHEIT)
    with at_the_bench(stage) as desk:
        to_the_label(stage, desk)
        tap(stage, "begin_new")
        name_it(stage, "paste")
        tap(stage, "option_1", "option_1", "option_1")  # ready, white, paste
        number(stage, "1.6", "20", "73.4")
        tap(stage, "option_3", "label_silent")
        number(stage, "50", "95", "4", "8", "24", "73.4", "-4", "140")
        answers = kept(desk).answers
        assert answers["working_time.test_temperature_C"] == 23
        assert answers["working_time.range_C"] == (10, 35)
        assert answers["service.range_C"] == (-20, 60)


def test_at_the_german_cup_a_comma_is_typed_and_the_book_keeps_its_keys(stage: Stage) -> None:
    speak(GERMAN)
    with at_the_bench(stage) as desk:
        to_the_cup(stage, desk)
        stage.tap("type_room")
        type_in(stage, "21.5")  # the key of the mark, whichever it is
        assert stage.find("degrees").text == "21,5 °C"
        assert stage.find("use_room").text == "Zu den Hinweisen"
        tap_all(stage, "use_room", "read_it")
        assert "," in stage.find("resin_g").text
        shown = desk.job.state.mix_at_cup
        assert shown.temperature_C == 21.5


def test_german_bottles_are_bottles_of_the_same_product(stage: Stage) -> None:
    speak(GERMAN)
    with at_the_bench(stage) as desk:
        desk.go("stock")
        stage.frame(4)
        tap(stage, "add_bottle", "answer_1", "answer_0")
        type_in(stage, "125.5")
        tap(stage, "lot_A", "lot_use", "answer_1")
        bottle = stock_of(desk.job.store).bottles[1]
        assert (bottle.product, bottle.part) == (find_product("white-paste").name, "hardener")
        changed(desk)
        stage.frame(4)
        assert "Härter, Charge A: Weiße Paste, typisch" in stage.texts()
        assert "125,5 von 125,5 g übrig" in stage.texts()
        stock.empty_bottle(desk.job, 1)


def test_a_copied_type_is_called_as_it_was_read(stage: Stage, home: Path) -> None:  # noqa: F811
    speak(GERMAN)
    with at_the_bench(stage) as desk:
        to_the_label(stage, desk)
        tap(stage, "begin_copy_0")
        keep(stage)
        assert desk.job.product(desk.job.state.bench.adhesive).name == "Weiße Paste, typisch"
