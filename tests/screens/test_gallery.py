"""The gallery holds: no text cut or overlapping, targets for gloves, every letter there, ink on its plates.

Here every screen is looked at on a wide and on a tall tablet, and the bench's own, Dry, Cup and Glue-up, in
every size and with large text; `python -m tests.gallery` looks at all.
"""

from dataclasses import replace

import pytest

from bench.screens.house import SCREENS
from bench.screens.offscreen import Stage
from tests.fakes.gloves import too_close, too_small
from tests.fakes.inks import unpaired_while_pressed
from tests.fakes.tongues import STRETCHED, speaking
from tests.gallery.scenes import SCENES, SHORT, Scene
from tests.gallery.views import SIZES, View, a_home, views, wrong_with

BENCH = ("dry", "cup", "glueup")


@pytest.fixture
def folder(tmp_path):
    with a_home(tmp_path) as home:
        yield home


def test_every_screen_of_the_house_has_a_scene() -> None:
    assert {scene.screen for scene in SCENES} >= set(SCREENS)
    assert {name.partition(" ")[0] for name in SHORT} | {"photograph"} >= set(SCREENS)
    assert len({scene.name for scene in SCENES}) == len(SCENES)


@pytest.mark.parametrize("scene", [s for s in SCENES if s.name in SHORT], ids=lambda scene: scene.name)
def test_nothing_is_cut_overlapping_or_too_small_for_gloves(
    stage: Stage, folder, caplog, scene: Scene
) -> None:
    from bench.screens.theme import theme

    sizes = views(SIZES, ["right"], ["light"], [1.0, 1.5]) if scene.screen in BENCH else []
    usual = [View("1280x800"), View("800x1280", "left", "dark")]
    wrong, type_scale = {}, {}
    with scene.begin(stage, folder) as desk:
        scene.reach(stage, desk)
        for view in dict.fromkeys((*usual, *sizes)):
            view.take(stage)
            wrong[str(view)] = wrong_with(stage)
            if view in usual:
                wrong[f"{view}, pressed"] = unpaired_while_pressed(stage)
            type_scale[view] = view.text * theme.fit
            if scene.screen in BENCH:
                assert (too_small(stage), too_close(stage)) == ({}, {}), view
        View("1280x800").take(stage)
    assert {view: found for view, found in wrong.items() if found} == {}
    assert "too much iteration" not in caplog.text  # a layout that never comes to rest
    for view in sizes:  # who asks for large text must not get smaller
        assert type_scale[view] >= type_scale[replace(view, text=1.0)] - 1e-6, view


@pytest.mark.parametrize("scene", [s for s in SCENES if s.name in SHORT], ids=lambda scene: scene.name)
def test_sentences_a_third_longer_are_not_cut_either(stage: Stage, folder, scene: Scene) -> None:
    wrong = {}
    with speaking(STRETCHED), scene.begin(stage, folder) as desk:
        scene.reach(stage, desk)
        for view in (View("1280x800"), View("800x1280", "left", "dark")):
            view.take(stage)
            wrong[str(view)] = wrong_with(stage)
        View("1280x800").take(stage)
    assert {view: found for view, found in wrong.items() if found} == {}
