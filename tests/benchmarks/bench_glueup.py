"""Time a frame of Glue-up, its countdown running, against one of an empty window, and print the ratios.

Run: python -m tests.benchmarks.bench_glueup
Medians of whole frames at 1280 × 800, each drawn in full, though at the bench two a second have something
new to draw; glFinish before each stop of the clock, software GL. Time is that of the process, which a busy
machine does not stretch. The bench's clock goes along, so what is said of the time left changes as it does
there; the slowest frames are printed too.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from pathlib import Path

from bench.screens import hidden_window
from bench.screens.offscreen import FRAME_S, Stage

hidden_window.prepare()  # before what follows imports Kivy

from tests.gallery.scenes import SCENES  # noqa: E402
from tests.gallery.views import a_home  # noqa: E402

FRAMES, ROUNDS = 90, 3
SHOWN = ("glueup set", "glueup twins", "glueup over")


def frames_ms(stage: Stage) -> list[float]:
    """Return the times of frames in which all is drawn again. [ms]"""
    from kivy.graphics.opengl import glFinish

    times = []
    for _ in range(FRAMES):
        stage.window.canvas.ask_update()
        glFinish()
        start = time.process_time()
        stage.frame()
        glFinish()
        times.append(1000 * (time.process_time() - start))
    return times


def main() -> None:
    stage = Stage()
    from kivy.uix.widget import Widget

    with tempfile.TemporaryDirectory() as folder, a_home(Path(folder)) as home:
        for name in SHOWN:
            scene = next(scene for scene in SCENES if scene.name == name)
            ours: list[float] = []
            peer: list[float] = []
            for _ in range(ROUNDS):
                stage.show(Widget())
                peer += frames_ms(stage)
                stage.clear()
                with scene.begin(stage, home) as desk, stage.followed_by(desk.job.clock.advance):
                    scene.reach(stage, desk)
                    stage.run(1.0)
                    ours += frames_ms(stage)
            usual, empty = statistics.median(ours), statistics.median(peer)
            slow = statistics.quantiles(ours, n=20)[-1]
            print(
                f"{name}: {usual:.2f} ms a frame, {usual / empty:.2f} × an empty window's ({empty:.2f} ms, "
                f"{1000 * FRAME_S:.0f} ms between frames); one frame in twenty takes {slow:.2f} ms or more"
            )


if __name__ == "__main__":
    main()
