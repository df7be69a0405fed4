"""The loop by touches: from the panel over dry, cup and glue-up, and back to the panel."""

import time

from bench.job.advice import advise
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench


def test_a_section_is_set_by_touches_and_the_next_one_follows_from_it(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        job, number = desk.job, advise(desk.job).section
        pieces = len(job.section(number).tesserae)
        for name in ("next", "as_drawn", "to_the_cup", "use_room", "read_it"):
            stage.tap(name)
        assert job.section(number).stage == "dry"
        stage.tap("first_contact")
        assert desk.screen == "glueup"
        assert job.life(number) == "wet"
        with stage.followed_by(job.clock.advance):
            stage.run(12 * 60, dt_s=5)
        stage.tap("done")
        stage.tap("all_placed")
        assert job.life(number) == "soft"
        assert job.mix(1).closed.placed == pieces
        until = time.monotonic() + 20
        while desk.dividing and time.monotonic() < until:
            time.sleep(0.01)
            stage.frame()
        desk.go("panel")
        stage.frame(2)
        following = advise(job).section
        assert following not in (None, number)
        assert stage.find("picture").next_number == following
        assert stage.find("undo").says.startswith(f"Section {number}: {pieces} pieces set")


def test_practice_says_so_on_every_screen(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        desk.practice = True
        for screen in ("dry", "book", "finish", "rounds", "panel"):
            desk.go(screen)
            desk.version += 1
            stage.frame(2)
            assert any(text.startswith("Practice") for text in stage.texts()), screen
