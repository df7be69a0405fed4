"""`potwatch book --calendar`: the finishing of the last panel, for any calendar."""

import pytest
import vobject

from bench.book import Store, SystemClock, data_folder
from bench.job.acts.opening import open_panel
from tests.fakes.drawings import grid_svg
from tests.fakes.finished import hard_at_once, whole_panel


@pytest.fixture
def kept(tmp_path, monkeypatch):
    """A book of its own with one small panel, hard all over, its grout chosen."""
    from tests.fakes.clock import FakeClock

    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "home"))
    with Store.open(data_folder()) as store:
        job = open_panel(store, FakeClock(SystemClock().utc()), grid_svg(8, 4), "grid.svg")
        hard_at_once(job)
        whole_panel(job)


@pytest.mark.usefixtures("kept")
def test_the_calendar_is_written_and_read_by_another_library(run, tmp_path):
    path = tmp_path / "panel.ics"
    code, out, err = run("book", "--calendar", path)
    assert (code, err) == (0, "")
    assert "may be grouted now" in out
    read = vobject.readOne(path.read_text())
    names = [event.summary.value for event in read.vevent_list]
    assert names == ["grid: Grout: the panel", "grid: Seal the panel", "grid: May hang outdoors"]


@pytest.mark.usefixtures("kept")
def test_the_book_says_what_may_be_done_now(run):
    _, out, _ = run("book")
    assert "The panel may be grouted now." in out


@pytest.mark.usefixtures("kept")
def test_a_folder_that_is_not_there_is_told_in_one_line(refused, tmp_path):
    assert "cannot be written" in refused("book", "--calendar", tmp_path / "none" / "panel.ics")
