"""`book`: the graphs as a picture, trends in words, one day's entries."""

import numpy as np
import pytest
from PIL import Image

from bench.book import Store
from bench.commands.book_picture import EACH_PX, INK, PAPER, graph_image
from bench.job.learned_graphs import learned_graphs
from bench.screens.contrast import contrast
from bench.speech import Tongue, speak
from tests.fakes.long_books import book_of, days


def written(home, count, **how):
    with Store.open(home) as store:
        return book_of(store, days(count, **how)).state.name


def test_thirty_glue_ups_are_drawn(run, home, tmp_path):
    written(home, 30, pause_after=20)
    file = tmp_path / "learned.png"
    code, out, _ = run("book", "--picture", file)
    assert (code, out) == (0, f"4 graphs of 30 glue-ups drawn in {file}\n")
    with Image.open(file) as picture:
        pixels = np.asarray(picture.convert("L"))
    assert pixels.shape[1] == 2 * EACH_PX[0] + 3 * 40
    assert 0.01 < (pixels < 128).mean() < 0.15


@pytest.mark.parametrize("count", [0, 1])
def test_a_book_of_none_or_one_is_drawn(run, home, tmp_path, count):
    written(home, count)
    assert run("book", "--picture", tmp_path / "a.png")[0] == 0
    with Image.open(tmp_path / "a.png") as picture:
        assert picture.size[0] > 1000


def test_picture_and_table_come_out_of_one_call(run, home, tmp_path):
    written(home, 3)
    code, out, _ = run("book", "--picture", tmp_path / "a.png", "--csv", "-")
    assert code == 0
    assert len(out.strip().split("\n")) == 4
    assert (tmp_path / "a.png").exists()


def test_a_picture_that_cannot_be_written_is_told_in_a_line(refused, home, tmp_path):
    written(home, 1)
    assert "cannot be written" in refused("book", "--picture", tmp_path / "no" / "a.png")


def test_ink_stands_out_of_paper_as_on_the_screens():
    """WCAG 2.2, 1.4.6: 7 to 1."""
    assert contrast([c / 255 for c in INK], [c / 255 for c in PAPER]) >= 7


def test_marks_of_the_picture_are_where_the_layout_has_them(home):
    """A dot of the pace graph is dark in its middle; a spot's place is read off the same axes."""
    with Store.in_memory() as store:
        graph = learned_graphs(book_of(store, days(6)))[0]
    pixels = np.asarray(graph_image(graph, EACH_PX).convert("L")) < 100
    solid = sum(pixels[y - 6 : y + 7, x - 6 : x + 7].all() for y, x in zip(*np.nonzero(pixels), strict=True))
    assert solid >= 6  # each of the six, and the one in the key


def test_the_book_tells_trends_and_a_day_alone(run, home):
    written(home, 6)
    out = run("book")[1]
    assert "What the book has learned, over all panels:\n  Over the weeks: nothing to be seen yet" in out
    code, out, _ = run("book", "--day", "2026-01-06")
    assert code == 0
    entries = [line for line in out.split("\n") if line.startswith("20")]
    assert entries
    assert {line[:10] for line in entries} == {"2026-01-06"}
    assert run("book", "--day", "yesterday")[0] == 2


def test_entries_are_found_by_all_their_words(run, home, refused):
    written(home, 6)
    code, out, _ = run("book", "--find", "RESIN", "to work")
    entries = [line for line in out.split("\n") if line.startswith("20")]
    assert code == 0
    assert len(entries) == 6
    assert all("resin" in line and "to work" in line for line in entries)
    assert entries == sorted(entries, reverse=True)
    assert "What the book has learned" not in out
    of_a_day = run("book", "--find", "resin", "to work", "--day", "2026-01-06")[1]
    assert of_a_day.count("\n2026-01-06") == 3
    assert run("book", "--find", "resin", "vermilion")[1].endswith("No entry holds resin, vermilion.\n")
    assert "there is no word to look for" in refused("book", "--find", "")


def test_entries_are_found_in_the_language_shown(run, home):
    written(home, 1)
    speak(Tongue("de"))
    try:
        out = run("book", "--find", "vermilion")[1]
    finally:
        speak(Tongue())
    assert out.endswith("Kein Eintrag enthält vermilion.\n")
