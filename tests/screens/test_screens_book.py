"""Book: read, filter, take back, and add what only the maker knows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.job.acts import dry, record
from bench.job.advice import advise
from bench.job.words import book_lines
from bench.screens.offscreen import Stage
from bench.speech import day_of_month
from tests.fakes.benches import at_the_bench, changed, set_section, settle
from tests.fakes.gloves import complaints
from tests.fakes.tapping import type_in


@pytest.fixture
def desk(stage: Stage):
    with at_the_bench(stage) as desk:
        set_section(desk.job, advise(desk.job).section, minutes=12)
        changed(desk)
        settle(stage, desk)  # numbers of sections stay as the tests find them
        desk.go("book")
        stage.frame(2)
        yield desk


def entries(stage: Stage) -> list[str]:
    """Return the entries on the page, top down."""
    rows = [w for w in stage.widgets() if getattr(w, "test_name", "").startswith("entry_")]
    return [w.text for w in sorted(rows, key=lambda w: -w.top)]


def test_the_newest_entry_stands_on_top(stage: Stage, desk) -> None:
    shown = entries(stage)
    assert shown == [line.text for line in book_lines(desk.job)][: len(shown)]
    assert "pieces set in 12:00, all placed" in shown[0]


def test_all_pages_together_hold_every_entry_once(stage: Stage, desk) -> None:
    seen = entries(stage)
    assert stage.find("newer").disabled
    while not stage.find("older").disabled:
        stage.tap("older")
        seen += entries(stage)
    assert sorted(seen) == sorted(line.text for line in book_lines(desk.job))
    stage.tap("newer")
    assert not stage.find("older").disabled


def test_entries_lie_within_the_page(stage: Stage, desk) -> None:
    for size in ((1280, 800), (800, 1280)):
        stage.resize(*size)
        rows = [w for w in stage.widgets() if getattr(w, "test_name", "").startswith("entry_")]
        assert rows
        assert min(w.y for w in rows) >= stage.find("newer").top


def test_a_tap_on_an_entry_shows_its_section_alone(stage: Stage, desk) -> None:
    newest = book_lines(desk.job)[0]
    stage.tap(f"entry_{newest.seq}")
    assert f"Book, section {newest.section}" in stage.texts()
    of_it = [line.text for line in book_lines(desk.job, section=newest.section)]
    assert set(entries(stage)) <= set(of_it)
    stage.tap("all_sections")
    assert "Book" in stage.texts()


def test_a_section_is_asked_for_by_its_number(stage: Stage, desk) -> None:
    number = max(desk.job.state.used_numbers)
    desk.attempt(dry.lay, next(s.number for s in desk.job.state.with_stage("drawn")))
    stage.tap("some")
    stage.tap("one_section")
    type_in(stage, str(number))
    assert f"Book, section {number}" in stage.texts()
    assert entries(stage) == [line.text for line in book_lines(desk.job, section=number)]


def test_section_and_day_are_chosen_together_in_either_order(stage: Stage, desk) -> None:
    number = desk.job.mix(1).section
    first = book_lines(desk.job)[0].day
    desk.job.clock.advance(2 * 86_400)
    desk.attempt(dry.lay, next(s.number for s in desk.job.state.with_stage("drawn")))
    stage.frame(2)

    def choose_section() -> None:
        stage.tap("some")
        stage.tap("one_section")
        type_in(stage, str(number))

    def choose_day() -> None:
        stage.tap("some")
        stage.tap(f"day_{first.isoformat()}")

    for ways in ((choose_section, choose_day), (choose_day, choose_section)):
        for choose in ways:
            assert "some" in stage.names()
            choose()
        assert f"Book, {day_of_month(first)}, section {number}" in stage.texts()
        assert stage.find("all_sections").text == "All entries"
        assert "some" not in stage.names()
        both = [line.text for line in book_lines(desk.job, section=number, day=first)]
        assert both
        assert entries(stage) == both[: len(entries(stage))]
        assert complaints(stage) == {}
        stage.tap("all_sections")
        assert "Book" in stage.texts()
        assert entries(stage)[0] == book_lines(desk.job)[0].text


def test_where_a_section_is_chosen_its_days_are_offered_and_no_others(stage: Stage, desk) -> None:
    number = desk.job.mix(1).section
    days = {line.day for line in book_lines(desk.job, section=number)}
    desk.job.clock.advance(2 * 86_400)
    record.note(desk.job, "Nothing of that section.")
    changed(desk)
    stage.frame(2)
    stage.tap(f"entry_{next(line.seq for line in book_lines(desk.job) if line.section == number)}")
    stage.tap("some")
    assert {n.removeprefix("day_") for n in stage.names() if n.startswith("day_")} == {
        day.isoformat() for day in days
    }


def test_a_page_without_an_entry_says_so(stage: Stage, desk) -> None:
    record.note(desk.job, "Of no section.")
    changed(desk)
    number = desk.job.mix(1).section
    desk.job.clock.advance(2 * 86_400)
    record.note(desk.job, "Two days on.")
    changed(desk)
    stage.tap("some")
    stage.tap(f"day_{book_lines(desk.job)[0].day.isoformat()}")
    stage.tap("some")
    stage.tap("one_section")
    type_in(stage, str(number))
    assert stage.find("nothing_found").text == "There is no such entry. Choose others, or all of them."
    assert entries(stage) == []


def test_undo_takes_back_and_the_book_keeps_both(stage: Stage, desk) -> None:
    record.note(desk.job, "Cobalt sheet is used up.")
    changed(desk)
    stage.frame(2)
    assert stage.find("undo").says == "Cobalt sheet is used up."
    stage.tap("undo")
    shown = entries(stage)
    assert "Took back: Cobalt sheet is used up." in shown
    assert "Taken back: Cobalt sheet is used up." in shown


def test_the_makers_words_are_kept_and_blank_ones_refused(stage: Stage, desk) -> None:
    stage.tap("write_note")
    stage.tap("note_keep")
    assert "There is nothing to write" in stage.texts()
    stage.find("note_field").text = "Blue from the third sheet."
    stage.tap("note_keep")
    assert book_lines(desk.job)[0].text == "Blue from the third sheet."
    assert "note_field" not in stage.names()
    stage.tap("write_note")
    assert stage.find("note_field").text == ""
    stage.tap("note_leave")
    assert entries(stage)


def test_a_long_note_is_cut_on_the_page_and_read_whole_by_a_tap(stage: Stage, desk) -> None:
    words = [f"word{k}" for k in range(300)]
    record.note(desk.job, " ".join(words))
    changed(desk)
    stage.frame(2)
    line = book_lines(desk.job)[0]
    stage.tap(f"entry_{line.seq}")
    read: list[str] = []
    for _ in range(20):
        page = [text for text in stage.texts() if "word" in text]
        if set(page) <= set(read):
            break
        read += page
        stage.tap("reading_more")
    assert sorted(" ".join(read).split()) == sorted(words)
    stage.tap("reading_close")
    assert "reading_close" not in stage.names()


def test_the_cup_that_went_is_told_once_with_its_minutes(stage: Stage, desk) -> None:
    stage.tap("cup_went")
    stage.tap("pad_4")
    stage.tap("pad_5")
    stage.tap("pad_use")
    assert desk.job.mix(1).cup_went_s == 45 * 60
    assert "cup_went" not in stage.names()


@given(
    st.lists(st.floats(1, 400), max_size=40),
    st.floats(50, 900),
    st.floats(0, 30),
)
def test_pages_hold_every_item_once_in_order_and_as_many_as_fit(heights, room, gap) -> None:
    from bench.screens.parts.pages import pages_of

    pages = pages_of(heights, room, gap)
    assert [k for page in pages for k in page] == list(range(len(heights)))
    for page, following in zip(pages, [*pages[1:], range(0)], strict=True):
        used = sum(heights[k] for k in page) + gap * max(0, len(page) - 1)
        assert used <= room + 1e-6 or len(page) == 1
        if following:
            assert used + gap + heights[following[0]] > room - 1e-6


def test_a_note_goes_on_the_entry_that_was_tapped_and_stands_beneath_it(stage: Stage, desk) -> None:
    name = next(n for n in stage.names() if n.startswith("entry_"))
    assert stage.find("write_note").text == "Write a note"
    stage.tap(name)
    assert stage.find("write_note").text == "Note on this entry"
    stage.tap("write_note")
    stage.find("note_field").text = "cold resin"
    stage.tap("note_keep")
    assert stage.find(name).notes == "– cold resin"
    assert complaints(stage) == {}
    newest = book_lines(desk.job)[0]
    assert newest.text.startswith("cold resin (on: ")
    stage.tap("undo")
    assert stage.find(name).notes == ""


def test_a_note_on_no_entry_stays_one_of_its_own(stage: Stage, desk) -> None:
    stage.tap("write_note")
    stage.find("note_field").text = "a quiet day"
    stage.tap("note_keep")
    assert book_lines(desk.job)[0].text == "a quiet day"


def test_a_photo_is_attached_to_the_entry_that_was_tapped_and_shown_again(stage: Stage, home) -> None:
    import time

    import numpy as np
    from PIL import Image

    from tests.fakes.gloves import complaints

    (home / "Pictures").mkdir()
    Image.fromarray(np.full((60, 80, 3), 90, np.uint8)).save(home / "Pictures" / "edge.png")

    def until(found) -> None:
        end = time.monotonic() + 20
        while not found() and time.monotonic() < end:
            time.sleep(0.02)
            stage.frame()
        assert found()

    with at_the_bench(stage) as desk:
        set_section(desk.job, advise(desk.job).section, minutes=12)
        changed(desk)
        desk.go("book")
        stage.frame(2)
        assert "attach" not in stage.names()
        about = next(line for line in book_lines(desk.job) if "all placed" in line.text)
        stage.tap(f"entry_{about.seq}")
        assert stage.find(f"entry_{about.seq}").marked
        assert complaints(stage) == {}
        stage.tap("attach")
        stage.tap("attach_edge")
        until(lambda: book_lines(desk.job)[0].attached)
        stage.run(0.5)
        assert stage.find(f"entry_{about.seq}").when.endswith("with a photo")
        stage.tap(f"entry_{about.seq}")
        until(lambda: "kept_photo" in stage.names())
        assert stage.find("kept_head").text == about.text
        stage.tap("kept_back")
        stage.tap("undo")
        assert not stage.find(f"entry_{about.seq}").when.endswith("with a photo")
