"""`potwatch bundle`: a panel in one file, and in a book that did not have it."""

import pytest

from bench.book import Store
from bench.job.fold import fold
from bench.job.settings import LAST_PANEL
from tests.fakes.bundles import bundled, worked_panel


@pytest.fixture
def book(home):
    with Store.open(home) as store:
        worked_panel(store)
        worked_panel(store, name="Blue cloth", columns=7)
        store.set_setting(LAST_PANEL, "1")
    return home


@pytest.fixture
def elsewhere(monkeypatch, tmp_path):
    """Change to a tablet with no book yet."""

    def change():
        monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "elsewhere"))
        return tmp_path / "elsewhere"

    return change


@pytest.mark.parametrize(
    ("words", "name"), [([], "Lemons"), (["2"], "Blue cloth"), (["Blue cloth"], "Blue cloth")]
)
def test_a_panel_is_bundled_and_opened_on_the_other_tablet(run, book, elsewhere, tmp_path, words, name):
    code, out, _ = run("bundle", *words, tmp_path / "panel.zip")
    assert code == 0
    assert out.startswith(f"{name}: ")
    with Store.open(book, read_only=True) as store:
        told = fold(store.events(1 if name == "Lemons" else 2))
    there = elsewhere()
    code, out, _ = run("bundle", "--open", tmp_path / "panel.zip")
    assert code == 0
    assert out.startswith(f"{name} is here, with ")
    assert "--same-hands" in out
    with Store.open(there, read_only=True) as store:
        assert fold(store.events(1)) == told
        assert store.setting(LAST_PANEL) == "1"
    code, out, _ = run("bundle", "--open", tmp_path / "panel.zip", "--same-hands")
    assert (code, out) == (0, f"All of {name} was here already\n")


def test_the_pace_is_learned_once_the_hands_are_said_to_be_the_same(run, elsewhere, tmp_path, book):
    run("bundle", tmp_path / "panel.zip")
    elsewhere()
    run("bundle", "--open", tmp_path / "panel.zip")
    assert len(run("book", "--csv", "-")[1].splitlines()) == 1
    run("bundle", "--open", tmp_path / "panel.zip", "--same-hands")
    assert len(run("book", "--csv", "-")[1].splitlines()) == 2


def test_what_cannot_be_bundled_or_opened_is_told_in_one_line(refused, book, tmp_path):
    assert "1 Lemons, 2 Blue cloth" in refused("bundle", "Apples", tmp_path / "x.zip")
    assert "cannot be written" in refused("bundle", tmp_path / "nowhere" / "x.zip")
    assert "cannot be written" in refused("bundle", tmp_path)
    (tmp_path / "x.zip").write_text("no zip")
    assert "no bundle" in refused("bundle", "--open", tmp_path / "x.zip")
    assert "cannot be read" in refused("bundle", "--open", tmp_path / "missing.zip")


def test_without_a_book_there_is_nothing_to_bundle(refused, home, tmp_path):
    assert "no book yet" in refused("bundle", tmp_path / "x.zip")
    assert not home.exists()


@pytest.mark.parametrize(
    "words",
    [[], ["1", "x.zip", "y.zip"], ["x.zip", "--same-hands"], ["x.zip", "--open", "y.zip"],
     ["--open", "y.zip", "--drafts"]],
)  # fmt: skip
def test_words_that_do_not_go_together_are_usage(run, book, words):
    code, out, err = run("bundle", *words)
    assert (code, out) == (2, "")
    assert "usage: potwatch bundle" in err


def test_a_bundle_is_opened_where_there_was_no_book(run, home, tmp_path):
    path = bundled(tmp_path)
    assert run("bundle", "--open", path)[0] == 0
    assert run("book")[1].startswith("Lemons (panel 1)")
