"""A panel is opened again from what was read before, and is the same to the last tessera."""

import numpy as np

from bench.book import Store
from bench.book.store import READINGS
from bench.job.acts import opening
from bench.job.job import Job
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg


def test_a_second_opening_reads_no_drawing(tmp_path, monkeypatch):
    with Store.open(tmp_path) as store:
        job = opening.open_panel(store, FakeClock(), grid_svg(12, 6), "grid.svg", width_mm=90.0)
        first = Job(store, FakeClock(), job.panel_id)
    monkeypatch.setattr("bench.drawing.svg.read_drawing", lambda *_a, **_k: 1 / 0)
    with Store.open(tmp_path) as store:
        again = Job(store, FakeClock(), job.panel_id)
    np.testing.assert_array_equal(again.panel.points_mm, first.panel.points_mm)
    assert again.panel.width_mm == 90.0
    assert again.state == first.state


def test_a_damaged_reading_is_made_again(tmp_path):
    with Store.open(tmp_path) as store:
        job = opening.open_panel(store, FakeClock(), grid_svg(12, 6), "grid.svg")
        Job(store, FakeClock(), job.panel_id)
        (kept,) = (tmp_path / READINGS).iterdir()
        whole = kept.read_bytes()
        kept.write_bytes(whole[: len(whole) // 2])
        again = Job(store, FakeClock(), job.panel_id)
        assert kept.read_bytes() == whole
    np.testing.assert_array_equal(again.panel.area_mm2, job.panel.area_mm2)
