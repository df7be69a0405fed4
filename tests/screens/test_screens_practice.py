"""Practice without a display: a picture of each moment, and no trace of anything else."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from bench.screens.hidden_window import NoHiddenWindow
from bench.screens.offscreen import Stage
from bench.screens.practice import MovedClock, PicturesNotWritable, practise_offscreen
from tests.fakes.drawings import grid_svg

HOUSE = Path(__file__).resolve().parents[2]


def files(folder: Path) -> set[str]:
    return {str(path.relative_to(folder)) for path in folder.rglob("*")}


def look(path: Path) -> tuple[tuple[int, int], bytes]:
    """A picture's size and its pixels."""
    with Image.open(path) as image:
        return image.size, image.tobytes()


def test_a_whole_glue_up_leaves_a_numbered_picture_of_each_moment(stage: Stage, tmp_path, capsys) -> None:
    paths = practise_offscreen(grid_svg(24, 12), "grid.svg", tmp_path / "out", seed=1)
    assert [path.name for path in paths] == sorted(path.name for path in (tmp_path / "out").iterdir())
    order = [path.stem.split("-")[1] for path in paths]
    assert list(dict.fromkeys(order)) == ["panel", "dry", "cup", "glueup"]
    assert order[-1] == "panel"
    assert {look(path)[0] for path in paths} == {(1280, 800)}
    told = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in told] == [path.name for path in paths]
    assert any("All placed" in line for line in told)


def test_the_three_steps_at_the_cup_are_three_different_pictures(stage: Stage, tmp_path) -> None:
    paths = practise_offscreen(grid_svg(24, 12), "grid.svg", tmp_path, seed=1)
    cups = [look(path)[1] for path in paths if path.stem.endswith("cup")]
    assert len(cups) == len(set(cups)) == 3


def test_the_same_seed_plays_the_same_glue_up(stage: Stage, tmp_path, capsys) -> None:
    told = []
    for folder in ("a", "b"):
        practise_offscreen(grid_svg(12, 12), "grid.svg", tmp_path / folder, seed=4)
        told.append(capsys.readouterr().out)
    assert told[0] == told[1]


@pytest.mark.slow
def test_the_command_makes_no_file_but_the_pictures(tmp_path: Path) -> None:
    """No data folder, no log, no cache: everything a home may hold is looked at afterwards."""
    home, out = tmp_path / "home", tmp_path / "pictures"
    home.mkdir()
    drawing = tmp_path / "grid.svg"
    drawing.write_bytes(grid_svg(12, 12))
    names = ("HOME", "TMPDIR", "XDG_CACHE_HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "POTWATCH_HOME")
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("KIVY", "SDL"))}
    env = {**kept, **{name: str(home) for name in names}, "PYTHONPATH": str(HOUSE)}
    command = [sys.executable, "-m", "bench", "practice", "--drawing", str(drawing), "--pictures", str(out)]
    done = subprocess.run(command, env=env, cwd=tmp_path, capture_output=True, text=True, timeout=180)
    assert (done.returncode, done.stderr) == (0, "")
    assert files(home) == set()
    assert files(tmp_path) - {"home", "pictures", "grid.svg"} == {f"pictures/{x}" for x in files(out)}
    assert len(files(out)) >= 10


def test_a_folder_that_cannot_be_written_is_told_before_anything_is_drawn(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("not a folder")
    with pytest.raises(PicturesNotWritable, match="give a folder"):
        practise_offscreen(grid_svg(4, 4), "grid.svg", blocked / "pictures", seed=0)
    with pytest.raises(PicturesNotWritable):
        practise_offscreen(grid_svg(4, 4), "grid.svg", blocked, seed=0)
    assert blocked.read_text() == "not a folder"


def test_a_folder_given_in_a_path_that_may_not_be_made_ends_in_one_line(tmp_path: Path, capsys) -> None:
    from bench.commands import main

    blocked = tmp_path / "file"
    blocked.write_text("not a folder")
    assert main(["practice", "--pictures", str(blocked / "x")]) == 1
    err = capsys.readouterr().err
    assert len(err.splitlines()) == 1
    assert "give a folder" in err


def test_missing_drawing_libraries_are_named(tmp_path: Path) -> None:
    """The window cannot be opened: the message names Debian's packages and nothing is left behind."""
    script = (
        "import sys\n"
        "from bench.screens import hidden_window\n"
        "hidden_window.prepare()\n"
        "import kivy.core.window as window\n"
        "window.Window = None\n"
        "from bench.commands import main\n"
        f"sys.exit(main(['practice', '--drawing', {str(tmp_path / 'g.svg')!r}, "
        f"'--pictures', {str(tmp_path / 'out')!r}]))\n"
    )
    (tmp_path / "g.svg").write_bytes(grid_svg(6, 6))
    env = {**os.environ, "PYTHONPATH": str(HOUSE), "TMPDIR": str(tmp_path)}
    done = subprocess.run(
        [sys.executable, "-c", script], env=env, capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 1
    assert "libegl1, libgl1 and libgl1-mesa-dri" in done.stderr.splitlines()[-1]
    assert "Traceback" not in done.stderr
    assert NoHiddenWindow("no window").todo.startswith("install the packages")


def test_the_clock_of_practice_goes_on_only_when_it_is_moved() -> None:
    from datetime import UTC, datetime

    clock = MovedClock(datetime(2026, 5, 4, tzinfo=UTC))
    before = clock.utc(), clock.boot_s()
    assert before == (clock.utc(), clock.boot_s())
    clock.advance(90)
    assert ((clock.utc() - before[0]).total_seconds(), clock.boot_s() - before[1]) == (90, 90)
