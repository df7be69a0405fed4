"""A painted study in a home of its own, its areas tapped and drawn on the hidden window."""

from PIL import Image

from bench.screens.offscreen import Stage
from tests.fakes.studies import BLUE, CREAM, YELLOW, lemon_labels, painted
from tests.fakes.tracing import begin, flow_of, furnished, rest

PX = (640, 800)
SIZE_MM = (160.0, 128.0)
WALL, CLOTH, LEMON = (20.0, 20.0), (20.0, 110.0), (80.0, 70.0)


def painted_home(folder, monkeypatch):
    """Make a folder the home, with a painted wall, cloth and lemon in it, and return it."""
    furnished(folder, monkeypatch)
    pixels = painted(lemon_labels(*PX), (CREAM, BLUE, YELLOW)).pixels
    Image.fromarray(pixels).save(folder / "Documents" / "study.png", dpi=(127, 127))
    return folder


def to_areas(stage: Stage, desk):
    """Go on with the painted study to its areas and return their step."""
    begin(stage, desk, "study", upto="kind")
    stage.tap("kind_study")
    rest(stage)
    return flow_of()._step


def place(stage: Stage, at_mm: tuple[float, float], picture: str = "areas") -> tuple[float, float]:
    """Return where a place of the panel lies on the window."""
    widget = stage.find(picture)
    x, y = widget.view.to_px(*at_mm)
    return widget.x + x, widget.y + y


def tap_area(stage: Stage, at_mm: tuple[float, float]) -> None:
    stage.tap_at(*place(stage, at_mm))
    stage.frame(2)


def draw(stage: Stage, points_mm, picture: str = "areas") -> None:
    first, *others = (place(stage, point, picture) for point in points_mm)
    finger = stage.touch(*first)
    for point in others:
        finger.slide(*point)
    finger.up()
    stage.run(0.5)


def named(stage: Stage, word: str) -> None:
    stage.tap("name")
    stage.tap(f"word_{word}")


def names(step) -> list[str]:
    return [region.name for region in step.study.regions]
