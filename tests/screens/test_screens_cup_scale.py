"""At the scale: the ladder of masses, readings typed, scales too coarse, and slips."""

import pytest

from bench.book.events import BenchSet
from bench.job.acts import cup
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench
from tests.fakes.gloves import complaints
from tests.fakes.tapping import tap_all, to_the_cup, to_the_scale, type_in


@pytest.fixture
def desk(stage: Stage):
    """The next section lies dry and the maker stands at the cup."""
    with at_the_bench(stage) as desk:
        to_the_cup(stage, desk)
        yield desk


def test_a_rung_tapped_is_the_resin_in_the_cup_and_the_ladder_stays_where_it_is(stage: Stage, desk) -> None:
    """The paste's label says 100 to 50 by mass: half as much hardener as resin."""
    to_the_scale(stage)
    rungs = list(stage.find("ladder").rungs)
    resin_g = float(rungs[5][0])
    stage.tap("rung_5")
    mix = desk.job.state.mix_at_cup
    assert mix.poured_resin_g == pytest.approx(resin_g)
    assert mix.hardener_target_g == pytest.approx(resin_g * desk.job.product("white-paste").mass_ratio)
    assert list(stage.find("ladder").rungs) == rungs
    assert stage.find("ladder").chosen == 5
    assert stage.find("hardener_g").text.startswith(rungs[5][1])
    stage.tap("rung_2")
    assert desk.job.state.mix_at_cup.poured_resin_g == pytest.approx(float(rungs[2][0]))


def test_a_reading_off_the_ladder_is_typed(stage: Stage, desk) -> None:
    to_the_scale(stage)
    stage.tap("type_resin")
    type_in(stage, "9.7")
    assert desk.job.state.mix_at_cup.poured_resin_g == pytest.approx(9.7)
    assert stage.find("resin_g").text == "9.7 g"


def test_a_reading_that_cannot_be_is_refused_with_a_card_and_the_pad_stays(stage: Stage, desk) -> None:
    to_the_scale(stage)
    stage.tap("type_resin")
    type_in(stage, "4000")
    assert "cannot be right" in desk.fault_what
    assert desk.job.state.mix_at_cup.poured_resin_g is None
    assert complaints(stage) == {}
    stage.tap("fault_act")
    assert stage.find("pad_value").text == "4000 g"


def test_a_scale_too_coarse_is_told_in_grams_and_small_scales_are_warned_of_once_a_day(stage: Stage) -> None:
    with at_the_bench(stage, bench=BenchSet(pace_per_min=5.0, scale_g=1.0)) as desk:
        to_the_cup(stage, desk)
        to_the_scale(stage)
        batch = cup.sheet(desk.job, desk.mix).batch
        assert not batch.scale_ok
        care = " ".join(text for text in stage.texts() if "too little" in text)
        assert f"mix {batch.smallest_batch_g:.1f} g" in care
        assert "swallow slow drips" in care
        stage.tap("put_away")
        to_the_cup(stage, desk)
        to_the_scale(stage)
        assert "swallow slow drips" not in " ".join(stage.texts())


def test_a_cumulative_scale_is_told_by_what_it_will_show(stage: Stage) -> None:
    with at_the_bench(stage, bench=BenchSet(pace_per_min=5.0, cumulative=True)) as desk:
        to_the_cup(stage, desk)
        to_the_scale(stage)
        total_g = cup.sheet(desk.job, desk.mix).batch.total_g
        assert f"2 · Hardener, to {total_g:.1f} g in all" in stage.texts()


@pytest.mark.parametrize(("keys", "words"), [("0", "tap the scale"), ("0.0062", "that is 6.2 g")])
def test_a_slip_at_the_scale_has_its_own_line(stage: Stage, desk, keys: str, words: str) -> None:
    to_the_scale(stage)
    stage.tap("type_resin")
    type_in(stage, keys)
    assert words in desk.fault_todo
    assert desk.job.state.mix_at_cup.poured_resin_g is None
    assert complaints(stage) == {}


def test_hardener_that_is_in_first_is_told_the_resin_that_belongs_onto_it(stage: Stage, desk) -> None:
    """The paste's label says 100 to 50 by mass: twice as much resin as hardener."""
    to_the_scale(stage)
    tap_all(stage, "type_resin", "beside")
    assert complaints(stage) == {}
    type_in(stage, "3")
    assert "before the resin" in desk.fault_what
    assert desk.fault_todo == "pour 6 g of resin onto it"
    stage.tap("fault_act")
    assert "first_contact" in stage.names()
