"""An error that no screen caught: the countdown stays, and what went wrong is told."""

import pytest
from kivy.base import ExceptionManager

from bench.fault import Fault
from bench.screens import dividing
from bench.screens.goes_on import GoesOn
from tests.fakes.benches import at_the_bench, start_mix


@pytest.fixture
def desk(stage):
    with at_the_bench(stage) as desk:
        yield desk


def test_a_fault_is_shown_as_a_card_whether_a_mix_runs_or_not(stage, desk):
    fault = Fault("no such paper", todo="take another")
    assert GoesOn(desk).handle_exception(fault) == ExceptionManager.PASS
    stage.frame(2)
    assert (desk.fault_what, desk.fault_todo) == ("no such paper", "take another")


def test_any_other_error_ends_the_app_only_while_no_mix_runs(desk, caplog):
    handler = GoesOn(desk)
    assert handler.handle_exception(ValueError("x")) == ExceptionManager.RAISE
    assert desk.fault_what == ""
    start_mix(desk.job, 1)
    for _ in range(3):
        assert handler.handle_exception(ValueError("x")) == ExceptionManager.PASS
    assert desk.fault_what == "something went wrong in Potwatch (ValueError); the countdown goes on"
    assert len(handler._logged) == 1
    assert handler.handle_exception(KeyboardInterrupt()) == ExceptionManager.RAISE


def test_an_app_that_was_started_has_the_handler_and_one_that_ended_has_not(stage):
    from bench.app import bench_app
    from tests.fakes.benches import PACE, Store, open_panel
    from tests.fakes.clock import FakeClock
    from tests.fakes.drawings import grid_svg

    before = list(ExceptionManager.handlers)
    with Store.in_memory() as store:
        app = bench_app(open_panel(store, FakeClock(), grid_svg(8, 6), "grid.svg", bench=PACE))
        with stage.play(app):
            assert [type(h) for h in ExceptionManager.handlers if h not in before] == [GoesOn]
        assert ExceptionManager.handlers == before


def test_a_book_that_cannot_be_learned_from_is_told_of_and_divides_nothing(desk, monkeypatch):
    def cannot(_job):
        raise Fault("the book says what cannot be", todo="write it down")

    monkeypatch.setattr(dividing, "prepare_division", cannot)
    desk.divide_anew()
    assert (desk.dividing, desk.fault_what) == (False, "the book says what cannot be")
