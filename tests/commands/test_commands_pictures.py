"""`plan` and `draw` read a picture with --as; without it, or with what is no picture, they say what to do."""

import io
import json

import pytest
from PIL import Image

from bench.drawing.load import load_drawing
from bench.drawing.svg import read_drawing
from tests.fakes.drawings import grid_svg
from tests.fakes.line_scans import scan_of


@pytest.fixture(scope="module")
def scanned():
    moved = grid_svg(10, 8, page_mm=(76, 62)).replace(b"<rect ", b'<rect transform="translate(3 3)" ')
    return Image.fromarray(scan_of(read_drawing(moved, "grid"), dpi=150).pixels)


@pytest.fixture
def page(scanned, tmp_path):
    path = tmp_path / "page.png"
    scanned.save(path, dpi=(150, 150))
    return path


@pytest.fixture
def unsized(scanned, tmp_path):
    path = tmp_path / "unsized.png"
    scanned.save(path)
    return path


def test_a_scan_is_planned_like_a_drawing(run, page, tmp_path):
    out = tmp_path / "plan.json"
    code, said, err = run("plan", page, "--as", "lines", "--pace", 3, "--json", out)
    assert (code, err) == (0, "")
    assert said.startswith(("lines 0.8 mm wide enclose 80 pieces", "lines 0.9 mm wide enclose 80 pieces"))
    plan = json.loads(out.read_text())
    assert plan["panel"]["tessera_count"] == 80
    assert plan["panel"]["width_mm"] == pytest.approx(76, abs=0.2)
    assert sum(section["tessera_count"] for section in plan["sections"]) == 80
    assert [one["what"] for one in plan["left_out"]] == ["paper"]


def test_json_on_stdout_is_nothing_but_json(run, page):
    code, said, _ = run("plan", page, "--as", "lines", "--pace", 3, "--json", "-")
    assert code == 0
    assert json.loads(said)["panel"]["tessera_count"] == 80


def test_a_scan_is_drawn_as_svg_and_that_svg_is_planned(run, page, tmp_path):
    out = tmp_path / "page.svg"
    code, said, err = run("draw", page, "--as", "lines", "--svg", out)
    assert (code, err) == (0, "")
    assert "80 pieces" in said
    _, again = load_drawing(out)
    assert again.tessera_count == 80
    assert again.area_mm2 == pytest.approx(6.2**2, rel=0.06)
    code, said, _ = run("draw", page, "--as", "lines", "--svg", "-")
    assert said.lstrip().startswith("<")


def test_a_width_is_asked_for_and_followed(run, refused, unsized, tmp_path):
    assert "--width-mm" in refused("plan", unsized, "--as", "lines")
    out = tmp_path / "wide.svg"
    assert run("draw", unsized, "--as", "lines", "--svg", out, "--width-mm", 152)[0] == 0
    assert load_drawing(out)[1].width_mm == pytest.approx(152)


def test_the_colours_come_from_a_second_picture(run, page, tmp_path):
    study, out = tmp_path / "study.jpg", tmp_path / "out.svg"
    Image.new("RGB", (38, 31), (180, 40, 30)).save(study, quality=95)
    assert run("draw", page, "--as", "lines", "--svg", out, "--colours", study)[0] == 0
    colour = load_drawing(out)[1].colour.astype(int)
    assert abs(colour - [180, 40, 30]).max() <= 3


def test_breaks_are_closed_as_far_as_was_asked(run, scanned, tmp_path):
    broken, out = tmp_path / "broken.png", tmp_path / "out.svg"
    picture = scanned.copy()
    picture.paste((255, 255, 255), (135, 33, 149, 45))  # about 2 mm of the line at x = 24 mm
    picture.save(broken, dpi=(150, 150))
    _, said, _ = run("draw", broken, "--as", "lines", "--svg", out)
    assert "79 pieces" in said
    assert "1 place to check" in said
    _, said, _ = run("draw", broken, "--as", "lines", "--svg", out, "--gap-mm", 2.5)
    assert "80 pieces" in said
    assert "1 gap closed" in said
    _, said, _ = run("plan", broken, "--as", "lines", "--pace", 3)
    assert "note: lines may be open at" in said


def test_a_picture_needs_to_be_told_what_it_is(refused, page, tmp_path):
    for command in (("plan", page), ("draw", page, "--svg", tmp_path / "out.svg")):
        line = refused(*command)
        assert "--as lines" in line
        assert "--as study" in line


def test_a_painted_study_is_laid(run, tmp_path):
    study = Image.new("RGB", (300, 200), (30, 60, 160))
    study.paste((230, 200, 60), (90, 60, 210, 150))
    study.save(tmp_path / "study.png")
    code, said, err = run(
        "plan", tmp_path / "study.png", "--as", "study", "--width-mm", 90, "--piece-mm", 8, "--pace", 3
    )
    assert (code, err) == (0, "")
    assert "study.png: 90 × 60 mm" in said


def saved(image, kind, **how):
    out = io.BytesIO()
    image.save(out, kind, **how)
    return out.getvalue()


WHITE = Image.new("RGB", (200, 150), "white")


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "no PNG, JPEG or WebP"),
        (b"lemons on a cloth", "no PNG, JPEG or WebP"),
        (grid_svg(2, 2), "leave --as out"),
        (saved(WHITE, "GIF"), "no PNG, JPEG or WebP"),
        (saved(WHITE, "PNG"), "no line stands out"),
        (saved(WHITE.convert("CMYK"), "JPEG"), "no line stands out"),
        (saved(WHITE, "JPEG")[:-300], "breaks off"),
        (saved(WHITE, "PNG")[:60], "breaks off"),
        (saved(WHITE, "WEBP")[:-20], "breaks off"),
        (b"\x89PNG\r\n\x1a\nnothing more", ""),
        (b"\xff\xd8\xff\xe0", ""),
        (saved(Image.new("RGB", (1, 1)), "PNG"), "at least 16 pixels"),
        (saved(Image.new("L", (60_000, 10)), "PNG"), "at least 16 pixels"),
    ],
)
def test_what_cannot_be_read_as_lines_is_told_in_one_line(refused, tmp_path, content, told):
    path = tmp_path / "what.png"
    path.write_bytes(content)
    line = refused("plan", path, "--as", "lines", "--width-mm", 100)
    assert "what.png" in line
    assert told in line


@pytest.mark.parametrize(
    "options",
    [
        ("--width-mm", 0),
        ("--width-mm", -4),
        ("--width-mm", 40_000),
        ("--height-mm", "nan"),
        ("--gap-mm", 6),
        ("--gap-mm", -1),
        ("--colours", "nowhere.png"),
    ],
)
def test_values_that_cannot_be_are_told_in_one_line(refused, page, options):
    line = refused("plan", page, "--as", "lines", *options)
    assert str(options[0] if "nowhere" not in str(options[1]) else options[1]) in line


def test_a_way_that_nobody_knows_is_a_matter_of_usage(run, page):
    code, _, err = run("plan", page, "--as", "poem")
    assert code == 2
    assert "lines" in err


def test_a_picture_that_is_missing_or_a_folder_is_told(refused, tmp_path):
    assert "no such file" in refused("plan", tmp_path / "none.png", "--as", "lines")
    assert "folder" in refused("plan", tmp_path, "--as", "lines")
