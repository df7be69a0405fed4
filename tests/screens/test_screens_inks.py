"""Text stands on plates it can be read on, never on glass, a photo or grey; pictures lie on grey."""

import numpy as np
import pytest
from PIL import Image

from bench.screens.offscreen import Stage
from bench.screens.theme import LOOKS
from tests.fakes.inks import not_on_grey, unpaired, unpaired_while_pressed

GREY = (0x77, 0x77, 0x77)


def _on_a_plate(stage: Stage, *parts):
    from bench.screens.parts.plates import Plate

    plate = Plate()
    for part in parts:
        plate.add_widget(part)
    stage.show(plate)
    stage.frame(3)
    return plate


def _photo():
    from bench.screens.parts.photo import Photo

    photo = Photo()
    photo.show(np.full((60, 90, 3), 200, np.uint8))
    return photo


@pytest.mark.parametrize("look", LOOKS)
def test_ink_on_a_plate_is_nothing_to_complain_of(stage: Stage, look) -> None:
    from bench.screens.parts.acts import Act
    from bench.screens.parts.plates import SmallWords, Words
    from bench.screens.theme import theme

    theme.look = look
    _on_a_plate(stage, Words(text="Twelve pieces"), SmallWords(text="of glass"), Act(text="Go on"))
    assert unpaired(stage) == {}
    assert unpaired_while_pressed(stage) == {}


def test_text_on_a_photo_on_the_grey_or_in_a_colour_of_its_own_is_found(stage: Stage) -> None:
    from kivy.uix.floatlayout import FloatLayout

    from bench.screens.parts.plates import Words
    from bench.screens.theme import theme

    both = FloatLayout()
    both.add_widget(_photo())
    both.add_widget(Words(text="on a photo", size_hint=(0.2, 0.1), pos_hint={"center": (0.5, 0.5)}))
    stage.show(both)
    stage.frame(3)
    assert unpaired(stage)["on a photo"].endswith("on a picture")
    stage.clear()
    stage.show(Words(text="on the grey"))
    stage.frame(3)
    assert unpaired(stage)["on the grey"].endswith("on surround")
    stage.clear()
    words = Words(text="red")
    _on_a_plate(stage, words)
    words.color = (1, 0, 0, 1)
    assert unpaired(stage)["red"].startswith("1.00, 0.00, 0.00 on ")
    words.color = theme.surround
    assert unpaired(stage)["red"].startswith("surround on ")


def test_lesser_text_that_stays_quiet_under_a_finger_is_found(stage: Stage) -> None:
    from bench.screens.parts.choice import Choice
    from bench.screens.theme import theme

    choice = Choice(text="Kind", says="opaque")
    _on_a_plate(stage, choice)
    assert unpaired_while_pressed(stage) == {}
    lesser = next(part for part in choice.children if getattr(part, "text", "") == "opaque")
    choice.bind(pressed=lambda *_: setattr(lesser, "color", theme.quiet))
    assert unpaired_while_pressed(stage) == {"opaque": "quiet on held"}
    assert not choice.pressed


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("chosen", [False, True])
@pytest.mark.parametrize("size", [(140, 130), (500, 100)])
def test_the_name_of_a_glass_stands_beside_it(stage: Stage, look, chosen, size) -> None:
    from bench.screens.parts.tiles import GlassTile
    from bench.screens.theme import theme

    theme.look = look
    tile = GlassTile(text="dark sea green", chosen=chosen, size=size, size_hint=(None, None))
    tile.colour = (0.5, 0.5, 0.5, 1)
    stage.show(tile)
    stage.frame(4)
    assert unpaired(stage) == {}
    assert unpaired_while_pressed(stage) == {}


def test_a_picture_on_a_plate_is_found_and_one_on_grey_is_not(stage: Stage) -> None:
    photo = _photo()
    _on_a_plate(stage, photo)
    assert "plate" in not_on_grey(stage)["a picture"]
    photo.parent.remove_widget(photo)
    stage.clear()
    stage.show(photo)
    stage.frame(3)
    assert not_on_grey(stage) == {}


@pytest.mark.parametrize("look", LOOKS)
def test_grey_is_round_the_shades_of_glass(stage: Stage, tmp_path, look) -> None:
    from bench.screens.parts.shades import Shades
    from bench.screens.theme import theme

    theme.look = look
    shades = Shades(colours=[(1, 0, 0), (0, 1, 0)], size_hint_y=None, height=40)
    _on_a_plate(stage, shades)
    seen = Image.open(stage.picture(tmp_path / "seen.png"))
    x, y, right, top = (round(s) for s in (shades.x, shades.y, shades.right, shades.top))
    high = stage.window.height

    def at(px: float, py: float) -> tuple[int, ...]:
        return seen.getpixel((px, high - 1 - py))

    for spot in ((x + 4, y + 20), (right - 5, y + 20), (x + 100, y + 4), (right - 100, top - 5)):
        assert at(*spot) == GREY
    assert at(x + 100, y + 20) == (255, 0, 0)
    assert at(right - 100, y + 20) == (0, 255, 0)
