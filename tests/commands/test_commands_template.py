"""`potwatch template`: sheets for the cartoon and each section of a plan, or one line that says why not."""

import json
import re

import pypdfium2
import pytest

from bench.commands.main import main
from tests.fakes.drawings import grid_svg


@pytest.fixture
def drawing(tmp_path):
    path = tmp_path / "grid.svg"
    path.write_bytes(grid_svg(24, 12))
    return path


@pytest.fixture
def plan(tmp_path, drawing):
    path = tmp_path / "plan.json"
    assert main(["plan", str(drawing), "--pace", "5", "--json", str(path)]) == 0
    return path


def words(path) -> list[str]:
    return [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(path)]


def test_each_section_of_a_plan_has_its_sheets(tmp_path, drawing, plan):
    out = tmp_path / "t.pdf"
    assert main(["template", str(drawing), "--plan", str(plan), "--pdf", str(out)]) == 0
    sections = json.loads(plan.read_text())["sections"]
    told = words(out)
    for section in sections:
        title = f"section {section['number']}, {section['tessera_count']} pieces"
        assert sum(title in page for page in told) >= 1


def test_one_section_mirrored_as_svg(tmp_path, drawing, plan):
    out = tmp_path / "t.svg"
    line = ["template", str(drawing), "--plan", str(plan), "--section", "2", "--transfer", "face-down"]
    assert main([*line, "--paper", "a3", "--svg", str(out)]) == 0
    assert "section 2" in out.read_text()
    assert "Mirrored: glass is laid face down." in out.read_text()


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ([], "nothing says where to write"),
        (["--pdf", "t.pdf", "--paper", "napkin"], "paper 'napkin' is not known"),
        (["--pdf", "t.pdf", "--paper", "0x0"], "paper '0x0' is not known"),
        (["--pdf", "t.pdf", "--paper", "9e9x3"], "is not known"),
        (["--pdf", "t.pdf", "--section", "4"], "there is no section 4"),
        (["--pdf", "t.pdf", "--width-mm", "-3"], "--width-mm"),
        (["--svg", "t.svg", "--paper", "80x90"], "an SVG holds one sheet"),
        (["--pdf", "t.pdf", "--plan", "nothing.json"], "nothing.json"),
    ],
)
def test_what_cannot_be_written_is_said_in_one_line(drawing, tmp_path, monkeypatch, capsys, more, said):
    monkeypatch.chdir(tmp_path)
    assert main(["template", str(drawing), *more]) == 1
    err = capsys.readouterr().err
    assert said in err
    assert err.count("\n") == 1
    assert not list(tmp_path.glob("t.*"))


def test_a_section_that_the_plan_does_not_have(drawing, plan, capsys, tmp_path):
    out = tmp_path / "t.pdf"
    assert main(["template", str(drawing), "--plan", str(plan), "--section", "99", "--pdf", str(out)]) == 1
    assert "there is no section 99" in capsys.readouterr().err


def test_pieces_are_numbered_and_glass_has_letters(tmp_path, drawing, plan):
    out = tmp_path / "t.pdf"
    assert main(["template", str(drawing), "--plan", str(plan), "--section", "1", "--pdf", str(out)]) == 0
    (page,) = words(out)
    count = next(s for s in json.loads(plan.read_text())["sections"] if s["number"] == 1)["tessera_count"]
    numbered = {int(n) for n in re.findall(r"\b(\d+)a\b", page)}
    assert numbered == set(range(1, count + 1))
    assert re.search(r"^a \w+", page, re.MULTILINE)
