"""`revise`: the difference in words and as a picture, written into the book only when it is accepted."""

import pytest
from PIL import Image

from bench.book import Store, SystemClock
from bench.book.events import BenchSet
from bench.job.acts import dry
from bench.job.acts.opening import open_panel
from bench.job.job import Job
from bench.job.settings import LAST_PANEL
from tests.fakes.drawings import BLUE, YELLOW, grid_svg


@pytest.fixture
def second(home, tmp_path):
    """Make a book whose panel has section 1 dry; return the path of a drawing with a yellow right half."""
    with Store.open(home) as store:
        job = open_panel(store, SystemClock(), grid_svg(12, 8), "grid.svg", bench=BenchSet(pace_per_min=2.0))
        dry.lay(job, 1)
    path = tmp_path / "second.svg"
    path.write_bytes(grid_svg(12, 8, colour=lambda c, r: YELLOW if c > 5 else BLUE))
    return path


def last_job(home, look, panel_id=1):
    with Store.open(home, read_only=True) as store:
        return look(Job(store, SystemClock(), panel_id), store)


def test_a_look_tells_the_difference_and_writes_nothing(run, home, second):
    seq = last_job(home, lambda job, store: store.last_seq(1))
    code, out, err = run("revise", second)
    assert (code, err) == (0, "")
    assert "grid (panel 1)" in out
    assert "Nothing is written yet" in out
    assert last_job(home, lambda job, store: store.last_seq(1)) == seq


def test_accepted_it_is_in_the_book_and_a_second_look_finds_no_difference(run, home, second):
    stay = last_job(home, lambda job, store: len(job.section(1).tesserae))
    code, out, _ = run("revise", second, "--accept")
    assert code == 0
    assert f"{stay} pieces dry or set: they stay as now." in out
    assert "Accepted and in the book." in out
    assert last_job(home, lambda job, store: job.state.drawing_name) == "second.svg"
    assert "0 changed, 0 added, 0 gone" in run("revise", second)[1]
    assert "Drawing revised to second.svg" in run("book")[1]


def test_what_the_new_drawing_holds_beside_glass_is_named(run, second):
    second.write_bytes(second.read_bytes().replace(b"</svg>", b'<path d="M1 1h9" fill="none"/></svg>'))
    assert "left out: 1 × open stroke" in run("revise", second)[1]


def test_the_picture_shows_a_wide_panel_twice_one_above_the_other(run, second, tmp_path):
    path = tmp_path / "difference.png"
    assert run("revise", second, "--picture", path)[0] == 0
    with Image.open(path) as picture:
        wide, high = picture.size
        assert picture.format == "PNG"
    assert 1200 < wide < 1400
    assert high > 2 * 1200 * 8 / 12


def test_a_picture_that_cannot_be_written_keeps_the_book_as_it_is(run, home, second, tmp_path):
    code, out, err = run("revise", second, "--accept", "--picture", tmp_path / "no" / "such.png")
    assert (code, out) == (1, "")
    assert "cannot be written" in err
    assert last_job(home, lambda job, store: job.state.drawing_name) == "grid.svg"


def test_the_panel_is_the_last_one_or_the_one_named(run, home, second):
    with Store.open(home) as store:
        open_panel(store, SystemClock(), grid_svg(12, 8), "other.svg")
        store.set_setting(LAST_PANEL, "2")
    assert "other (panel 2)" in run("revise", second)[1]
    assert "grid (panel 1)" in run("revise", second, "--panel", 1)[1]


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("none.svg", None, "no such file"),
        ("empty.svg", b"", "empty"),
        ("other.svg", grid_svg(5, 5), "is not the panel's"),
    ],
)
def test_what_is_wrong_with_the_drawing_is_told_in_one_line(refused, second, tmp_path, name, data, said):
    path = tmp_path / name
    if data is not None:
        path.write_bytes(data)
    assert said in refused("revise", path)
    assert said in refused("revise", path, "--accept")


def test_without_a_book_or_a_panel_of_that_number_it_is_told(refused, second, home, monkeypatch, tmp_path):
    assert "9" in refused("revise", second, "--panel", 9)
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "nowhere"))
    assert "no book yet" in refused("revise", second)
    assert not (tmp_path / "nowhere").exists()
