"""Commands in German: what a person reads is German, what a program reads is the same as ever."""

from __future__ import annotations

import argparse
import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from bench.book import Device, SystemClock, open_book
from bench.book.events import BenchSet
from bench.commands import main
from bench.job.acts.opening import open_panel
from bench.speech import Tongue, speak
from tests.fakes.drawings import grid_svg

Run = Callable[..., tuple[int, str, str]]
ENGLISH = re.compile(
    r"\b(the|of|and|is|are|not|with|it|its|this|or|for|from|to|usage|error|options)\b", re.IGNORECASE
)
HERE = ("plan", "draw", "revise", "template", "capacity", "record", "practice", "bundle", "book")
TONGUES = (Tongue(), Tongue("de"), Tongue("de", inches=True, fahrenheit=True), Tongue(mark=","))


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "home"))

    def call(*argv: object) -> tuple[int, str, str]:
        code = main([str(a) for a in argv])
        out = capsys.readouterr()
        return code, out.out, out.err

    return call


@pytest.fixture
def drawing(tmp_path: Path) -> Path:
    """A drawing with an open stroke, which is left out, and a tessera so tiny that it is named."""
    odd = (
        b'<path d="M1 1L9 9" stroke="#000" fill="none"/>'
        b'<rect id="tiny" x="0.1" y="0.1" width="0.2" height="0.2" fill="#e8c93a"/></svg>'
    )
    path = tmp_path / "grid.svg"
    path.write_bytes(grid_svg(12, 8).replace(b"</svg>", odd))
    return path


def test_a_plan_is_read_in_german_with_commas(run: Run, drawing: Path) -> None:
    speak(Tongue("de"))
    code, out, err = run("plan", drawing, "--pace", 2)
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[0] == "grid.svg: 84 × 56 mm, 97 Steine, 37 cm² Glas, 10 cm² Fugen"
    assert re.match(r"Verarbeitungszeit \d+,\d min bei \d+ °C: rühren \d,\d, aufziehen \d,\d, ", lines[1])
    assert lines[1].endswith("2,0 Steine pro Minute; sicher in 90 von 100")
    heads = ("Abschnitt", "Steine", "cm²", "Minuten", "rechtzeitig", "Harz g", "Härter g", "Waage", "Kleber")
    assert re.split(r"  +", lines[3]) == list(heads)
    assert re.match(r"1 +\d+ +\d+,\d +\d+,\d +\d+ % +\d+,\d +\d+,\d ", lines[4])
    assert any(line.startswith("weggelassen: 1 × offener Strich: ") for line in lines)
    assert any(line.startswith("Hinweis: 1 Stein ist kleiner als 1 mm²: tiny") for line in lines)
    assert any(line.startswith("vorgesehen bei 3 h Kleben und 3 h Auslegen am Tag") for line in lines)
    assert ENGLISH.findall(out) == []


def test_a_plan_for_a_program_is_the_same_in_every_language_byte_for_byte(
    run: Run, drawing: Path, tmp_path: Path
) -> None:
    found, beside = [], []
    for spoken in TONGUES:
        speak(spoken)
        found.append(run("plan", drawing, "--pace", 2, "--sure", 0.99, "--json", "-")[1])
        assert run("plan", drawing, "--pace", 2, "--json", tmp_path / "plan.json")[0] == 0
        beside.append((tmp_path / "plan.json").read_bytes())
    data = json.loads(found[0])
    assert data["left_out"]  # both have sentences in them
    assert "smaller than 1 mm²" in data["warnings"][0]
    assert len(set(found)) == len(set(beside)) == 1


def test_joints_for_a_program_are_the_same_in_every_language_byte_for_byte(run: Run, drawing: Path) -> None:
    asked = ("finish", drawing, "--zones", "one", "--sun", "direct", "--see", "white, blue over grey")
    found = []
    for spoken in TONGUES:
        speak(spoken)
        found.append(run(*asked, "--json", "-")[1])
    assert json.loads(found[0])["zones"][0]["name"] == "the panel"
    assert len(set(found)) == 1


def test_what_a_capacity_is_made_of_is_said_in_german(run: Run) -> None:
    speak(Tongue("de"))
    piece_by_piece = run("capacity", "--pace", 5)[1]
    by_patch = run("capacity", "--pace", 0.5, "--transfer", "patch", "--patch-cm2", 12.5)[1]
    assert re.search(r"^\d+ mittlere Steine, \d+,\d min Setzen, sicher in 90 von 100$", piece_by_piece, re.M)
    assert "Teilstücke von 12,5 cm²" in by_patch
    assert ENGLISH.findall(piece_by_piece + by_patch) == []


def test_lengths_and_areas_follow_the_units_spoken(run: Run, drawing: Path) -> None:
    """25.4 mm to the inch exactly (NIST SP 811, B.8): 84 × 56 mm are 3.3 × 2.2 in."""
    speak(Tongue(inches=True, fahrenheit=True))
    out = run("plan", drawing, "--pace", 2, "--temperature", 20)[1]
    assert out.startswith("grid.svg: 3.3 × 2.2 in, 97 tesserae, 5.7 in² of glass")
    assert "min at 68 °F" in out
    assert "in²  minutes" in out


@pytest.mark.parametrize("name", HERE)
def test_the_help_of_a_command_is_german_but_for_its_names(run: Run, name: str) -> None:
    speak(Tongue("de"))
    code, out, _ = run(name, "--help")
    assert code == 0
    assert out.startswith(f"Aufruf: potwatch {name} [-h]")
    assert "\nOptionen:\n" in out
    assert ENGLISH.findall(out.replace("TINTE over", "")) == []


def test_the_help_over_all_names_every_command_in_german(run: Run) -> None:
    speak(Tongue("de"))
    _, out, _ = run("--help")
    assert all(f"  {name} " in out for name in HERE)
    assert ENGLISH.findall(out) == []


@pytest.mark.parametrize(
    ("argv", "said"),
    [
        (["plan"], "potwatch plan: Fehler: es fehlt: ZEICHNUNG"),
        (["plan", "x.svg", "--json"], "Angabe --json: ein Wert erwartet"),
        (["plan", "x.svg", "--prefer", "most"], "Angabe --prefer: ungültige Wahl: 'most' (möglich: "),
        (["plan", "x.svg", "--pace", "0,5"], "'0,5' ist keine Zahl: mit Punkt schreiben, 0.5"),
        (["plan", "x.svg", "--fast"], "unbekannte Angaben: --fast"),
        (["book", "--panel", "one"], "Angabe --panel: ungültiger Wert: 'one'"),
        (["bundle"], "potwatch bundle: Fehler: die Datei angeben"),
        (["unknown"], "potwatch: unbekannter Befehl „unknown“; siehe potwatch --help"),
    ],
)
def test_a_wrong_command_line_is_told_in_german(run: Run, argv: list[str], said: str) -> None:
    speak(Tongue("de"))
    code, out, err = run(*argv)
    assert (code, out) == (2, "")
    assert said in err
    assert err.startswith("Aufruf: potwatch")
    assert ENGLISH.findall(err) == []


def test_argparse_has_its_own_words_again_afterwards(run: Run) -> None:
    before = vars(argparse)["_"]
    speak(Tongue("de"))
    run("plan", "--help")
    run("plan")
    assert vars(argparse)["_"] is before
    assert argparse.ArgumentParser(prog="other").format_usage().startswith("usage: other")


def test_a_value_that_cannot_be_is_told_with_a_comma_and_asked_for_with_a_point(run: Run) -> None:
    speak(Tongue("de"))
    code, out, err = run("plan", "x.svg", "--sure", 1.5)
    assert (code, out) == (1, "")
    assert err.startswith("potwatch: --sure: 1,5 ")
    assert err.endswith("ein Anteil von 0.5 bis 0.99, z. B. 0.9 für 9 von 10\n")


def test_copies_and_bundles_are_told_in_german(run: Run, tmp_path: Path) -> None:
    clock = SystemClock()
    for _ in range(2):  # the second opening makes the backup
        with open_book(tmp_path / "home", clock).store as store:
            if not store.panels():
                open_panel(store, clock, grid_svg(6, 4), "grid.svg", bench=BenchSet(pace_per_min=5.0))
    speak(Tongue("de"))
    copies = run("book", "--restore")[1]
    assert "1 Tafel, 3 Einträge, der letzte vom" in copies
    assert "An dem Tag von selbst entstanden." in copies
    written = run("bundle", tmp_path / "panel.zip")[1]
    assert re.search(r": 3 Einträge und \d+ Datei(en)? in .*panel\.zip, \d,\d\d MB$", written.strip())
    assert run("book", "--mend")[1].startswith("das Buch ist heil: ")
    assert ENGLISH.findall((copies + written).replace(str(tmp_path), "")) == []


@pytest.mark.slow
def test_the_command_speaks_as_the_tablet_was_set_whatever_the_machine_speaks(tmp_path) -> None:
    Device(tmp_path).change(language="de")
    environ = {**os.environ, "POTWATCH_HOME": str(tmp_path), "LANGUAGE": "en"}
    run = [sys.executable, "-m", "bench", "plan", "nowhere.svg"]
    told = subprocess.run(run, env=environ, capture_output=True, encoding="utf-8", check=False)
    assert (told.returncode, told.stdout) == (1, "")
    assert "Datei" in told.stderr
    assert "Traceback" not in told.stderr
