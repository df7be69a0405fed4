"""The number pad on a low screen."""

import pytest

from bench.screens.offscreen import Stage
from tests.fakes.tongues import speaking

ROOM_PX = 456  # what 1024 x 600 leaves below the head


@pytest.mark.parametrize("language", ["en", "de"])
def test_it_has_room_on_a_low_screen_while_it_asks_for_a_number(stage: Stage, language: str) -> None:
    from bench.screens.widgets import NumberPad

    with speaking(language):
        pad = NumberPad(title="Thickness", unit="mm", low=True, size_hint=(None, None), width=900)
        stage.show(pad)
        stage.frame(4)
        assert pad.why_not
        assert pad.minimum_height <= ROOM_PX
        assert min(key.height for row in pad.ids.digits.children for key in row.children) >= 96
        assert pad.ids.use.height >= 96
        pad.type_sign("7")
        stage.frame(3)
        assert pad.minimum_height <= ROOM_PX
