"""Files are found where cameras and cards keep them; a folder that never answers holds nothing up."""

import os
import threading
from pathlib import Path

import pytest

from bench.screens import places
from bench.screens.offscreen import Stage
from bench.screens.places import Finds, Place, folders_in, usual_places
from tests.fakes.benches import at_the_bench
from tests.fakes.drawings import grid_svg


def always():
    return True


def found(looked_into, endings=(".jpg",), go=always):
    finds = Finds(endings)
    finds.search(looked_into, go)
    return [path.name for path in finds.newest(200)]


@pytest.fixture
def cards(home, monkeypatch):
    """Where cards are mounted here."""
    monkeypatch.setattr(places, "MOUNTED_IN", (str(home / "mounted"),))
    monkeypatch.delenv("XDG_PICTURES_DIR", raising=False)
    return home / "mounted"


def lay(path: Path, age: int = 0) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(b"x")
    os.utime(path, (1e9 - age, 1e9 - age))
    return path


def test_a_cameras_folders_and_its_card_are_looked_into_the_newest_first(home, cards) -> None:
    lay(home / "Pictures" / "Camera" / "b.JPG", 20)
    lay(home / "DCIM" / "Camera" / "a.jpg", 10)
    lay(cards / "CARD" / "DCIM" / "100" / "c.jpg", 30)
    lay(home / "Downloads" / "film" / "d.jpg", 40)
    lay(home / "work" / "not-usual.jpg")
    lay(home / "Pictures" / "one" / "two" / "three" / "too-deep.jpg")
    lay(home / "Pictures" / ".thumbnails" / "hidden.jpg")
    assert found(usual_places()) == ["a.jpg", "b.JPG", "c.jpg", "d.jpg"]


@pytest.mark.skipif(os.name == "nt", reason="needs a right to make links there")
def test_a_link_to_a_folder_is_not_followed_and_one_that_leads_back_ends_nothing(home, cards) -> None:
    lay(home / "elsewhere" / "out.jpg")
    lay(home / "Pictures" / "in.jpg")
    (home / "Pictures" / "link").symlink_to(home / "elsewhere")
    (home / "Pictures" / "back").symlink_to(home / "Pictures")
    assert found(usual_places()) == ["in.jpg"]
    assert [path.name for path in folders_in(home / "Pictures")] == []


def test_what_cannot_be_looked_at_is_passed_over(home, monkeypatch) -> None:
    lay(home / "Pictures" / "shut" / "a.jpg")
    lay(home / "Pictures" / "b.jpg")
    scandir = os.scandir

    def refuse(folder):
        if str(folder).endswith("shut"):
            raise PermissionError(13, "no")
        return scandir(folder)

    monkeypatch.setattr(os, "scandir", refuse)
    assert found([Place(home / "Pictures", 2), Place(home / "gone", 2)]) == ["b.jpg"]


def test_a_search_ends_after_so_many_folders_or_files_or_when_nobody_waits(home, monkeypatch) -> None:
    for k in range(8):
        lay(home / "Pictures" / str(k) / f"{k}.jpg")
    whole = [Place(home / "Pictures", 1)]
    assert len(found(whole)) == 8
    assert found(whole, go=lambda: False) == []
    monkeypatch.setattr(places, "MOST_FOLDERS", 4)
    assert len(found(whole)) == 3
    monkeypatch.setattr(places, "MOST_FOLDERS", 300)
    monkeypatch.setattr(places, "MOST_SEEN", 10)
    assert len(found(whole)) < 8


def test_a_place_that_another_search_is_stuck_in_is_left_alone(home, monkeypatch) -> None:
    lay(home / "net" / "a.jpg")
    monkeypatch.setitem(places._asked, str(home / "net"), float("-inf"))
    assert found([Place(home / "net")]) == []
    assert str(home / "net") in places._asked
    monkeypatch.delitem(places._asked, str(home / "net"))
    assert found([Place(home / "net")]) == ["a.jpg"]
    assert places._asked == {}


def test_a_folder_that_does_not_answer_holds_no_screen_up(stage: Stage, home, cards, monkeypatch) -> None:
    from bench.screens import shelf

    lay(home / "Pictures" / "here.jpg")
    lay(cards / "NET" / "there.jpg")
    answers, scandir = threading.Event(), os.scandir

    def slow(folder):
        if "NET" in str(folder):
            answers.wait(60)
        return scandir(folder)

    monkeypatch.setattr(os, "scandir", slow)
    monkeypatch.setattr(shelf, "WAIT_S", 0.2)
    with at_the_bench(stage) as desk:
        desk.go("photograph", section=1)
        stage.frame(3)
        assert "photo_here" in stage.names()
        assert "Looking" in stage.find("photos_say").text
        answers.set()
        for _ in range(400):
            stage.frame(1)
            if "photo_there" in stage.names():
                break
            threading.Event().wait(0.01)
        assert "photo_there" in stage.names()
        assert stage.find("photos_say").text == ""


def test_any_folder_can_be_walked_to(stage: Stage, home, cards) -> None:
    work = home / "work" / "lemons"
    work.mkdir(parents=True)
    (work / "bowl.svg").write_bytes(grid_svg(10, 8))
    with at_the_bench(stage) as desk:
        desk.go("open")
        stage.frame(2)
        assert "open_file_bowl" not in stage.names()
        for name in ("folders", "folder_work", "folder_lemons"):
            stage.tap(name)
        assert stage.find("folder_up").says == "work"
        stage.tap("folder_up")
        stage.tap("folders_leave")
        assert "open_demo" in stage.names()
        for name in ("folders", "folder_work", "folder_lemons", "open_file_bowl", "file_open"):
            stage.tap(name)
        stage.run(1)
        assert desk.job.panel.tessera_count == 80


def test_a_file_dropped_on_the_window_is_taken_where_files_are_chosen(stage: Stage, home) -> None:
    path = home / "dropped.svg"
    path.write_bytes(grid_svg(10, 8))
    with at_the_bench(stage) as desk:
        stage.window.dispatch("on_drop_file", os.fsencode(path), 10, 10)
        stage.frame(2)
        assert desk.screen == "panel"
        desk.go("open")
        stage.frame(2)
        stage.window.dispatch("on_drop_file", os.fsencode(path), 10, 10)
        stage.frame(2)
        assert stage.find("file_says").text.startswith("Home folder")
        lay(home / "dropped.jpg")
        desk.go("photograph", section=1)
        stage.frame(2)
        stage.window.dispatch("on_drop_file", os.fsencode(home / "dropped.jpg"), 10, 10)
        for _ in range(400):
            stage.frame(1)
            if desk.fault_what:
                break
            threading.Event().wait(0.01)
        assert "dropped.jpg" in desk.fault_where + desk.fault_what
