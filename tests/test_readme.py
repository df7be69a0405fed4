"""What the README says can be done is done here: its commands, its adhesive file, its pictures, its links."""

import re
import shlex
from pathlib import Path

import pytest

from bench.adhesive.product_file import parse_product
from bench.commands import main

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "README.md").read_text()
COMMANDS = re.findall(r"^potwatch (\w+ .*)$", TEXT, re.MULTILINE)
FRESH = re.findall(r"^sh (\.ci/fresh \w+)$", TEXT, re.MULTILINE)


def test_it_opens_with_the_job_in_one_paragraph():
    title, paragraph = [block for block in TEXT.split("\n\n") if block][:2]
    assert title == "# Potwatch"
    assert "\n" not in paragraph
    assert "adhesive" in paragraph


@pytest.mark.parametrize("line", [c for c in COMMANDS if not c.startswith("practice")])
def test_each_command_runs_as_it_is_written(line, tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "home"))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "assets").symlink_to(ROOT / "assets")
    assert main(shlex.split(line)) == 0
    assert capsys.readouterr().out.strip()


def test_the_two_commands_for_a_fresh_machine_are_there():
    assert FRESH == [".ci/fresh app", ".ci/fresh test"]
    script = (ROOT / ".ci" / "fresh").read_text()
    assert "-m pytest" in script
    assert "sh .ci/fresh test" in (ROOT / ".ci" / "run").read_text()


def test_the_adhesive_file_it_shows_can_be_read():
    toml = re.search(r"```toml\n(.*?)```", TEXT, re.DOTALL).group(1)
    product = parse_product(toml.encode(), "README.md")
    assert product.mass_ratio == pytest.approx(0.5)


@pytest.mark.parametrize("path", re.findall(r"!\[[^\]]*\]\(([^)]+)\)", TEXT))
def test_every_picture_of_the_tour_is_there(path):
    assert (ROOT / path).read_bytes().startswith(b"\x89PNG")
