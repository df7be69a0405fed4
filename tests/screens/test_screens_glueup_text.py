"""However large text is set, the time left stays the largest thing at the glue-up and loses nothing to it."""

import pytest

from bench.screens.offscreen import Stage
from tests.fakes.gloves import complaints
from tests.fakes.gluing import gluing, minutes
from tests.fakes.tongues import speaking
from tests.gallery.views import View

SCALES = (0.85, 1.0, 1.25, 1.5)


def _largest(stage: Stage) -> float:
    return max(w.font_size for w in stage.widgets() if hasattr(w, "font_size") and w.text)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("at_min", [0.5, 3, 26])
def test_larger_text_never_makes_the_time_smaller(stage: Stage, language: str, at_min: float) -> None:
    with speaking(language), gluing(stage):
        minutes(stage, at_min)
        for size in ("1280x800", "800x1280", "1024x600"):
            px = {}
            for scale in SCALES:
                View(size, text=scale).take(stage)
                px[scale] = stage.find("time_left").font_size
                assert px[scale] == _largest(stage), (size, scale)
                assert complaints(stage) == {}, (size, scale)
            assert px[1.0] <= min(px[1.25], px[1.5]), (size, px)
        View("1280x800").take(stage)


def test_keys_and_advice_are_larger_with_larger_text_where_they_have_the_room(stage: Stage) -> None:
    with gluing(stage):
        usual, large = {}, {}
        for px, scale in ((usual, 1.0), (large, 1.5)):
            View("1280x800", text=scale).take(stage)
            px |= {name: stage.find(name).type_px for name in ("step_set", "pause", "late")}
        assert all(large[name] >= usual[name] for name in usual)
        assert large["step_set"] >= 1.4 * usual["step_set"]
        View("1280x800").take(stage)
