"""Picture every view of every screen and say what is wrong with any: `python -m tests.gallery FOLDER`.

Every scene is played once in each language and looked at in each size, hand, look and size of text. A
contact sheet is written for each screen, `FOLDER/SCREEN.png`; `--whole` keeps the pictures too. What a
glove or an eye finds wrong is printed, and counted at the end.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections import Counter
from itertools import product
from pathlib import Path
from typing import Any

from bench.screens import hidden_window, offscreen
from bench.speech import LANGUAGES

hidden_window.prepare()

from tests.fakes.tongues import SPOKEN, speaking  # noqa: E402
from tests.gallery.scenes import SCENES, Scene  # noqa: E402
from tests.gallery.sheet import sheet, thumb  # noqa: E402
from tests.gallery.views import HANDS, LOOKS, SIZES, TEXTS, View, a_home, views, wrong_with  # noqa: E402


def look_at(
    stage: Any, scene: Scene, how: list[View], folder: Path, *, language: str, whole: bool
) -> tuple[list, Counter]:
    """Play a scene and look at it in these views; return captioned thumbs and complaints by kind."""
    called = scene.name if language == "en" else f"{scene.name} ({language})"
    thumbs, wrong = [], Counter[str]()
    with (
        speaking(language),
        tempfile.TemporaryDirectory() as home,
        a_home(Path(home)),
        scene.begin(stage, Path(home)) as desk,
    ):
        scene.reach(stage, desk)
        for view in how:
            view.take(stage)
            picture = stage.picture(folder / scene.screen / f"{called} {view}.png".replace(" ", "_"))
            thumbs.append((f"{called}, {view}", thumb(picture)))
            if not whole:
                picture.unlink()
            for what, which in wrong_with(stage).items():
                wrong[what] += 1
                print(f"{called}, {view}: {what}: {which}", flush=True)
        View("1280x800").take(stage)
    return thumbs, wrong


def _asked(argv: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.gallery", description=__doc__.partition("\n")[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--only", nargs="+", default=[], help="what a scene's name begins with")
    parser.add_argument("--sizes", nargs="+", choices=SIZES, default=list(SIZES))
    parser.add_argument("--hands", nargs="+", choices=HANDS, default=HANDS)
    parser.add_argument("--looks", nargs="+", choices=LOOKS, default=LOOKS)
    parser.add_argument("--texts", nargs="+", type=float, default=TEXTS)
    parser.add_argument("--languages", nargs="+", choices=SPOKEN, default=list(LANGUAGES))
    parser.add_argument("--whole", action="store_true", help="keep every picture at its full size")
    return parser.parse_args(argv)


def main(argv: list[str]) -> int:
    asked = _asked(argv)
    scenes = [s for s in SCENES if not asked.only or any(s.name.startswith(name) for name in asked.only)]
    how = views(asked.sizes, asked.hands, asked.looks, asked.texts)
    stage = offscreen.Stage()
    wrong, unreached = Counter[str](), []
    for screen in dict.fromkeys(scene.screen for scene in scenes):
        page = []
        for scene, language in product((s for s in scenes if s.screen == screen), asked.languages):
            try:
                thumbs, found = look_at(stage, scene, how, asked.folder, language=language, whole=asked.whole)
            except (offscreen.NotOnScreen, AssertionError) as lost:
                unreached.append(f"{scene.name} {language}")
                print(f"{unreached[-1]}: not reached: {lost}", flush=True)
                continue
            page += thumbs
            wrong += found
        if page:
            sheet(page).save(asked.folder / f"{screen}.png")
    played = len(scenes) * len(asked.languages)
    print(f"{played - len(unreached)} of {played} scenes in {len(how)} views each: ", end="")
    print(", ".join(f"{what} {count}" for what, count in wrong.items()) or "nothing to complain of")
    return 1 if wrong or unreached else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
