"""The screens in German: every word of the house is said so, and fits where the English one stood.

The words are looked for in the catalogue, so that a screen with a constant that was said too early, or with
a word that never passed through say although another screen says it, is found.
"""

from datetime import date

import pytest

from bench.screens.offscreen import Stage
from bench.speech import Tongue, speak, weekday_and_date
from tests.fakes.english import left_in_english
from tests.gallery.scenes import SCENES, SHORT, Scene
from tests.gallery.views import View, a_home, wrong_with

ALSO = {
    *("panel hand", "panel days", "panel mix runs", "glueup area", "glueup left"),
    *("first adhesive", "setup transfer", "cup hot"),
}


@pytest.fixture
def folder(tmp_path):
    speak(Tongue("de"))
    with a_home(tmp_path) as home:
        yield home
    speak(Tongue())


@pytest.mark.parametrize("scene", [s for s in SCENES if s.name in SHORT | ALSO], ids=lambda scene: scene.name)
def test_what_is_shown_is_german_and_fits(stage: Stage, folder, scene: Scene) -> None:
    wrong = {}
    with scene.begin(stage, folder) as desk:
        scene.reach(stage, desk)
        for view in (View("1280x800"), View("800x1280")):
            view.take(stage)
            wrong[str(view)] = wrong_with(stage)
        english = left_in_english(stage.texts())
        View("1280x800").take(stage)
    assert english == []
    assert {view: found for view, found in wrong.items() if found} == {}


def test_english_left_behind_is_found() -> None:
    assert left_in_english(["Elsewhere", "Section 7", "Abschnitt 7", "Anderswo", "Pause", "lemon"]) == [
        "Elsewhere",
        "Section 7",
    ]


def test_days_stand_in_german_order() -> None:
    assert weekday_and_date(date(2026, 3, 3)) == "Tuesday 3 March 2026"
    speak(Tongue("de"))
    try:
        assert weekday_and_date(date(2026, 3, 3)) == "Dienstag, 3. März 2026"
    finally:
        speak(Tongue())
