"""Kivy's own looks are not read; what the screens use of them is in kv/base.kv, and looks the same."""

import pkgutil
import re
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import numpy as np
from PIL import Image

import bench.screens
from bench.resources import resource
from bench.screens.base_looks import BASE
from bench.screens.offscreen import Stage

RULE = re.compile(r"^<([^>]+)>", re.MULTILINE)
CHILD = re.compile(r"^ +([A-Z]\w*):", re.MULTILINE)
MADE = re.compile(r"^<\w+@(\w+)", re.MULTILINE)


def named(kv: str) -> set[str]:
    """Return the classes that the rules of a kv file are for, those made by a rule left out."""
    names = (name.strip().lstrip("-") for rule in RULE.findall(kv) for name in rule.split(","))
    return {name for name in names if "@" not in name}


def test_kivy_reads_ours_and_not_its_own(stage: Stage) -> None:
    from kivy import kivy_data_dir
    from kivy.lang import Builder

    assert str(resource("kv", BASE)) in Builder.files
    assert str(Path(kivy_data_dir) / "style.kv") not in Builder.files


def test_no_widget_of_the_screens_lacks_the_looks_that_kivy_has_for_it(stage: Stage) -> None:
    """Whether a class derives from it, a rule puts it on a screen, or a rule makes a class of it."""
    from kivy import kivy_data_dir
    from kivy.uix.widget import Widget

    for module in pkgutil.walk_packages(bench.screens.__path__, "bench.screens."):
        import_module(module.name)

    def all_below(kind: type) -> set[type]:
        return {kind}.union(*(all_below(below) for below in kind.__subclasses__()))

    ours = [kind for kind in all_below(Widget) if kind.__module__.startswith("bench.")]
    bases = {base.__name__ for kind in ours for base in kind.__mro__ if base.__module__.startswith("kivy.")}
    rules = "\n".join(path.read_text(encoding="utf-8") for path in resource("kv").glob("*.kv"))
    put_in, made = set(CHILD.findall(rules)), set(MADE.findall(rules))
    of_kivy = named((Path(kivy_data_dir) / "style.kv").read_text(encoding="utf-8"))
    assert {"Label", "Image"} <= (bases | put_in) & of_kivy
    assert (bases | put_in) & of_kivy <= named(resource("kv", BASE).read_text(encoding="utf-8"))
    assert made & of_kivy == {"TextInput"}  # the field of a note, which draws its own sheet and cursor


def test_the_field_of_a_note_is_a_sheet_with_a_cursor_and_ink(stage: Stage, desk, tmp_path: Path) -> None:
    from bench.screens.theme import theme

    desk.go("book")
    stage.frame(3)
    stage.tap("write_note")
    stage.frame(3)
    field = stage.find("note_field")
    field.text = "cold"
    stage.frame(3)
    seen = np.asarray(Image.open(stage.picture(tmp_path / "note.png")))[::-1]
    x, y, width, height = (round(value) for value in (*field.pos, *field.size))
    sheet = seen[y : y + height, x : x + width].reshape(-1, 3)
    colours = {name: np.round(np.array(getattr(theme, name)[:3]) * 255) for name in ("plate", "ink")}
    share = {name: float(np.mean((np.abs(sheet - rgb) < 2).all(axis=1))) for name, rgb in colours.items()}
    assert share["plate"] > 0.95
    assert share["ink"] > 0.0005
    cursor = seen[round(field._cursor_visual_pos[1]) - 5, round(field._cursor_visual_pos[0]) + 1]
    assert field.focus
    assert np.abs(cursor - colours["plate" if field._cursor_blink else "ink"]).max() < 2


PICTURE = """
import sys
from pathlib import Path
from bench.screens import hidden_window
hidden_window.prepare(base_looks=sys.argv[1] == "ours")
from bench.screens.offscreen import Stage
stage = Stage()
from kivy.graphics.texture import Texture
from kivy.uix.floatlayout import FloatLayout
from kivy.uix.image import Image
from kivy.uix.label import Label
texture = Texture.create(size=(4, 2))
texture.blit_buffer(bytes(range(24)), colorfmt="rgb")
box = FloatLayout()
box.add_widget(Label(text="Glue", font_size=90, size_hint=(0.5, 0.5)))
box.add_widget(Image(texture=texture, color=(1, 0.5, 1, 0.7), size_hint=(0.4, 0.4), pos=(700, 60)))
stage.window.add_widget(box)
stage.frame(3)
stage.picture(Path(sys.argv[2]))
"""


def test_they_look_as_they_do_with_kivys_own(tmp_path: Path) -> None:
    seen = []
    for whose in ("ours", "kivys"):
        place = tmp_path / f"{whose}.png"
        done = subprocess.run(
            [sys.executable, "-c", PICTURE, whose, str(place)], capture_output=True, text=True, timeout=120
        )
        assert done.returncode == 0, done.stderr[-2000:]
        seen.append(place.read_bytes())
    assert seen[0] == seen[1]
    assert len(seen[0]) > 2000  # something is on it
