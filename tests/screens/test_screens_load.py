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
store = Store.in_memory()
house = House(desk=Desk(open_panel(store, FakeClock(), grid_svg(12, 8), "bowl.svg")))
stage.show(house)
held = list(house.walk())
for part in ("section", "days", "report", "away"):
    held += house.current._part(part).walk()
for part in ("fault", "fault_sheet", "news_sheet", "reading", "practice"):
    held += house._standing(part).walk()
load()
from bench.resources import resource
late = {str(resource("kv") / name) for name in sys.argv[1:]}
for widget in held:
    for rule in Builder.match(widget):
        if rule.ctx.filename in late:
            print(type(widget).__name__, rule.ctx.filename)
print(len(held), "widgets seen")
"""

BY_HAND = FIRST_FRAME[: FIRST_FRAME.index("held")] + """
house.current.tapped(1, 0)
house.current.shape_it()
stage.frame(2)
print(*stage.names())
"""


def played(code: str, *words: str) -> str:
    """Return what a process of its own prints."""
    done = subprocess.run(
        [sys.executable, "-c", code, *words],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        timeout=180,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout


@pytest.mark.slow
def test_no_part_of_the_first_screen_finds_its_looks_too_late() -> None:
    from bench.resources import resource
    from bench.screens.base_looks import BASE
    from bench.screens.load import FIRST

    late = [path.name for path in resource("kv").glob("*.kv") if path.name not in (BASE, *FIRST)]
    *found, seen = played(FIRST_FRAME, *late).splitlines()
    assert found == []
    assert int(seen.split()[0]) > 80


@pytest.mark.slow
def test_a_part_that_is_wanted_before_its_looks_were_loaded_waits_for_them() -> None:
    shown = played(BY_HAND).split()
    assert {"hand_join", "hand_split", "hand_move", "hand_leave", "hand_keep"} <= set(shown)


@pytest.mark.slow
def test_a_start_on_the_last_panel_reads_no_drawing_and_no_other_screen() -> None:
    code = (
        "import sys, bench.app, bench.job.job; "
        "print([m for m in sys.modules if m in ('bench.drawing.svg', 'bench.drawing.revised', 'PIL.Image', "
        "'svgelements', 'scipy', 'kivy')])"
    )
    assert played(code).strip() == "[]"
