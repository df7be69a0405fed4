"""The flow from a picture to a panel, driven on the hidden window."""

import time
from contextlib import contextmanager

from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts.opening import open_panel
from bench.job.job import Job
from bench.screens.tracing.ways import FIRST
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.gloves import complaints
from tests.fakes.scans import drawn_grid, scanned


def furnished(folder, monkeypatch):
    """Make a folder the home, with places for files and a line drawing in one of them, and return it."""
    for name in ("Documents", "bench", "book"):
        (folder / name).mkdir()
    monkeypatch.setenv("HOME", str(folder))
    monkeypatch.setenv("POTWATCH_HOME", str(folder / "book"))
    monkeypatch.chdir(folder / "bench")
    (folder / "Documents" / "lemons.png").write_bytes(scanned(drawn_grid()))
    return folder


@contextmanager
def app_on(stage, folder):
    """Play the app on a folder's book, on its last panel; a new book gets a small grid. Yield the desk."""
    from bench.app import bench_app

    with Store.open(folder) as store:
        panels = store.panels()
        if panels:
            job = Job(store, FakeClock(), panels[-1].panel_id)
        else:
            bench = BenchSet(pace_per_min=5.0)
            job = open_panel(store, FakeClock(), grid_svg(12, 8), "grid.svg", bench=bench)
        with stage.play(bench_app(job)) as app:
            yield app.desk
            rest(stage)


def flow_of():
    """Return the flow's screen of the app that plays."""
    from kivy.app import App

    return App.get_running_app().root.screen("trace")


def count_of(stage):
    """Return what the last step says of how many pieces there are."""
    return stage.find("found_count").text


def rest(stage, flow=None):
    """Let frames go by until nothing runs aside any more."""
    flow = flow or flow_of()
    stage.run(1.0)
    until = time.monotonic() + 300
    while (flow.aside.busy or flow.busy) and time.monotonic() < until:
        time.sleep(0.01)
        stage.frame()
    assert not flow.aside.busy
    stage.frame(4)


def begin(stage, desk, stem, *, upto="picture"):
    """Turn to the drawings, open a picture and go on to a step, the whole picture being taken."""
    desk.go("panel")
    desk.go("open")
    stage.frame(2)
    while f"open_picture_{stem}" not in stage.names():
        stage.tap("page_on")
        stage.frame(2)
    stage.tap(f"open_picture_{stem}")
    rest(stage)
    for step in FIRST[: ([*FIRST, "lines"]).index(upto)]:
        if step == "corners":
            stage.tap("whole")
        stage.tap("kind_lines" if step == "kind" else "go_on")
        rest(stage)


def complained(stage) -> dict:
    """Return what gloves and eyes complain of, and which parts of the step reach over the head."""
    from bench.screens.theme import theme

    stage.frame(4)
    found = complaints(stage)
    step = flow_of()._step
    top = step.to_window(*step.pos)[1] + step.height + theme.gap - 1  # the screen's own rim is there to spare
    over = [w for w in step.walk() if w.to_window(*w.pos)[1] + w.height > top]
    return found | ({"over the head": over} if over else {})
