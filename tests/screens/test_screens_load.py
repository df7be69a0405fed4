"""What the first screen is made of is loaded before it, and all else in time."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

FIRST_FRAME = """
import sys
from bench.screens.offscreen import Stage

stage = Stage()
from kivy.lang import Builder

from bench.book import Store
from bench.job.acts.opening import open_panel
from bench.screens.desk import Desk
from bench.screens.house import House
from bench.screens.load import load, load_first
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

load_first()
before = set(sys.modules)
store = Store.in_memory()
house = House(desk=Desk(open_panel(store, FakeClock(), grid_svg(12, 8), "bowl.svg")))
stage.show(house)
held = list(house.walk())
load()
from bench.resources import resource
late = {str(resource("kv") / name) for name in sys.argv[1:]}
for widget in held:
    for rule in Builder.match(widget):
        if rule.ctx.filename in late:
            print(type(widget).__name__, rule.ctx.filename)
print(len(held), "widgets seen")
"""


@pytest.mark.slow
def test_no_part_of_the_first_screen_finds_its_looks_too_late() -> None:
    from bench.resources import resource
    from bench.screens.load import FIRST

    late = [path.name for path in resource("kv").glob("*.kv") if path.name not in FIRST]
    done = subprocess.run(
        [sys.executable, "-c", FIRST_FRAME, *late],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        timeout=180,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    *found, seen = done.stdout.splitlines()
    assert found == []
    assert int(seen.split()[0]) > 20


@pytest.mark.slow
def test_a_start_on_the_last_panel_reads_no_drawing_and_no_other_screen() -> None:
    code = (
        "import sys, bench.app, bench.job.job; "
        "print([m for m in sys.modules if m in ('bench.drawing.svg', 'bench.drawing.revised', 'PIL.Image', "
        "'svgelements', 'scipy', 'kivy')])"
    )
    house = Path(__file__).parents[2]
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=house, capture_output=True, text=True, timeout=60
    )
    assert done.returncode == 0, done.stderr[-2000:]
    assert done.stdout.strip() == "[]"
