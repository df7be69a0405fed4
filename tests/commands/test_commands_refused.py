"""Whatever is wrong with the input ends in one line: what, where, what to do. Exit code 1; 2 for usage."""

import os
import sqlite3

import pytest

from bench.book import Store
from bench.pace.csv_file import COLUMNS
from tests.fakes.drawings import grid_svg
from tests.fakes.products import example


@pytest.fixture
def grid(tmp_path):
    path = tmp_path / "grid.svg"
    path.write_bytes(grid_svg(8, 6))
    return path


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "empty"),
        (b"GIF89a not a drawing", "SVG"),
        (b"<html><body/></html>", "SVG"),
        (b"<svg xmlns='http://www.w3.org/2000/svg' width='10mm' height='10mm'/>", "closed"),
        (b"<svg xmlns='http://www.w3.org/2000/svg' width='10mm' height='10mm'><path d='M0 0", ""),
    ],
)
def test_a_file_that_is_no_drawing(refused, tmp_path, content, told):
    path = tmp_path / "what.svg"
    path.write_bytes(content)
    line = refused("plan", path)
    assert "what.svg" in line
    assert told in line


def test_a_file_that_is_not_there(refused, tmp_path):
    assert "nowhere.svg" in refused("plan", tmp_path / "nowhere.svg")


def test_a_folder_instead_of_a_file(refused, tmp_path):
    assert str(tmp_path) in refused("plan", tmp_path)


@pytest.mark.parametrize("size", ["width='0' height='0'", "width='9e9mm' height='9e9mm'", "width='nanmm'"])
def test_a_page_of_no_sane_size(refused, tmp_path, size):
    path = tmp_path / "page.svg"
    path.write_text(
        f"<svg xmlns='http://www.w3.org/2000/svg' {size}><rect width='5' height='5' fill='#000'/></svg>"
    )
    assert "page.svg" in refused("plan", path)


def test_coordinates_that_are_no_numbers(refused, tmp_path):
    path = tmp_path / "nan.svg"
    path.write_text(
        "<svg xmlns='http://www.w3.org/2000/svg' width='90mm' height='90mm' viewBox='0 0 90 90'>"
        "<path id='odd' d='M nan 1 L 9 9 L 1 9 Z' fill='#123'/></svg>"
    )
    assert "nan.svg" in refused("plan", path)


def test_too_many_shapes_are_counted_before_any_geometry(refused, tmp_path):
    path = tmp_path / "many.svg"
    path.write_text(
        "<svg xmlns='http://www.w3.org/2000/svg' width='900mm' height='900mm'>"
        + "<rect width='1' height='1' fill='#123'/>" * 200_000
        + "</svg>"
    )
    line = refused("plan", path)
    assert "200" in line
    assert "150" in line


@pytest.mark.parametrize(
    ("option", "value"),
    [
        ("--pace", "0"),
        ("--pace", "-3"),
        ("--pace", "nan"),
        ("--pace", "1e9"),
        ("--working-time", "0"),
        ("--working-time", "inf"),
        ("--temperature", "90"),
        ("--sure", "1"),
        ("--sure", "0.2"),
        ("--bed-mm", "0"),
        ("--scale-g", "0"),
        ("--width-mm", "0"),
        ("--height-mm", "1e300"),
    ],
)
def test_a_value_that_cannot_be_is_named_with_its_option(refused, grid, option, value):
    assert f"potwatch: {option}: " in refused("plan", grid, option, value)


def test_a_working_time_shorter_than_stirring_and_spreading(refused, grid):
    assert "minutes" in refused("plan", grid, "--working-time", "1.5").replace("min", "minutes")


def test_a_room_outside_the_products_range(refused, grid):
    assert "°C" in refused("plan", grid, "--temperature", "55")


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("minutes = 32\n", "", "minutes"),
        ("minutes = 32\n", "minutes = 32\nminutes = 31\n", "minutes"),
        ("minutes = 32", "minutes = 0.5", "minutes"),
        ("by_mass = [100, 50]", "by_mass = [100, 0]", "by_mass"),
        ("by_mass = [100, 50]", "by_mass = [100, 50]\nby_volume = [2, 1]", "ratio"),
        ('kind = "two-part"', 'kind = "three-part"', "kind"),
        ("[density]", "[density", ""),
        ("revision", "edition", "edition"),
    ],
)
def test_an_adhesive_file_names_the_field_that_is_wrong(refused, grid, tmp_path, old, new, told):
    path = tmp_path / "paste.toml"
    path.write_bytes(example({old: new}))
    line = refused("plan", grid, "--adhesive", path)
    assert "paste.toml" in line
    assert told in line


def test_an_adhesive_that_nobody_has_lists_the_choices(refused, grid):
    line = refused("batch", "--area-cm2", "30", "--adhesive", "honey")
    assert "honey" in line
    assert "white-paste" in line


def test_the_adhesive_file_as_it_is_documented_is_read(run, grid, tmp_path):
    path = tmp_path / "paste.toml"
    path.write_bytes(example())
    code, out, _ = run("plan", grid, "--adhesive", path)
    assert code == 0
    assert "Example paste, white" in out


def test_a_drawing_that_asks_for_an_unknown_adhesive_names_the_tessera(refused, tmp_path):
    path = tmp_path / "grid.svg"
    path.write_bytes(grid_svg(3, 3).replace(b'id="c1r1"', b'id="c1r1" data-adhesive="honey"'))
    line = refused("plan", path)
    assert "c1r1" in line
    assert "honey" in line


@pytest.mark.skipif(os.name != "posix", reason="folders are protected differently")
def test_a_data_folder_that_cannot_be_made(refused, tmp_path, monkeypatch):
    blocker = tmp_path / "a-file"
    blocker.write_text("not a folder")
    monkeypatch.setenv("POTWATCH_HOME", str(blocker / "inside"))
    refused("book")


@pytest.mark.parametrize("inside", ["", "inside"])
def test_a_data_folder_that_is_a_file_is_said_before_anything_is_planned(
    refused, grid, tmp_path, monkeypatch, inside
):
    blocker = tmp_path / "a-file"
    blocker.write_text("not a folder")
    monkeypatch.setenv("POTWATCH_HOME", str(blocker / inside))
    assert "no folder" in refused("plan", grid)
    assert "no folder" in refused("capacity")


def test_a_glue_up_of_the_future_is_refused(refused, tmp_path):
    table = tmp_path / "glue-ups.csv"
    table.write_text(f"{','.join(COLUMNS)}\n2999-03-01T14:05:00Z,10,40,2,700,30,21.5,930,,yes\n")
    assert "future" in refused("capacity", "--glue-ups", table)


def test_a_name_without_end_is_not_said_back_whole(refused, grid):
    line = refused("plan", grid, "--adhesive", "honey" * 4000)
    assert len(line) < 400


def test_a_book_of_a_newer_version_is_refused_and_untouched(refused, home, grid):
    Store.open(home).close()
    path = home / "potwatch.sqlite3"
    with sqlite3.connect(path) as book:
        book.execute("PRAGMA user_version = 99")
    book.close()
    before = path.read_bytes()
    line = refused("plan", grid)
    assert "newer" in line
    assert path.read_bytes() == before


def test_a_file_that_cannot_be_written_leaves_nothing_half_done(run, grid, tmp_path):
    code, _, err = run("plan", grid, "--json", tmp_path / "nowhere" / "plan.json")
    assert code == 1
    assert err.count("\n") == 1
    assert not list(tmp_path.glob(".plan*"))


@pytest.mark.parametrize(
    "argv", [["plan"], ["plan", "a.svg", "--pace", "fast"], ["batch"], ["fly"], ["--fly"]]
)
def test_wrong_usage_is_code_2(run, argv):
    code, _, err = run(*argv)
    assert code == 2
    assert "usage" in err
