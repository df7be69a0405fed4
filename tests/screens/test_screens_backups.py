"""Copies of the book on screen, what is told of how it was opened, and a book that is only read."""

from contextlib import contextmanager

import pytest

from bench.app import bench_app
from bench.book import copies, open_book
from bench.book.events import BenchSet
from bench.book.files import BOOK_NAME
from bench.job.acts import record
from bench.job.acts.opening import open_panel
from bench.job.job import Job
from bench.screens.offscreen import Stage
from bench.speech import Tongue, speak
from tests.fakes.benches import changed, settle, start_mix
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.gloves import complaints

SIZES = ((1280, 800), (800, 1280), (2560, 1600))
DAY_S = 24 * 3600.0


@contextmanager
def app_on(stage, folder, clock):
    """Play the app on a folder's book as the app opens it; yield its desk."""
    opened = open_book(folder, clock)
    with opened.store as store:
        panels = store.panels()
        if panels:
            job = Job(store, clock, panels[-1].panel_id)
        else:
            bench = BenchSet(pace_per_min=5.0)
            job = open_panel(store, clock, grid_svg(24, 12), "lemons.svg", bench=bench)
        with stage.play(bench_app(job, told=opened.told)) as app:
            yield app.desk
            settle(stage, app.desk)


@pytest.fixture
def clock():
    return FakeClock()


@pytest.fixture
def folder(stage, tmp_path, clock):
    """A book of two days: its backup lacks the note of the second."""
    with app_on(stage, tmp_path, clock) as desk:
        record.note(desk.job, "Cobalt sheet is cut.")
    clock.advance(DAY_S)
    with app_on(stage, tmp_path, clock) as desk:
        record.note(desk.job, "Amber sheet is cut.")
    return tmp_path


def shown_backups(stage, desk):
    desk.go("book")
    stage.frame(2)
    stage.tap("backups")
    stage.run(1)


def notes(job):
    return [e.event.text for e in job.store.events(job.panel_id) if e.event.kind == "note_written"]


def test_a_copy_is_chosen_looked_at_and_put_back(stage: Stage, folder, clock) -> None:
    with app_on(stage, folder, clock) as desk:
        shown_backups(stage, desk)
        newest = copies(folder)[0]
        stage.tap(f"copy_{newest.number}")
        assert "1 panel, 4 entries" in stage.find("copy_lines").text
        stage.tap("put_back")
        stage.run(1)
        assert notes(desk.job) == ["Cobalt sheet is cut."]
        assert desk.screen == "panel"
        assert "The book is as it was on 5 May 2026" in " ".join(stage.texts())
        stage.tap("news_act")
        assert "news_act" not in stage.names()
        aside = next(copy for copy in copies(folder) if not copy.is_backup)
        shown_backups(stage, desk)
        stage.tap(f"copy_{aside.number}")
        stage.tap("put_back")
        stage.run(1)
        assert notes(desk.job) == ["Cobalt sheet is cut.", "Amber sheet is cut."]


def test_leaving_goes_back_to_the_list_and_then_to_the_entries(stage: Stage, folder, clock) -> None:
    with app_on(stage, folder, clock) as desk:
        shown_backups(stage, desk)
        stage.tap(f"copy_{copies(folder)[0].number}")
        stage.tap("backups_leave")
        assert f"copy_{copies(folder)[0].number}" in stage.names()
        stage.tap("backups_leave")
        assert any(name.startswith("entry_") for name in stage.names())


def test_while_a_mix_runs_no_copy_is_put_back(stage: Stage, folder, clock) -> None:
    with app_on(stage, folder, clock) as desk:
        start_mix(desk.job, 1)
        changed(desk)
        shown_backups(stage, desk)
        stage.tap(f"copy_{copies(folder)[0].number}")
        stage.tap("put_back")
        stage.run(1)
        assert "A mix runs on this panel" in " ".join(stage.texts())
        assert len(notes(desk.job)) == 2


def test_a_damaged_copy_is_named_and_cannot_be_put_back(stage: Stage, folder, clock) -> None:
    copy = copies(folder)[0]
    copy.path.write_bytes(b"spoiled" * 1000)
    with app_on(stage, folder, clock) as desk:
        shown_backups(stage, desk)
        stage.tap(f"copy_{copy.number}")
        assert "It cannot be put back" in stage.find("copy_lines").text
        assert "put_back" not in stage.names()


def test_a_practice_book_has_no_copies(stage: Stage, folder, clock) -> None:
    with app_on(stage, folder, clock) as desk:
        desk.practise()
        shown_backups(stage, desk)
        assert "There is no backup yet." in " ".join(stage.texts())
        desk.end_practice()


@pytest.mark.parametrize("size", SIZES)
def test_a_thumb_in_a_glove_can_put_a_copy_back(stage: Stage, folder, clock, size) -> None:
    with app_on(stage, folder, clock) as desk:
        stage.resize(*size)
        desk.go("book")
        stage.frame(3)
        assert complaints(stage) == {}
        shown_backups(stage, desk)
        assert complaints(stage) == {}
        stage.tap(f"copy_{copies(folder)[0].number}")
        assert complaints(stage) == {}
        stage.tap("put_back")
        stage.run(1)
        assert complaints(stage) == {}


def test_that_the_book_was_mended_is_told_until_it_was_read(stage: Stage, folder, clock) -> None:
    path = folder / BOOK_NAME
    path.write_bytes(path.read_bytes()[:6000])
    with app_on(stage, folder, clock) as desk:
        told = " ".join(stage.texts())
        aside = next(copy for copy in copies(folder) if copy.why == "damaged")
        assert "The book was damaged and is mended" in told
        assert f"copy {aside.number}, set aside" in told
        desk.go("dry")
        stage.frame(2)
        assert "The book was damaged" in " ".join(stage.texts())
        assert complaints(stage) == {}
        stage.tap("news_act")
        assert "The book was damaged" not in " ".join(stage.texts())


def test_a_backup_is_made_while_the_app_stays_open_over_night(stage: Stage, folder, clock) -> None:
    with app_on(stage, folder, clock):
        before = len(copies(folder))
        clock.advance(DAY_S)
        stage.run(16)
        assert len(copies(folder)) == before + 1


def test_a_second_instance_says_so_refuses_acts_and_follows_the_first(stage: Stage, folder, clock) -> None:
    first = open_book(folder, clock).store
    with first, app_on(stage, folder, clock) as desk:
        assert "in use by another program" in stage.find("reading_only").text
        assert "Close the other Potwatch" in " ".join(stage.texts())
        for size in SIZES:
            stage.resize(*size)
            assert complaints(stage) == {}
        stage.tap("news_act")
        for place in ("panel", "dry", "book", "finish", "setup", "open", "rounds"):
            desk.go(place)
            stage.frame(3)
            assert complaints(stage) == {}, place
        done, _ = desk.attempt(record.note, "Cobalt again.")
        assert not done
        assert "opened for reading only" in " ".join(stage.texts())
        desk.go("book")
        record.note(Job(first, clock, desk.job.panel_id, desk.job.panel), "Written by the first.")
        stage.run(1)
        assert "Written by the first." in stage.texts()
        stage.run(20)  # no mark is tried, and no backup
        assert desk.fault_what == ""


def test_settings_chosen_while_reading_only_hold_and_are_not_kept(stage: Stage, folder, clock) -> None:
    with open_book(folder, clock).store, app_on(stage, folder, clock) as desk:
        desk.keep_setting("look", "dark")
        assert (desk.fault_what, desk.job.store.setting("look")) == ("", None)


def test_copies_are_read_in_german_and_nothing_is_cut(stage: Stage, folder, clock) -> None:
    speak(Tongue("de"))
    try:
        with app_on(stage, folder, clock) as desk:
            shown_backups(stage, desk)
            for name in (None, f"copy_{copies(folder)[0].number}"):
                if name is not None:
                    stage.tap(name)
                    assert "1 Tafel, 4 Einträge, der letzte vom" in stage.find("copy_lines").text
                    assert stage.find("put_back").text == "Zurückholen"
                for width, height in SIZES:
                    stage.resize(width, height)
                    assert complaints(stage) == {}
                stage.resize(1280, 800)
    finally:
        speak(Tongue())
