"""Touches that many tests make: acts one after the other, a figure on the pad, a place on the panel."""

from bench.job.acts import dry
from bench.job.advice import advise
from tests.fakes.benches import changed


def tap_all(stage, *names: str) -> None:
    for name in names:
        stage.tap(name)


def on_pad(stage, figure: str) -> None:
    """Press the keys of a figure; a point or a comma is the key of the decimal mark."""
    tap_all(stage, *("pad_mark" if sign in ".," else f"pad_{sign}" for sign in figure))


def type_in(stage, figure: str) -> None:
    """Type a figure on the pad and use it."""
    on_pad(stage, figure)
    stage.tap("pad_use")


def at_mm(stage, x_mm: float, y_mm: float) -> tuple[float, float]:
    """Return where a point of the panel lies on the window."""
    picture = stage.find("picture")
    x, y = picture.view.to_px(x_mm, y_mm)
    return picture.x + x, picture.y + y


def work_for(stage, desk, minutes: float) -> None:
    """Let time go by, at the bench as on the stage."""
    with stage.followed_by(desk.job.clock.advance):
        stage.run(60 * minutes, dt_s=15)


def to_the_cup(stage, desk) -> int:
    """Go to the cup with the next section, laid as it is drawn; return its number."""
    number = advise(desk.job).section
    if desk.job.section(number).stage == "drawn":
        dry.lay(desk.job, number)
    desk.go("cup", section=number)
    changed(desk)
    stage.frame(4)
    return number


def to_the_scale(stage) -> None:
    tap_all(stage, "use_room", "read_it")


def pinch(stage, at: tuple[float, float], *, first_goes_on: bool = False) -> None:
    """Draw two fingers apart about a place of the window, the first lifted last.

    first_goes_on: it has drawn some way before the second comes, and goes on once that is up.
    """
    x, y = at
    first = stage.touch(x - 60, y)
    if first_goes_on:
        for step in range(1, 5):
            first.slide(x - 60 + 10 * step, y)
    second = stage.touch(x + 60, y)
    for step in range(1, 7):
        second.slide(x + 60 + 20 * step, y + 5 * step)
    second.up()
    if first_goes_on:
        first.slide(x - 50, y - 40)
    first.up()
    stage.run(0.5)
