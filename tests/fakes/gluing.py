"""Steps at the glue-up that several tests take: a mix watched, minutes let go by, what is shown."""

from contextlib import contextmanager

from bench.job.advice import advise
from tests.fakes.benches import at_the_bench, changed, start_mix


@contextmanager
def gluing(stage, **how):
    """Stand at the glue-up: the next section's resin has just met its hardener; both clocks go together."""
    with at_the_bench(stage, **how) as desk, stage.followed_by(desk.job.clock.advance):
        watch(stage, desk, start_mix(desk.job, advise(desk.job).section))
        yield desk


def watch(stage, desk, mix: int) -> None:
    desk.go("glueup", mix=mix)
    changed(desk)
    stage.frame(4)


def minutes(stage, count: float) -> None:
    stage.run(60 * count, dt_s=15.0)


def mix_of(desk):
    return desk.job.mix(desk.mix)


def seconds_shown(stage) -> int:
    left, seconds = stage.find("time_left").text.split(":")
    return 60 * int(left) + int(seconds)


def desk_step(stage) -> str:
    steps = ("stir", "spread", "set", "clean")
    return next(name for name in steps if stage.find(f"step_{name}").tone == "act")


def back_to_work(stage, desk) -> None:
    desk.go("rounds")
    watch(stage, desk, desk.mix)


def tap_piece(stage, desk, tessera: int) -> None:
    picture = stage.find("picture")
    x, y = picture.view.to_px(*desk.job.panel.centroid_mm[tessera])
    stage.tap_at(*picture.to_window(picture.x + x, picture.y + y))
