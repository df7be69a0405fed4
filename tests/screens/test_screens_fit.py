"""Type that yields: where a screen does not hold its words they are set smaller, and only there."""

import pytest
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.label import Label

from bench.screens.fit import LEAST_SCALE, SETTLED, SETTLING, Fit, overflows
from bench.screens.offscreen import Stage
from bench.screens.parts.acts import SideAct
from bench.screens.parts.choice import Choice
from bench.screens.parts.fitting import word_px
from bench.screens.parts.plates import Words
from bench.screens.theme import theme
from tests.fakes.tongues import STRETCHED, speaking
from tests.gallery.scenes import SCENES, SHORT, Scene
from tests.gallery.views import SIZES, View, a_home

ENOUGH_FRAMES = SETTLED + 12 * SETTLING
LINE_PX = 41  # of reading text at the usual size


class Sheet(BoxLayout):
    """A sheet of a height that does not follow its words."""

    def __init__(self, words: str, lines: float, width_px: int = 600) -> None:
        super().__init__(size_hint=(None, None), size=(width_px, lines * LINE_PX))
        self.words = Words(text=words, kind="text", pos_hint={"top": 1})
        self.add_widget(self.words)


def _looked_at(stage: Stage, sheet: Sheet, name: str = "a") -> Fit:
    stage.show(sheet)
    fit = Fit(sheet)
    fit.turned(name)
    stage.frame(ENOUGH_FRAMES)
    return fit


LONG = "Lay the pieces of the next section on the film, count them, and say how many there are of each glass."


def test_words_that_fit_stay_as_large_as_was_chosen(stage: Stage) -> None:
    sheet = Sheet(LONG, lines=6)
    _looked_at(stage, sheet)
    assert theme.fit == 1.0
    assert not overflows(sheet)


def test_type_yields_where_a_long_sentence_does_not_fit_and_no_more_than_it_must(stage: Stage) -> None:
    theme.text_scale = 1.5
    sheet = Sheet(LONG, lines=4.2)
    stage.show(sheet)
    assert overflows(sheet)
    _looked_at(stage, sheet)
    assert not overflows(sheet)
    fitted = theme.fit
    assert LEAST_SCALE / 1.5 < fitted < 1.0
    theme.fit = fitted / 0.94
    stage.frame(2)
    assert overflows(sheet)


@pytest.mark.parametrize("scale", [0.85, 1.0, 1.25, 1.5])
def test_it_never_becomes_smaller_than_the_smallest_that_can_be_chosen(stage: Stage, scale: float) -> None:
    theme.text_scale = scale
    _looked_at(stage, Sheet(LONG, lines=1))
    assert theme.fit * scale == pytest.approx(LEAST_SCALE, abs=0.002)


@pytest.mark.parametrize("lines", [5.2, 4.2, 3.2, 2.6])
def test_large_text_that_yields_ends_where_usual_text_does(stage: Stage, lines: float) -> None:
    """With steps of its own it could fall short of what usual text comes to."""
    ends = {}
    for scale in (1.0, 1.25, 1.5):
        theme.text_scale = scale
        _looked_at(stage, Sheet(LONG, lines=lines), f"{scale} {lines}")
        ends[scale] = theme.fit * scale
    assert ends[1.25] == pytest.approx(ends[1.5])
    assert ends[1.5] >= ends[1.0] - 1e-9
    assert ends[1.5] == pytest.approx(ends[1.0]) or ends[1.0] == 1.0


def test_it_grows_again_with_the_next_screen_and_what_fitted_is_remembered(stage: Stage) -> None:
    theme.text_scale = 1.5
    sheet = Sheet(LONG, lines=4.2)
    fit = _looked_at(stage, sheet, "first")
    fitted = theme.fit
    sheet.words.text = "Laid."
    fit.turned("second")
    stage.frame(ENOUGH_FRAMES)
    assert theme.fit == 1.0
    fit.turned("first")
    assert theme.fit == fitted < 1.0


def test_it_begins_anew_with_another_size_of_the_window_or_of_text(stage: Stage) -> None:
    theme.text_scale = 1.5
    sheet = Sheet(LONG, lines=4.2)
    fit = _looked_at(stage, sheet)
    assert theme.fit < 1.0
    sheet.height *= 3
    fit.turned("a")
    stage.frame(ENOUGH_FRAMES)
    assert theme.fit == 1.0


def test_a_word_that_would_be_broken_makes_it_yield_too(stage: Stage) -> None:
    theme.text_scale = 1.5
    sheet = Sheet("Sicherheitsdatenblatt", lines=8, width_px=440)
    _looked_at(stage, sheet)
    assert theme.fit < 1.0
    assert sheet.words.texture_size[1] < 2 * sheet.words.font_size


@pytest.mark.parametrize("word", ["Zählen", "Anderswo", "Elsewhere", "Recount"])
def test_a_key_of_any_width_holds_its_word_whole(stage: Stage, word: str) -> None:
    """Small type is a little wider than larger type foretells: a word must not break for a pixel."""
    View("1280x800", text=1.5).take(stage)
    for extra_px in range(8, 100):
        key = SideAct(text=word, roomy=False, size_hint_x=None, width=theme.target + extra_px)
        stage.show(key)
        assert not overflows(key), (word, key.width, key.type_px)
    View("1280x800").take(stage)


def test_what_is_pushed_out_of_its_place_is_seen(stage: Stage) -> None:
    sheet = BoxLayout(orientation="vertical", size_hint=(None, None), size=(300, 100))
    for _ in range(2):
        sheet.add_widget(BoxLayout(size_hint_y=None, height=80))
    stage.show(sheet)
    assert overflows(sheet)
    sheet.height = 160
    stage.frame(2)
    assert not overflows(sheet)


def test_a_picture_is_not_left_with_a_strip_by_the_card_of_a_mistake(stage: Stage, tmp_path) -> None:
    mistake = next(s for s in SCENES if s.name == "panel mistake")
    with a_home(tmp_path), mistake.begin(stage, tmp_path) as desk:
        mistake.reach(stage, desk)
        for size in ("1280x800", "800x1280", "1024x600"):
            View(size, text=1.5).take(stage)
            stage.frame(ENOUGH_FRAMES)
            pictures = [w for w in stage.widgets() if type(w).__name__ == "PanelPicture"]
            assert all(picture.height >= theme.target for picture in pictures), size
            assert "Section 7 lies beside section 4, which is not firm" in stage.texts()
        stage.tap("fault_act")
        stage.frame(ENOUGH_FRAMES)
        assert "picture" in stage.names()
        View("1280x800").take(stage)


@pytest.mark.parametrize("name", ["panel section", "dry lay", "dry to go"])
def test_on_a_tall_screen_large_words_leave_the_picture_the_height_of_three_targets(
    stage: Stage, tmp_path, name: str
) -> None:
    scene = next(s for s in SCENES if s.name == name)
    with speaking(STRETCHED), a_home(tmp_path), scene.begin(stage, tmp_path) as desk:
        scene.reach(stage, desk)
        View("800x1280", text=1.5).take(stage)
        stage.frame(ENOUGH_FRAMES)
        (picture,) = [w for w in stage.widgets() if type(w).__name__ == "PanelPicture"]
        assert picture.height >= 3 * theme.target
        View("1280x800").take(stage)


@pytest.mark.parametrize(("room", "says"), [(1.1, "Placed"), (0.8, "")])
def test_a_narrow_choice_is_named_whole_at_the_usual_size_and_alone_where_it_wraps(
    stage: Stage, room: float, says: str
) -> None:
    View("1280x800", text=1.5).take(stage)
    usual_px = theme.text / theme.beyond
    choice = Choice(text="Take back", says="Placed", terse=True, size_hint_x=None)
    choice.width = 2 * theme.pad + room * usual_px * word_px("Take back", bold=True)
    stage.show(choice)
    stage.frame(2)
    name, below = (label for label in reversed(choice.children) if isinstance(label, Label))
    assert usual_px - 1 < name.font_size < 1.1 * usual_px + 1
    assert below.text == says
    assert not overflows(choice)
    choice.terse = False
    stage.frame(2)
    assert below.text == "Placed"
    View("1280x800").take(stage)


@pytest.mark.parametrize(
    ("says", "told"),
    [
        ("Section 1: 79 pieces set in 15:00, all placed", "Section 1: 79 pieces set in 15:00"),
        ("Section 1: so many pieces that no line holds them, placed", "Section 1"),
        ("a sentence in one clause that no such line can hold", ""),
        ("Cobalt sheet", "Cobalt sheet"),
    ],
)
def test_a_terse_choice_says_whole_clauses_or_nothing(stage: Stage, says: str, told: str) -> None:
    choice = Choice(text="Take back", says=says, terse=True, size_hint_x=None)
    choice.width = 2 * theme.pad + 36 * 0.5 * theme.small
    stage.show(choice)
    stage.frame(2)
    below = next(label for label in choice.children if isinstance(label, Label))
    assert below.text == told
    assert not below.is_shortened
    choice.lines = 2
    assert choice.told == says


def test_a_label_without_words_is_held_by_any_place(stage: Stage) -> None:
    label = Label(text="", size_hint=(None, None), size=(0, 0))
    stage.show(label)
    assert not overflows(label)


@pytest.mark.parametrize("scene", [s for s in SCENES if s.name in SHORT], ids=lambda scene: scene.name)
def test_nothing_yields_in_english_at_the_usual_size(stage: Stage, tmp_path, scene: Scene) -> None:
    fits = {}
    with a_home(tmp_path), scene.begin(stage, tmp_path) as desk:
        scene.reach(stage, desk)
        for size in (size for size in SIZES if size != "1024x600"):
            View(size).take(stage)
            stage.frame(ENOUGH_FRAMES)
            fits[size] = theme.fit
        View("1280x800").take(stage)
    assert set(fits.values()) == {1.0}, fits
