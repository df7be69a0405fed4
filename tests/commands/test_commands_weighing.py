"""`potwatch finish` on what a panel weighs, what bears it, and whether its board bends."""

import json
import math

import pytest

from tests.fakes.drawings import grid_svg

KEYS = {"joint_area_mm2", "joint_volume_cm3", "powder_g", "water_g", "glass_mass_g"}


@pytest.fixture
def grid(tmp_path):
    path = tmp_path / "grid.svg"
    path.write_bytes(grid_svg(40, 30))
    return path


def told(run, tmp_path, *line) -> dict:
    assert run("finish", *line, "--json", tmp_path / "f.json")[0] == 0
    return json.loads((tmp_path / "f.json").read_text())


def test_the_weight_has_its_spread_and_a_frame_counts(run, tmp_path, grid):
    bare = told(run, tmp_path, grid, "--backer-g-cm2", 1.2)
    framed = told(run, tmp_path, grid, "--backer-g-cm2", 1.2, "--frame-g", 900)
    assert framed["parts_g"]["frame"] == 900
    assert framed["weight_g"]["p50"] == pytest.approx(bare["weight_g"]["p50"] + 900)
    half = (framed["weight_g"]["p90"] - framed["weight_g"]["p10"]) / 2
    shares = {"glass": 0.07, "backer": 0.05, "grout": 0.15, "frame": 0.02}
    assert half == pytest.approx(math.hypot(*(s * framed["parts_g"][n] for n, s in shares.items())))
    wider = told(run, tmp_path, grid, "--backer-g-cm2", 1.2, "--spread", "backer=0.3")
    assert wider["weight_g"]["p90"] > bare["weight_g"]["p90"]


def test_without_a_word_on_weight_the_figures_are_those_of_the_joints(run, tmp_path, grid):
    assert set(told(run, tmp_path, grid)) == KEYS


def test_loads_are_reckoned_with_the_heavier_end(run, tmp_path, grid):
    found = told(run, tmp_path, grid, "--points", 4)
    assert found["load_each_g"] == pytest.approx(found["weight_g"]["p90"] / 4)
    assert found["load_worst_g"] == pytest.approx(found["weight_g"]["p90"] / 2)
    wired = told(run, tmp_path, grid, "--wire-angle", 30)
    assert wired["wire_tension_g"] == pytest.approx(wired["weight_g"]["p90"])  # sin 30° = 1/2
    hooked = told(run, tmp_path, grid, "--apart-mm", 120, "--hook-above-mm", 60)
    assert hooked["wire_tension_g"] == pytest.approx(hooked["weight_g"]["p90"] / math.sqrt(2))


def test_loads_and_a_board_that_bends_are_told_with_kg_lb_and_whose_duty_the_rest_is(run, grid):
    code, out, _ = run("finish", grid, "--backer-g-cm2", 1.5, "--points", 2, "--board-mm", 3)
    assert code == 0
    for words in (" kg (", " lb", "2 fixings carry", "joints will break", "from memory", "installer"):
        assert words in out
    assert "the bed is not counted" in out
    stiff = run("finish", grid, "--backer-g-cm2", 1.5, "--board-mm", 3, "--board-GPa", 200)[1]
    assert "stiff enough" in stiff


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--points", "0"), "hanging points: 0 cannot be; give 1 to 20"),
        (("--wire-angle", "0"), "wire angle: 0 cannot be; give 5 to 85 degrees"),
        (("--wire-angle", "90"), "wire angle: 90 cannot be"),
        (("--wire-angle", "nan"), "wire angle: nan cannot be"),
        (("--apart-mm", "100", "--hook-above-mm", "0"), "wire angle: 0 cannot be"),
        (("--apart-mm", "0", "--hook-above-mm", "50"), "distance of the rings: 0 cannot be"),
        (("--hook-above-mm", "50"), "give one of --wire-angle and --hook-above-mm"),
        (("--points", "2", "--apart-mm", "-4"), "distance of the hanging points: -4 cannot be"),
        (("--board-mm", "0"), "board thickness: 0 cannot be; give more than 0"),
        (("--board-mm", "5", "--board-GPa", "0"), "board stiffness: 0 cannot be"),
        (("--frame-g", "-1"), "--frame-g: -1 cannot be"),
        (("--spread", "glass"), "'glass' tells no spread"),
        (("--spread", "cheese=0.1"), "spread of cheese"),
        (("--spread", "glass=2"), "spread of glass: 2 cannot be"),
    ],
)
def test_what_cannot_be_is_said_in_one_line(refused, grid, more, said):
    assert said in refused("finish", grid, *more)
