"""Files are named as a maker would say them."""

from __future__ import annotations

from pathlib import Path

import pytest

from bench.screens.drawings import LONGEST_WORD, folder_words, name_words


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    return tmp_path


def test_a_file_in_the_home_is_named_by_the_folders_below_it(home: Path) -> None:
    assert folder_words(home / "bowl.svg") == "Home folder"
    assert folder_words(home / "Pictures" / "bowl.png") == "Pictures"
    assert folder_words(home / "Documents" / "work" / "lemons" / "bowl.svg") == "work, lemons"


def test_a_file_outside_the_home_is_named_by_its_own_folder(home: Path) -> None:
    assert folder_words(home.parent / "stick" / "bowl.svg") == "stick"
    assert folder_words(Path(home.anchor) / "bowl.svg") == home.anchor


def test_a_word_that_no_line_would_hold_loses_its_middle_and_keeps_its_ends() -> None:
    short = name_words("photo_of_the_blue_cloth_20261104_101500.jpg")
    assert len(short) == LONGEST_WORD
    assert (short[:11], short[-12:]) == ("photo_of_th", "4_101500.jpg")
    assert name_words("a bowl of lemons on a blue cloth.jpg") == "a bowl of lemons on a blue cloth.jpg"
