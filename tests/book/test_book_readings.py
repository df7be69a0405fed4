"""What was made of a file is kept beside the book, and its loss never matters."""

import os

import pytest

from bench.book.readings import MOST_KEPT, Readings


def test_what_was_kept_is_there_again(tmp_path):
    kept = Readings(tmp_path / "r")
    kept.put("one.npz", b"abc")
    assert Readings(tmp_path / "r").get("one.npz") == b"abc"
    assert kept.get("two.npz") is None


def test_only_the_newest_stay(tmp_path):
    kept = Readings(tmp_path / "r")
    for k in range(MOST_KEPT + 5):
        kept.put(f"{k}.npz", b"x")
        os.utime(tmp_path / "r" / f"{k}.npz", (k, k))
    kept.put("last.npz", b"x")
    assert kept.get("last.npz") == b"x"
    assert kept.get("0.npz") is None
    assert len(list((tmp_path / "r").iterdir())) == MOST_KEPT


@pytest.mark.parametrize("key", ["../evil", "", "a/b", "x" * 300, "é"])
def test_a_key_never_leads_out_of_the_folder(tmp_path, key):
    kept = Readings(tmp_path / "r")
    kept.put(key, b"x")
    assert kept.get(key) is None
    assert not (tmp_path / "evil").exists()


def test_a_folder_that_cannot_be_made_or_no_folder_at_all_keeps_nothing(tmp_path):
    (tmp_path / "r").write_text("a file")
    for kept in (Readings(tmp_path / "r"), Readings(None), Readings(tmp_path / "new", read_only=True)):
        kept.put("one.npz", b"x")
        assert kept.get("one.npz") is None
    assert not (tmp_path / "new").exists()
