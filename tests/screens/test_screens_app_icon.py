"""The app's own sign on the window."""

from pathlib import Path

import numpy as np
from PIL import Image

from bench.resources import resource
from bench.screens.offscreen import Stage
from tests.tools.app_icon import HOURS, SIZE_PX, picture

SHIPPED = resource("assets", "icons", "potwatch.png")


def test_the_shipped_sign_is_what_the_tool_makes() -> None:
    """Dots may differ by rounding from one machine's sine to another's."""
    with Image.open(SHIPPED) as file:
        assert (file.size, file.mode) == ((SIZE_PX, SIZE_PX), "RGBA")
        shipped = np.asarray(file, dtype=int)
    assert np.abs(shipped - np.asarray(picture(), dtype=int)).max() <= 2


def test_the_sign_is_a_watch_of_tesserae_still_told_apart_at_48_dots() -> None:
    with Image.open(SHIPPED) as file:
        small = np.asarray(file.resize((48, 48), Image.Resampling.LANCZOS).convert("L"), dtype=float)
    angles = np.radians(np.arange(0, 360, 2))
    rows, columns = (np.round(23.5 + 17 * turn(angles)).astype(int) for turn in (np.sin, np.cos))
    ring = small[rows, columns]
    light = ring > 40  # the plate is near black, pieces that are gone a dark grey
    assert np.count_nonzero(np.diff(np.append(light, light[0]).astype(int)) == 1) == HOURS


def test_the_app_shows_it(stage: Stage, desk) -> None:
    from bench.app import bench_app

    assert Path(bench_app(desk.job).icon) == SHIPPED
