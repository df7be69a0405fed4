"""Time a start on the last panel against an empty Kivy window, and print the ratio.

Run: python -m tests.benchmarks.bench_start
Each start is a process of its own in a hidden window, its time that of the process (software GL draws within
it) up to the first frame on the glass. The peer imports numpy and pydantic and shows an empty widget. To
import pydantic loads next to nothing of it before there is a first model, so a second peer makes one. They
take turns. All find their modules compiled, as after any installation, whatever this shell says of bytecode.
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
print(time.process_time())
"""

NO_MODEL, ONE_MODEL = "", "class One(pydantic.BaseModel): at_s: float"

OURS = """
import gc, os, time
gc.disable()  # as bench.app.run_app does
os.environ["PYDANTIC_DISABLE_PLUGINS"] = "__all__"  # as bench.__main__.run does
from bench.screens.offscreen import Stage
stage = Stage()
from kivy.graphics.opengl import glFinish
from bench.app import job_to_open
from bench.book import Store, SystemClock, data_folder
from bench.screens.load import load_first
with Store.open(data_folder()) as store:
    job = job_to_open(store, SystemClock(), None)
    load_first()
    from bench.screens.desk import Desk
    from bench.screens.house import House
    stage.window.add_widget(House(desk=Desk(job)))
    stage.frame()
    glFinish()
    print(time.process_time())
    store.set_setting("last_panel", str(job.panel_id))
"""


def seconds(code: str, home: str) -> float:
    """Return the process time of one start. [s]"""
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    env |= {"POTWATCH_HOME": home, "KIVY_NO_CONSOLELOG": "1", "PYTHONPYCACHEPREFIX": f"{home}/compiled"}
    done = subprocess.run([sys.executable, "-c", code], cwd=HOUSE, env=env, capture_output=True, text=True)
    if done.returncode:
        raise SystemExit(done.stderr)
    return float(done.stdout.split()[-1])


def main() -> None:
    codes = (PEER.format(model=NO_MODEL), PEER.format(model=ONE_MODEL), OURS)
    with tempfile.TemporaryDirectory() as home:
        for _ in range(2):  # the first makes the demo's panel and compiles, both warm the disk
            for code in reversed(codes):
                seconds(code, home)
        times = [[seconds(code, home) for code in codes] for _ in range(ROUNDS)]
    peer, with_model, ours = (statistics.median(column) for column in zip(*times, strict=True))
    print(
        f"start on the last panel: {ours:.2f} s, {ours / peer:.2f} × an empty window ({peer:.2f} s), "
        f"{ours / with_model:.2f} × one with a first model ({with_model:.2f} s)"
    )


if __name__ == "__main__":
    main()
