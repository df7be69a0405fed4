"""Words are looked for among the entries of the book: typed with gloves or keys, found newest first."""

import pytest

from bench.job.acts import dry, record
from bench.job.advice import advise
from bench.job.finding import holding
from bench.job.words import book_lines
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, set_section
from tests.fakes.gloves import complaints
from tests.fakes.tongues import speaking
from tests.gallery.ways import letters

SIZES = ((1280, 800), (800, 1280), (2560, 1600), (1024, 600))
LONG = " ".join(f"word{k}" for k in range(120)) + " vermilion " + " ".join(f"more{k}" for k in range(60))


def begun(stage: Stage, desk) -> None:
    set_section(desk.job, advise(desk.job).section, minutes=12)
    record.note(desk.job, "Cobalt from sheet 4.")
    record.note(desk.job, "Straße side: cobalt chips.")
    changed(desk)
    desk.go("book")
    stage.frame(2)


@pytest.fixture
def desk(stage: Stage):
    with at_the_bench(stage) as desk:
        begun(stage, desk)
        yield desk


def section_set(desk) -> int:
    """Return the section that was set."""
    return next(line.section for line in book_lines(desk.job) if "all placed" in line.text)


def look_for(stage: Stage, words: str) -> None:
    """Type words on the pad and look for them."""
    stage.tap("find")
    letters(words)(stage, None)
    stage.tap("lot_use")
    stage.run(0.5)


def rows(stage: Stage) -> list:
    found = [w for w in stage.widgets() if getattr(w, "test_name", "").startswith("entry_")]
    return sorted(found, key=lambda w: -w.top)


def texts(stage: Stage) -> list[str]:
    """Return the entries of all pages, top down."""
    seen = [row.text for row in rows(stage)]
    while not stage.find("older").disabled:
        stage.tap("older")
        seen += [row.text for row in rows(stage)]
    return seen


def test_entries_that_hold_all_words_stand_newest_first_under_the_words(stage: Stage, desk) -> None:
    look_for(stage, "cobalt")
    assert "Book: COBALT" in stage.texts()
    assert texts(stage) == ["Straße side: cobalt chips.", "Cobalt from sheet 4."]
    stage.tap("find")
    assert stage.find("lot_value").text == "COBALT"  # to be changed
    letters(" 4")(stage, None)
    stage.tap("lot_use")
    stage.run(0.5)
    assert "Book: COBALT 4" in stage.texts()
    assert texts(stage) == ["Cobalt from sheet 4."]


def test_the_same_entries_are_found_as_on_the_command_line(stage: Stage, desk) -> None:
    look_for(stage, "pieces set")
    assert texts(stage) == [line.text for line in holding(book_lines(desk.job), ["pieces", "set"])]


def test_one_key_leads_back_to_all_entries(stage: Stage, desk) -> None:
    look_for(stage, "cobalt")
    assert stage.find("all_sections").text == "All entries"
    stage.tap("all_sections")
    assert "Book" in stage.texts()
    assert texts(stage) == [line.text for line in book_lines(desk.job)]
    assert "some" in stage.names()
    stage.tap("find")
    assert stage.find("lot_use").disabled  # nothing is looked for any more


def test_nothing_found_is_told_with_what_to_do(stage: Stage, desk) -> None:
    look_for(stage, "vermilion")
    told = stage.find("nothing_found").text
    assert told == "No entry holds VERMILION. Find it with fewer words, or with only part of one."
    assert rows(stage) == []
    assert complaints(stage) == {}
    stage.tap("all_sections")
    assert "nothing_found" not in stage.names()
    assert rows(stage)


def test_words_are_looked_for_within_a_section(stage: Stage, desk) -> None:
    number = section_set(desk)
    other = next(s.number for s in desk.job.state.with_stage("drawn"))
    desk.attempt(dry.lay, other)
    stage.frame(2)
    stage.tap("some")
    stage.tap("one_section")
    for sign in str(number):
        stage.tap(f"pad_{sign}")
    stage.tap("pad_use")
    look_for(stage, "pieces")
    assert f"Book, section {number}: PIECES" in stage.texts()
    found = [x.text for x in holding(book_lines(desk.job, section=number), ["pieces"])]
    assert found
    assert texts(stage) == found
    look_for(stage, "x")  # after what was looked for before
    told = stage.find("nothing_found").text
    assert told.startswith("No entry among these holds PIECESX. Find it among all")
    stage.tap("all_sections")
    assert "Book" in stage.texts()


def test_words_are_looked_for_within_a_day(stage: Stage, desk) -> None:
    stage.tap("some")
    day = book_lines(desk.job)[0].day
    stage.tap(f"day_{day.isoformat()}")
    look_for(stage, "cobalt")
    assert any(text.startswith("Book, ") and text.endswith(": COBALT") for text in stage.texts())
    assert texts(stage) == [x.text for x in holding(book_lines(desk.job, day=day), ["cobalt"])]


def test_a_tap_on_what_was_found_shows_its_section_with_the_words(stage: Stage, desk) -> None:
    look_for(stage, "all placed")
    newest = holding(book_lines(desk.job, section=section_set(desk)), ["all placed"])[0]
    stage.tap(f"entry_{newest.seq}")
    assert f"Book, section {newest.section}: ALL PLACED" in stage.texts()
    assert stage.find(f"entry_{newest.seq}").marked


def test_a_keyboard_types_and_finds_and_leads_back(stage: Stage, desk) -> None:
    stage.tap("find")
    for key in ("c", "o", "b", "x", "backspace", "spacebar", "spacebar", "4"):
        stage.press(key)
    assert stage.find("lot_value").text == "COB 4"
    stage.press("enter")
    stage.run(0.5)
    assert texts(stage) == ["Cobalt from sheet 4."]
    stage.press("escape")
    stage.frame(2)
    assert "Book" in stage.texts()
    assert texts(stage) == [line.text for line in book_lines(desk.job)]
    stage.tap("find")
    stage.press("enter")  # nothing is typed yet, so that nothing happens
    assert "lot_value" in stage.names()
    stage.press("escape")
    stage.frame(2)
    assert rows(stage)


def test_leaving_the_pad_changes_nothing(stage: Stage, desk) -> None:
    look_for(stage, "cobalt")
    stage.tap("find")
    letters("s")(stage, None)
    stage.tap("lot_leave")
    assert "Book: COBALT" in stage.texts()
    assert len(texts(stage)) == 2


def test_of_a_long_note_the_place_of_the_word_is_shown(stage: Stage, desk) -> None:
    record.note(desk.job, LONG)
    changed(desk)
    stage.frame(2)
    look_for(stage, "vermilion")
    (row,) = rows(stage)
    assert "vermilion" in row.text
    assert row.text.startswith("… ")
    assert row.text.endswith(" …")


def test_an_entry_written_meanwhile_is_among_those_found(stage: Stage, desk) -> None:
    look_for(stage, "cobalt")
    record.note(desk.job, "No cobalt left.")
    record.note(desk.job, "Amber.")
    changed(desk)
    stage.frame(2)
    assert texts(stage)[0] == "No cobalt left."
    assert len(texts(stage)) <= 3
    assert "Amber." not in texts(stage)


@pytest.mark.parametrize("size", SIZES)
def test_pad_and_results_are_for_gloves(stage: Stage, desk, size) -> None:
    stage.resize(*size, density=2.0 if size[0] == 2560 else 1.0)
    stage.tap("find")
    letters("co 4")(stage, None)
    stage.frame(2)
    assert stage.find("lot_value").text == "CO 4"
    assert complaints(stage) == {}
    stage.tap("lot_use")
    stage.run(0.5)
    assert [row.text for row in rows(stage)] == ["Cobalt from sheet 4."]
    assert complaints(stage) == {}
    stage.resize(1280, 800, density=1.0)


def test_german_letters_are_typed_too(stage: Stage) -> None:
    with speaking("de"), at_the_bench(stage) as desk:
        begun(stage, desk)
        record.note(desk.job, "Grün über der Straße")
        changed(desk)
        stage.frame(2)
        look_for(stage, "über strasse")
        assert "Buch: ÜBER STRASSE" in stage.texts()
        assert texts(stage) == ["Grün über der Straße"]
        assert stage.find("all_sections").text == "Alle Einträge"
