"""Which panel the app opens: the work in hand is found again, whatever it is called with."""

import pytest

from bench.app import job_to_open
from bench.book import Store
from bench.job.faults import WrongOrder
from bench.job.settings import LAST_PANEL
from tests.fakes.benches import start_mix
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg


@pytest.fixture
def store():
    with Store.in_memory() as kept:
        yield kept


@pytest.fixture
def lemons(tmp_path):
    path = tmp_path / "lemons.svg"
    path.write_bytes(grid_svg(8, 6))
    return path


def opened(store, clock, drawing):
    job = job_to_open(store, clock, drawing)
    store.set_setting(LAST_PANEL, str(job.panel_id))
    return job


def test_a_drawing_opened_again_finds_its_countdown(store, lemons):
    clock = FakeClock()
    mix = start_mix(opened(store, clock, lemons), 1)
    clock.advance(300)
    again = opened(store, clock, lemons)
    assert [m.number for m in again.state.running_mixes] == [mix]
    assert again.reading(mix).spent_s == pytest.approx(300)
    assert len(store.panels()) == 1


def test_another_drawing_waits_while_a_mix_runs(store, lemons, tmp_path):
    clock = FakeClock()
    start_mix(opened(store, clock, lemons), 1)
    other = tmp_path / "other.svg"
    other.write_bytes(grid_svg(9, 6))
    with pytest.raises(WrongOrder, match="a mix runs"):
        job_to_open(store, clock, other)
    assert len(store.panels()) == 1


def test_another_drawing_becomes_a_panel_of_its_own(store, lemons, tmp_path):
    clock = FakeClock()
    first = opened(store, clock, lemons)
    other = tmp_path / "other.svg"
    other.write_bytes(grid_svg(9, 6))
    second = opened(store, clock, other)
    assert second.panel_id != first.panel_id
    assert opened(store, clock, None).panel_id == second.panel_id
    assert opened(store, clock, lemons).panel_id == first.panel_id


def test_an_older_panel_waits_too_while_a_mix_runs_on_the_last(store, lemons, tmp_path):
    clock = FakeClock()
    opened(store, clock, lemons)
    other = tmp_path / "other.svg"
    other.write_bytes(grid_svg(9, 6))
    start_mix(opened(store, clock, other), 1)
    with pytest.raises(WrongOrder, match="a mix runs"):
        job_to_open(store, clock, lemons)
