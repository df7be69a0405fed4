"""Take the pictures of the README: `python -m tests.tools.tour`.

The real screens on the demo, on a book in memory and a clock that the script moves.
"""

import os
import shutil
import tempfile
from pathlib import Path

from bench.screens import hidden_window

hidden_window.prepare()

from bench.app import bench_app  # noqa: E402
from bench.book import Store  # noqa: E402
from bench.book.events import BenchSet  # noqa: E402
from bench.job.acts import cup, dry, glueup, opening  # noqa: E402
from bench.job.advice import advise  # noqa: E402
from bench.job.job import Job  # noqa: E402
from bench.resources import resource  # noqa: E402
from bench.screens.offscreen import Stage  # noqa: E402
from tests.fakes.clock import FakeClock  # noqa: E402
from tests.fakes.tracing import app_on, rest  # noqa: E402

TOUR = Path(__file__).parents[2] / "assets" / "tour"
SIZE_PX = (1280, 800)
ROOM_C = 21.0


def glue_up(job: Job, clock: FakeClock, minutes: float) -> None:
    """Set the section that is next in so many minutes, and let it become firm."""
    number = advise(job).section
    dry.lay(job, number)
    mix = cup.open_mix(job, number, ROOM_C)
    cup.acknowledge(job, mix)
    cup.first_contact(job, mix)
    clock.advance(minutes * 60)
    glueup.close(job, mix)
    opening.divide_anew(job)
    clock.advance(20 * 3600)


def study_pictures(stage: Stage) -> None:
    """Go from the demo's painted study to its trial lay, in a home of its own."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        (home / "Documents").mkdir()
        study = Path(str(resource("assets", "demo", "lemons-study.jpg")))
        shutil.copy(study, home / "Documents" / "study.jpg")
        os.environ["HOME"] = folder
        with app_on(stage, home / "book") as desk:
            stage.resize(*SIZE_PX)
            desk.go("open")
            stage.run(1)
            for name in ("open_picture_study", "go_on", "whole", "size_width"):
                stage.tap(name)
                rest(stage)
            for digit in "400":
                stage.tap(f"pad_{digit}")
            for name in ("pad_use", "go_on", "kind_study"):
                stage.tap(name)
                rest(stage)
            print(stage.picture(TOUR / "areas.png"))
            stage.tap("go_on")
            rest(stage)
            print(stage.picture(TOUR / "lay.png"))


def main() -> None:
    stage, clock = Stage(), FakeClock()
    study_pictures(stage)
    demo = resource("assets", "demo", "lemons.svg")
    with Store.in_memory() as store:
        bench = BenchSet(pace_per_min=5.0)
        job = opening.open_panel(
            store, clock, demo.read_bytes(), demo.name, name="Bowl of lemons", bench=bench
        )
        for minutes in (25.0, 27.0, 24.0):
            glue_up(job, clock, minutes)
        with stage.followed_by(clock.advance), stage.play(bench_app(job)) as app:
            stage.resize(*SIZE_PX)

            def picture(screen: str, name: str, **about: int) -> None:
                app.desk.version += 1
                app.desk.go(screen, **about)
                stage.run(1.5)
                print(stage.picture(TOUR / f"{name}.png"))

            stage.run(2)
            picture("panel", "panel")
            number = advise(job).section
            dry.lay(job, number)
            picture("dry", "dry", section=number)
            mix = cup.open_mix(job, number, ROOM_C)
            picture("cup", "cautions", section=number, mix=mix)
            cup.acknowledge(job, mix)
            picture("cup", "cup", section=number, mix=mix)
            cup.first_contact(job, mix)
            for step, wait_s in (("spread", 70), ("set", 60)):
                clock.advance(wait_s)
                glueup.begin_step(job, mix, step)
            for placed in (18, 40, 61):
                clock.advance(240)
                glueup.count(job, mix, placed)
            picture("glueup", "glueup", section=number, mix=mix)
            picture("book", "book")


if __name__ == "__main__":
    main()
