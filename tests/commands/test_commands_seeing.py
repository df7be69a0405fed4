"""`potwatch finish --see`: grouts compared in words, figures and a picture; what cannot be is refused."""

import json

import numpy as np
import pytest
from PIL import Image

from bench.drawing.colour import srgb_to_linear
from bench.resources import resource
from tests.fakes.drawings import grid_svg

LEMONS = resource("assets", "demo", "lemons.svg")


@pytest.fixture
def grid(tmp_path):
    path = tmp_path / "grid.svg"
    path.write_bytes(grid_svg(8, 6, colour=lambda c, r: "#1e4b8c"))
    return path


def test_up_to_four_colours_are_told_and_drawn_side_by_side(run, grid, tmp_path):
    picture = tmp_path / "seen.png"
    asked = "white,charcoal,Deep sea=#1e4b8c,blue over pale grey"
    code, out, err = run("finish", grid, "--see", asked, "--picture", picture)
    assert (code, err) == (0, "")
    assert "joints stand out" in out
    assert "joints recede (ΔE 0)" in out
    assert "a guess" in out
    with Image.open(picture) as image:
        assert image.width > 2 * 900
        assert {(240, 239, 235), (66, 66, 67), (30, 75, 140)} <= {rgb for _, rgb in image.getcolors(1 << 24)}


def test_joints_in_the_picture_are_as_wide_as_drawn(run, grid, tmp_path):
    """56 × 42 mm with joints of 0.8 mm between pieces of 6.2: 8 × 6 × 38.44 mm² are glass."""
    picture = tmp_path / "seen.png"
    run("finish", grid, "--see", "white", "--picture", picture)
    with Image.open(picture) as image:
        red = srgb_to_linear(np.asarray(image)[:750, :, 0])
    white, blue = srgb_to_linear([240, 30])
    glass = np.clip((white - red) / (white - blue), 0, 1)  # the share of each pixel
    rows, columns = (np.flatnonzero((glass > 0.5).any(axis=k)) for k in (1, 0))
    box = (rows[-1] - rows[0] + 1) * (columns[-1] - columns[0] + 1)
    assert glass.sum() / box == pytest.approx(48 * 38.44 / ((56 - 0.8) * (42 - 0.8)), abs=0.01)


def test_json_has_the_measure_of_the_panel_and_of_each_zone(run):
    code, out, _ = run("finish", LEMONS, "--see", "white,grey,charcoal", "--json", "-")
    assert code == 0
    seen = json.loads(out)["seen"]
    assert [one["name"] for one in seen] == ["white", "grey", "charcoal"]
    assert len({round(one["delta_e"]) for one in seen}) == 3
    assert all(zone["words"] for one in seen for zone in one["zones"])


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("grey,#aabbcc", "no name"),
        ("grey,,white", "no name"),
        ("=#aabbcc", "no name"),
        ("white,grey,black,sand,brown", "5 colours are more"),
        ("mauve", "no colour is known for mauve"),
        ("mauve over white", "no colour is known for mauve"),
        ("sea=blue", "no colour is known for sea"),
    ],
)
def test_what_cannot_be_seen_is_told_in_one_line(run, grid, tmp_path, asked, told):
    picture = tmp_path / "none.png"
    code, out, err = run("finish", grid, "--see", asked, "--picture", picture)
    assert (code, out) == (1, "")
    assert told in err
    assert err.count("\n") == 1
    assert not picture.exists()
