"""`potwatch plan`: table, JSON and picture agree, and keep what the plan file promises."""

import json
import re

import jsonschema
import networkx as nx
import numpy as np
import pytest
from PIL import Image

from bench.drawing import figures
from bench.drawing.load import load_drawing
from bench.resources import resource
from tests.fakes.drawings import grid_svg

SCHEMA = json.loads(resource("shared", "plan.schema.json").read_text())


@pytest.fixture(scope="module")
def foot_square(tmp_path_factory):
    """304.8 mm square, 2,000 equal tesserae: 40 × 50, drawn with joints of 0.8 mm."""
    path = tmp_path_factory.mktemp("foot") / "foot.svg"
    columns, rows = 40, 50
    pitch_x, pitch_y, joint = 304.8 / columns, 304.8 / rows, 0.8
    shapes = "".join(
        f'<rect x="{c * pitch_x + joint / 2:.4f}" y="{r * pitch_y + joint / 2:.4f}" '
        f'width="{pitch_x - joint:.4f}" height="{pitch_y - joint:.4f}" fill="#46627f"/>'
        for r in range(rows)
        for c in range(columns)
    )
    path.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="304.8mm" height="304.8mm" '
        f'viewBox="0 0 304.8 304.8">{shapes}</svg>'
    )
    return path


def planned(run, *argv):
    code, out, err = run("plan", *argv, "--json", "-")
    assert (code, err) == (0, "")
    plan = json.loads(out)
    jsonschema.validate(plan, SCHEMA)
    return plan


@pytest.mark.parametrize("prefer", ["forms", "fewest"])
def test_a_foot_square_comes_out_as_the_trade_knows_it(run, foot_square, prefer):
    """2,000 pieces, 25 minutes, 5 a minute: 18 to 32 sections of 4 to 12 g, 100 to 250 g in all.

    Common practice, no source.
    """
    plan = planned(run, foot_square, "--pace", 5, "--working-time", 25, "--prefer", prefer)
    assert plan["panel"]["tessera_count"] == 2000
    sections = plan["sections"]
    assert 18 <= len(sections) <= 32
    grams = [s["batch"]["total_g"] for s in sections]
    assert min(grams) >= 4 * 0.5  # a last, smaller section may stay below
    assert np.median(grams) >= 4
    assert max(grams) <= 12
    assert 100 <= sum(grams) <= 250


def test_every_section_keeps_the_hard_rules_judged_from_the_file_alone(run, demo):
    plan = planned(run, demo, "--pace", 5)
    _, panel = load_drawing(demo)
    graph = nx.Graph(panel.joints.pair.tolist())
    where = {t["id"]: t for t in plan["tesserae"]}
    assert list(where) == list(panel.ids)
    for section in plan["sections"]:
        members = [k for k, i in enumerate(panel.ids) if where[i]["section"] == section["number"]]
        assert len(members) == section["tessera_count"]
        assert nx.is_connected(graph.subgraph(members))
        expected_s = sum(where[panel.ids[k]]["expected_s"] for k in members)
        assert expected_s == pytest.approx(section["expected_s"])
        assert expected_s <= section["capacity_s"] * (1 + 1e-9)
        assert section["in_time"] >= plan["assumptions"]["sure"] - 1e-9
        assert len({panel.adhesive[k] for k in members}) == 1
    assert len(plan["sections"]) <= np.ceil(1.1 * plan["lower_bound"])


def test_the_parts_of_the_working_time_add_up(run, demo):
    given = planned(run, demo, "--pace", 5)["assumptions"]
    parts = ("stir_s", "spread_s", "capacity_s", "clean_s", "reserve_s")
    assert sum(given[p] for p in parts) == pytest.approx(given["working_time_s"])


def test_table_json_and_picture_agree(run, demo, tmp_path):
    picture, file = tmp_path / "plan.png", tmp_path / "plan.json"
    code, out, err = run("plan", demo, "--pace", 5, "--json", file, "--picture", picture)
    assert (code, err) == (0, "")
    plan = json.loads(file.read_text())
    rows = [line.split() for line in out.splitlines() if line[:1].isdigit()]
    table = {int(r[0]): int(r[1]) for r in rows if r[1].isdigit()}
    assert table == {s["number"]: s["tessera_count"] for s in plan["sections"]}
    image = Image.open(picture).convert("RGB")
    assert image.width / image.height > 360 / 270  # the figures stand to its right
    # away from labels, outlines and joints, the middle of a tessera has the colour of its glass
    _, panel = load_drawing(demo)
    scale = image.height / panel.height_mm
    hits = [
        np.abs(np.subtract(image.getpixel((int(x * scale), int(y * scale))), colour)).max() <= 2
        for (x, y), colour in zip(panel.centroid_mm, panel.colour.astype(int), strict=True)
    ]
    assert np.mean(hits) > 0.93


def test_a_drawing_can_be_given_its_true_size(run, tmp_path):
    path = tmp_path / "small.svg"
    path.write_bytes(grid_svg(10, 8))
    plan = planned(run, path, "--width-mm", 140)
    assert plan["panel"]["width_mm"] == pytest.approx(140)
    assert plan["panel"]["height_mm"] == pytest.approx(112)
    assert plan["tesserae"][0]["area_mm2"] == pytest.approx((2 * 6.2) ** 2)


def test_a_warmer_room_means_more_sections(run, demo):
    cool = planned(run, demo, "--pace", 5)
    warm = planned(run, demo, "--pace", 5, "--temperature", 31)
    assert warm["assumptions"]["working_time_s"] < cool["assumptions"]["working_time_s"]
    assert len(warm["sections"]) > len(cool["sections"])


def test_a_surer_promise_means_more_sections(run, foot_square):
    counts = [len(planned(run, foot_square, "--pace", 5, "--sure", s)["sections"]) for s in (0.75, 0.9, 0.95)]
    assert counts == sorted(counts)
    assert counts[0] < counts[2]


def test_two_pairs_of_hands_need_fewer_sections_and_each_pair_sets_at_its_own_pace(run, foot_square):
    """Stated: n pairs set n times as fast; stirring, spreading and cleaning take as long."""
    one, two = (planned(run, foot_square, "--pace", 5, "--hands", n) for n in (1, 2))
    assert len(two["sections"]) < len(one["sections"])
    each_s = [sum(t["expected_s"] for t in data["tesserae"]) for data in (one, two)]
    assert each_s[0] == pytest.approx(2 * each_s[1])


def test_what_is_left_out_is_reported(run, tmp_path):
    path = tmp_path / "mixed.svg"
    words = b'<text x="1" y="1">lemons</text><path d="M0 0 L9 9" stroke="#000" fill="none"/></svg>'
    path.write_bytes(grid_svg(6, 6).replace(b"</svg>", words))
    left_out = planned(run, path)["left_out"]
    assert sum(x["count"] for x in left_out) == 2


def test_planning_reads_no_kivy_and_leaves_no_trace(run, demo, home):
    import subprocess
    import sys

    probe = (
        "import sys; from bench.commands import main; "
        f"code = main(['plan', {str(demo)!r}, '--json', '-']); "
        "sys.exit(code or any(m.split('.')[0] == 'kivy' for m in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", probe], capture_output=True, check=False)
    assert done.returncode == 0
    assert not home.exists()


def test_the_picture_bears_the_numbers_of_the_table_and_their_figures_beside_it(run, tmp_path, monkeypatch):
    grid = tmp_path / "grid.svg"
    grid.write_bytes(grid_svg(24, 12))
    written, rows = [], []
    monkeypatch.setattr(
        "bench.drawing.picture._plate", lambda draw, at, text, px: written.append((int(text), at))
    )
    real = figures.with_figures

    def told(picture, head, table):
        rows.extend(table)
        return real(picture, head, table)

    monkeypatch.setattr("bench.drawing.figures.with_figures", told)
    code, out, _ = run("plan", grid, "--json", tmp_path / "p.json", "--picture", tmp_path / "p.png")
    assert code == 0
    data = json.loads((tmp_path / "p.json").read_text())
    numbers = [s["number"] for s in data["sections"]]
    assert sorted(number for number, _ in written) == numbers
    assert [int(row[0]) for row in rows] == numbers
    assert [int(row[1]) for row in rows] == [s["tessera_count"] for s in data["sections"]]
    with Image.open(tmp_path / "p.png") as picture:
        assert picture.width > picture.height * data["panel"]["width_mm"] / data["panel"]["height_mm"]
    assert "foretold (10–50–90 %)" in out
    assert re.search(r"the last on day \d+–\d+–\d+\n", out)
    assert re.search(r"resin: \d+–\d+–\d+ g\n.*hardener: \d+–\d+–\d+ g\n", out)
    foreseen = out.rsplit("neighbours firm first: ", 1)[1]
    assert sorted(int(n) for n in re.findall(r"(?<!day )\b\d+\b", foreseen)) == numbers
