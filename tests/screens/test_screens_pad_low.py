"""The number pad on a low screen."""

import pytest

from bench.screens.offscreen import Stage
from tests.fakes.tongues import speaking

ROOM_PX = 456  # what 1024 x 600 leaves below the head


@pytest.mark.parametrize("language", ["en", "de"])
def test_it_has_room_on_a_low_screen_while_it_asks_for_a_number(stage: Stage, language: str) -> None:
    from bench.screens.widgets import NumberPad

    with speaking(language):
        pad = NumberPad(
            title="Thickness", unit="mm", low=True, beside=True, size_hint=(None, None), width=900
        )
        stage.show(pad)
        stage.frame(4)
        assert pad.why_not
        assert pad.minimum_height <= ROOM_PX
        assert min(key.height for row in pad.ids.digits.children for key in row.children) >= 96
        assert pad.ids.use.height >= 96
        pad.type_sign("7")
        stage.frame(3)
        assert pad.minimum_height <= ROOM_PX


def test_the_number_stands_below_its_title_wherever_that_has_room(stage: Stage) -> None:
    from bench.screens.parts.ask import AskNumber

    ask = AskNumber()
    stage.show(ask)
    ask.ask("How thick is the glass?", bool, unit="mm")
    for width, height, low, beside in (
        (1248, 656, False, True),
        (992, 456, True, True),
        (768, 1136, False, False),
    ):
        stage.resize(width, height)
        stage.frame(5)
        pad = stage.find("pad")
        assert (pad.low, pad.beside) == (low, beside), (width, height)
        assert pad.top <= ask.top + 1
        assert min(pad.y, stage.find("pad_leave").y) >= ask.y - 1
    stage.resize(1280, 800)
