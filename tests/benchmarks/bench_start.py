"""Hold a start on the last panel against an empty Kivy window: time on the demo, memory with 5,000 tesserae.

Run: python -m tests.benchmarks.bench_start
Each start is a process of its own in a hidden window, its time that of the process (software GL draws within
it) up to the first frame on the glass, its memory what is resident then (Linux). Ours goes the way of the
command: it opens the book with all that is looked at then, builds the app with its machine's settings, turns
to where the work was, and sets the clock its tasks; what these do comes after the first frame. The peer
imports numpy and pydantic and shows an empty widget, with all of Kivy's own looks read, as any Kivy program
does. To import pydantic loads next to nothing of it before there is a first model, so a second peer makes
one. They take turns. All find their modules compiled, as after any installation, whatever this shell says of
bytecode.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

ROUNDS = 7
HOUSE = Path(__file__).parents[2]
COLUMNS, ROWS = 100, 50  # of the drawing that memory is read with

TOLD = """
from pathlib import Path
held = Path("/proc/self/status")
held = held.read_text().partition("VmRSS:")[2].split()[0] if held.exists() else "nan"
print(time.process_time(), held)
"""

PEER = """
import time
import numpy, pydantic
{model}
from bench.screens import hidden_window
hidden_window.prepare(base_looks=False)
from bench.screens.offscreen import Stage
stage = Stage()
from kivy.uix.widget import Widget
from kivy.graphics.opengl import glFinish
stage.window.add_widget(Widget())
stage.frame()
glFinish()
{told}
"""

NO_MODEL, ONE_MODEL = "", "class One(pydantic.BaseModel): at_s: float"

OURS = """
import os, time
os.environ["PYDANTIC_DISABLE_PLUGINS"] = "__all__"  # as bench.__main__.run does before the first model
from bench.screens import hidden_window
hidden_window.prepare()
import bench.app
whole_app = bench.app.bench_app

def bench_app(*args, **how):
    app = whole_app(*args, **how)
    app.run = lambda: first_frame(app)
    return app

def first_frame(app):
    from bench.screens.offscreen import Stage
    stage = Stage()
    from kivy.base import runTouchApp
    from kivy.graphics.opengl import glFinish
    app._run_prepare()  # this and the next line are what App.run does before its loop of frames
    runTouchApp(embedded=True)
    stage.frame()
    glFinish()
    {told}

bench.app.bench_app = bench_app
from bench.__main__ import run
run()
"""

BEGUN = """
from bench.app import job_to_open
from bench.book import SystemClock, data_folder, open_book
from bench.job.acts.opening import open_panel
from bench.job.settings import LAST_PANEL
from tests.fakes.drawings import grid_svg
with open_book(data_folder(), SystemClock()).store as store:
    job = {job}
    store.set_setting(LAST_PANEL, str(job.panel_id))
print(0, 0)
"""
DEMO = "job_to_open(store, SystemClock(), None)"
LARGE = f'open_panel(store, SystemClock(), grid_svg({COLUMNS}, {ROWS}), "large.svg")'


def start(code: str, home: str) -> tuple[float, float]:
    """Return the process time of one start, and the memory it holds. [s], [KiB]"""
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    env |= {"POTWATCH_HOME": home, "KIVY_NO_CONSOLELOG": "1", "PYTHONPYCACHEPREFIX": f"{home}/compiled"}
    done = subprocess.run([sys.executable, "-c", code], cwd=HOUSE, env=env, capture_output=True, text=True)
    if done.returncode:
        raise SystemExit(done.stderr)
    seconds, held = done.stdout.split()[-2:]
    return float(seconds), float(held)


def medians(codes: list[str], home: str, which: int) -> list[float]:
    """Return the median time (0) or memory (1) of each kind of start; the kinds take turns."""
    for code in reversed(codes):  # warms the disk
        start(code, home)
    told = [[start(code, home)[which] for code in codes] for _ in range(ROUNDS)]
    return [statistics.median(column) for column in zip(*told, strict=True)]


def main() -> None:
    peers = [PEER.format(model=model, told=TOLD) for model in (NO_MODEL, ONE_MODEL)]
    ours = OURS.format(told=TOLD.replace("\n", "\n    "))
    with tempfile.TemporaryDirectory() as home:
        start(BEGUN.format(job=DEMO), home)
        start(ours, home)  # compiles, and keeps what the first frame is drawn from
        peer, with_model, own = medians([*peers, ours], home, 0)
        print(
            f"start on the last panel: {own:.2f} s, {own / peer:.2f} × an empty window ({peer:.2f} s), "
            f"{own / with_model:.2f} × one with a first model ({with_model:.2f} s)"
        )
        start(BEGUN.format(job=LARGE), home)
        peer, own = medians([peers[0], ours], home, 1)
        print(
            f"memory with {COLUMNS * ROWS} tesserae: {own / 1024:.0f} MiB, {own / peer:.2f} × an empty "
            f"window's ({peer / 1024:.0f} MiB)"
        )


if __name__ == "__main__":
    main()
