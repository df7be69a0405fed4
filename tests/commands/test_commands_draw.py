"""`draw`: the drawing again in mm, with the sections of its plan; a plan of another drawing is refused."""

import json

import pytest

from bench.drawing.load import load_drawing
from tests.fakes.drawings import grid_svg


@pytest.fixture
def drawing(tmp_path):
    path = tmp_path / "grid.svg"
    path.write_bytes(grid_svg(12, 8))
    return path


def test_a_drawing_is_written_with_the_sections_of_its_plan(run, drawing, tmp_path):
    plan, out = tmp_path / "plan.json", tmp_path / "out.svg"
    assert run("plan", drawing, "--pace", 2, "--json", plan)[0] == 0
    assert run("draw", drawing, "--svg", out, "--plan", plan) == (0, "", "")
    _, panel = load_drawing(drawing)
    _, again = load_drawing(out)
    assert again.ids == panel.ids
    assert again.area_mm2 == pytest.approx(panel.area_mm2, abs=0.01)
    told, text = json.loads(plan.read_text()), out.read_text()
    assert len(told["sections"]) > 1
    for section in told["sections"]:
        assert text.count(f'data-section="{section["number"]}"') == section["tessera_count"]


def test_a_drawing_is_rescaled_to_its_true_width(run, drawing, tmp_path):
    out = tmp_path / "out.svg"
    assert run("draw", drawing, "--svg", out, "--width-mm", 250) == (0, "", "")
    assert load_drawing(out)[1].width_mm == pytest.approx(250)


@pytest.mark.parametrize(
    ("plan", "said"),
    [
        (b"[1, 2", "no plan"),
        (b"\xff\xfe\x00", "no plan"),
        (b'{"tesserae": 5}', "no plan"),
        (b'{"tesserae": [{"id": "x", "section": "one"}]}', "no plan"),
        (b'{"tesserae": [{"id": "x", "section": 1e999}]}', "no plan"),
        (b"[" * 100_000, "no plan"),
        (b'{"tesserae": [{"id": "x", "section": 1}]}', "another drawing"),
        (None, "cannot be opened"),
    ],
)
def test_what_is_no_plan_of_this_drawing_is_told_in_one_line(refused, drawing, tmp_path, plan, said):
    path = tmp_path / "plan.json"
    if plan is not None:
        path.write_bytes(plan)
    out = tmp_path / "out.svg"
    assert said in refused("draw", drawing, "--svg", out, "--plan", path)
    assert not out.exists()
