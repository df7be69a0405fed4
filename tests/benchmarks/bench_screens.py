"""Time the panel picture against one batched mesh of the same triangles, and print the ratios.

Run: python -m tests.benchmarks.bench_screens
Medians of whole frames at 1280 × 800, glFinish before each stop of the clock, two cores, software GL. Time is
that of the process, which a busy machine does not stretch; software GL draws within the process.
"""

import statistics
import sys
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from bench.screens.offscreen import Stage
from tests.fakes.panels import blocks, courses

ROUNDS, FRAMES = 6, 12


def frames_ms(stage: Stage, move) -> list[float]:
    """Return the times of frames while `move(k)` changes what is shown. [ms]"""
    from kivy.graphics.opengl import glFinish

    times = []
    for k in range(FRAMES + 2):
        glFinish()
        start = time.process_time()
        move(k)
        stage.window.canvas.ask_update()
        stage.frame()
        glFinish()
        times.append(1000 * (time.process_time() - start))
    return times[2:]


def bare(panel):
    """Return a widget that draws the panel's triangles in one batch and nothing else: the named peer."""
    from kivy.graphics import Mesh, PopMatrix, PushMatrix, Scale, Translate
    from kivy.uix.widget import Widget

    from bench.screens.picture.glass import glass_meshes
    from bench.screens.picture.program import GLASS_FORMAT, glass_context
    from bench.screens.picture.triangles import triangulate
    from bench.screens.picture.view import View

    widget, context = Widget(), glass_context()
    view = View(1280, 800, panel.width_mm, panel.height_mm).fitted()
    with widget.canvas:
        PushMatrix()
        widget.shift = Translate(*view.to_px(0, 0))
        Scale(view.px_per_mm, -view.px_per_mm, 1)
    for vertices, indices in glass_meshes(panel, triangulate(panel)):
        context.add(Mesh(vertices=vertices.ravel(), indices=indices, fmt=GLASS_FORMAT, mode="triangles"))
    widget.canvas.add(context)
    with widget.canvas:
        PopMatrix()
    return widget


def rounds(stage: Stage, widgets: dict[str, tuple]) -> dict[str, float]:
    """Return each widget's median frame; they take turns, so that a slow spell hits all alike. [ms]"""
    times: dict[str, list[float]] = {name: [] for name in widgets}
    for _ in range(ROUNDS):
        for name, (widget, move) in widgets.items():
            stage.show(widget)
            times[name] += frames_ms(stage, move)
    stage.clear()
    return {name: statistics.median(spans) for name, spans in times.items()}


def peer(panel) -> tuple:
    widget = bare(panel)
    x, y = widget.shift.xy
    return widget, lambda k: setattr(widget.shift, "xy", (x + k % 2, y))


def picture(panel, columns: int, rows: int) -> tuple:
    """Return a divided picture that pans to and fro, half of its sections worked; prints what it took."""
    from bench.screens.widgets import PanelPicture

    widget = PanelPicture(size=(1280, 800))
    number, half = blocks(panel, columns, rows), columns * rows // 2
    states = {k: ("hard", "firm", "soft", "drawn")[k % 4] for k in range(1, half)}
    spots = np.random.default_rng(1).uniform(100, 700, (200, 2))
    for name, count, do in (
        ("show", 1, lambda: widget.show(panel)),
        ("divide, first time", 1, lambda: widget.divide(number)),
        ("divide", 1, lambda: widget.divide(number, states, half + 1)),
        ("pick", len(spots), lambda: [widget.pick_at(*spot) for spot in spots]),
    ):
        start = time.process_time()
        do()
        print(f"  {name:<20} {1000 * (time.process_time() - start) / count:8.2f} ms")
    return widget, lambda k: setattr(widget, "view", widget.view.moved((-1) ** k, 0))


def empty() -> tuple:
    from kivy.uix.widget import Widget

    return Widget(), lambda k: None


def main() -> None:
    stage = Stage()
    from bench.screens.load import load  # imports Kivy, so only once the stage stands

    load()
    for columns, rows, sections in ((50, 40, (6, 5)), (100, 50, (9, 6)), (400, 250, (40, 25))):
        panel = courses(columns, rows)
        print(f"{panel.tessera_count} tesserae, {sections[0] * sections[1]} sections")
        contest = {"empty window": empty(), "one batched mesh": peer(panel), "pan": picture(panel, *sections)}
        times = rounds(stage, contest)
        for name, value in times.items():
            print(f"  {name:<20} {value:8.2f} ms a frame, {value / times['one batched mesh']:.2f} × the mesh")


if __name__ == "__main__":
    main()
