"""Names of panels, settings and what is said in drafts: a bit that flipped is noticed, and falls back."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from bench.book import WORKSHOP, open_book
from bench.book.faults import Damaged
from bench.book.files import BOOK_NAME
from bench.book.schema import KNOWN_VERSION, MIGRATIONS
from bench.book.store import Store
from bench.book.told import Mended
from bench.job.acts import record, stock
from bench.job.acts.opening import open_panel
from bench.job.drafts import begin_draft, begin_empty, draft_of, keep_draft
from bench.job.faults import DraftUnreadable
from bench.job.fold import fold
from bench.job.job import Job
from bench.speech import Tongue, speak
from tests.fakes.books import act_of_three, acts_in, from_outside, mended
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

SAMPLES = Path(__file__).parent / "samples"
SPOILS = {
    "panel": "UPDATE panel SET name = 'Lemonr' WHERE panel_id = 1",
    "setting": "UPDATE setting SET value = 'dusk' WHERE key = 'look'",
    "draft": "UPDATE draft SET body = replace(body, '2', '3')",
}
NO_TEXT = {  # a top bit that flipped leaves no text at all
    "panel": "UPDATE panel SET name = CAST(x'4CE56D6F6E73' AS TEXT) WHERE panel_id = 1",
    "setting": "UPDATE setting SET value = CAST(x'64E1726B' AS TEXT) WHERE key = 'look'",
    "draft": "UPDATE draft SET name = CAST(x'6CE56D6F6E73' AS TEXT)",
}


@pytest.fixture
def clock():
    return FakeClock()


@pytest.fixture
def folder(tmp_path, clock):
    """A book with a panel, a bottle, a setting and a draft; no backup of it."""
    with Store.open(tmp_path) as store:
        job = open_panel(store, clock, grid_svg(4, 3), "lemons.svg", name="Lemons")
        stock.open_bottle(job, "White paste", "resin", net_g=500.0)
        store.set_setting("look", "dark")
        draft_id = begin_draft(store, clock, "lemons.png", b"picture")
        keep_draft(store, clock, draft_id, draft_of(store, draft_id).changed(lighten=2))
    return tmp_path


@pytest.mark.parametrize("table", SPOILS)
def test_every_row_of_words_is_sealed(folder, table):
    rows = from_outside(folder / BOOK_NAME, f"SELECT seal FROM {table}")
    assert len(rows) >= {"panel": 2, "setting": 2, "draft": 1}[table]
    assert None not in {row[0] for row in rows}


@pytest.mark.parametrize(("table", "spoil"), [*SPOILS.items(), *NO_TEXT.items()])
def test_a_change_is_noticed_when_the_book_is_looked_at_whole(folder, clock, table, spoil):
    with Store.open(folder) as store:
        store.check(clock.utc())
    from_outside(folder / BOOK_NAME, spoil)
    with Store.open(folder) as store, pytest.raises(Damaged):
        store.check(clock.utc())


def test_what_has_changed_is_not_taken_for_what_was_said(folder):
    from_outside(folder / BOOK_NAME, *SPOILS.values())
    with Store.open(folder) as store:
        assert store.setting("look") is None
        for ask in (store.panels, store.drafts.all, lambda: store.drafts.row(1)):
            with pytest.raises(Damaged, match="has changed since it was written"):
                ask()


def test_a_changed_id_of_the_book_is_told(folder):
    from_outside(folder / BOOK_NAME, "UPDATE setting SET value = 'a' WHERE key = 'book_id'")
    with Store.open(folder) as store, pytest.raises(Damaged, match="a setting has changed"):
        _ = store.elsewhere.book_id


@pytest.mark.parametrize("spoil", [SPOILS["panel"], NO_TEXT["panel"]])
def test_a_panel_is_named_again_as_its_first_entry_names_it(folder, clock, spoil):
    from_outside(folder / BOOK_NAME, spoil)
    store, told = mended(folder, clock)
    with store:
        assert [panel.name for panel in store.panels()] == ["Lemons"]
        assert len(store.events(WORKSHOP)) == 1
        assert len(fold(store.events(1)).sections) > 0
        assert store.setting("look") == "dark"
        assert draft_of(store, 1).lighten == 2
    assert told.words_lost.names == 0  # it is the same name


@pytest.mark.parametrize("spoil", [SPOILS["setting"], NO_TEXT["setting"]])
def test_a_setting_is_as_it_usually_is_and_that_is_told(folder, clock, spoil):
    from_outside(folder / BOOK_NAME, spoil)
    store, told = mended(folder, clock)
    with store:
        assert store.setting("look") is None
        assert draft_of(store, 1).lighten == 2
    assert (told.words_lost.settings, told.lost) == (1, 0)
    assert "1 setting is lost" in told.what
    assert open_book(folder, clock).told == ()


@pytest.mark.parametrize("spoil", [SPOILS["draft"], NO_TEXT["draft"]])
def test_a_draft_keeps_its_picture_and_says_nothing(folder, clock, spoil):
    from_outside(folder / BOOK_NAME, spoil)
    store, told = mended(folder, clock)
    with store:
        (row,) = store.drafts.all()
        assert row.name.startswith("l")
        assert store.drafts.file(row.draft_id, "picture") == b"picture"
        with pytest.raises(DraftUnreadable):  # it begins anew with its picture
            draft_of(store, row.draft_id)
    assert told.words_lost.drafts == 1
    assert "what was said in 1 draft is lost, its pictures are kept" in told.what


def test_a_draft_of_an_empty_panel_is_one_again(folder, clock):
    with Store.open(folder) as store:
        number = begin_empty(store, clock)
    from_outside(folder / BOOK_NAME, f"UPDATE draft SET body = 'outlinf' WHERE draft_id = {number}")
    store, _ = mended(folder, clock)
    with store:
        again = draft_of(store, number)
        assert (again.kind, again.step) == ("empty", "outline")
        keep_draft(store, clock, number, again)
        assert draft_of(store, number) == again


def test_a_draft_whose_picture_has_changed_is_told_as_lost(folder, clock):
    path = folder / BOOK_NAME
    from_outside(path, "UPDATE draft_file SET data = x'00'", SPOILS["setting"])
    store, told = mended(folder, clock)
    with store:
        assert store.drafts.all() == []
    assert (told.words_lost.drafts, told.words_lost.drafts_gone) == (0, 1)
    assert "1 draft is lost" in told.what


def test_drafts_that_cannot_be_reached_are_told_as_uncertain(folder, clock):
    path = folder / BOOK_NAME
    (page,) = from_outside(path, "SELECT rootpage FROM sqlite_master WHERE name = 'draft'")[0]
    (size,) = from_outside(path, "PRAGMA page_size")[0]
    data = bytearray(path.read_bytes())
    data[(page - 1) * size : page * size] = bytes(size)
    path.write_bytes(bytes(data))
    store, told = mended(folder, clock)
    with store:
        assert store.drafts.all() == []
        assert store.setting("look") == "dark"
    assert (told.lost, told.words_lost.drafts) == (0, None)
    assert "whether drafts are lost cannot be told" in told.what


def test_an_index_that_says_something_else_is_mended(folder, clock):
    """Without it an entry is found under another panel, or never; no page looks odd."""
    path = folder / BOOK_NAME
    with closing(sqlite3.connect(path)) as connection:
        number = "SELECT rootpage FROM sqlite_master WHERE name = 'event_by_act'"
        (page,) = connection.execute(number).fetchone()
        (size,) = connection.execute("PRAGMA page_size").fetchone()
        act = connection.execute("SELECT act_id FROM event WHERE seq = 1").fetchone()[0].encode()
    data = bytearray(path.read_bytes())
    at = data.index(act, (page - 1) * size, page * size)
    data[at + 5] ^= 1
    path.write_bytes(bytes(data))
    store, told = mended(folder, clock)
    with store:
        assert len(fold(store.events(1)).sections) > 0
    assert (told.lost, told.kept) == (0, told.newer)


def test_what_a_backup_has_comes_from_there(folder, clock):
    open_book(folder, clock).store.close()
    from_outside(folder / BOOK_NAME, *SPOILS.values())
    store, told = mended(folder, clock)
    with store:
        assert [panel.name for panel in store.panels()] == ["Lemons"]
        assert store.setting("look") == "dark"
        assert draft_of(store, 1).lighten == 2
    assert (told.words_lost.settings, told.words_lost.drafts) == (1, 1)  # newer ones, for all that is known


def test_a_panel_that_parted_goes_by_the_name_of_the_other(folder, clock):
    with Store.open(folder) as store, store.together():
        drawing = store.panels()[0].drawing_sha256
        other = store.add_panel("Lemons (from the other tablet)", drawing, clock.utc())
        store.elsewhere.part(other, 1, 2)
        said = [store.append(other, act_of_three(1)[2:], at_utc=clock.utc())[0].event]
    from_outside(folder / BOOK_NAME, f"UPDATE panel SET name = 'Lemonr' WHERE panel_id = {other}")
    store, told = mended(folder, clock)
    with store:
        assert [panel.name for panel in store.panels()] == ["Lemons", "Lemons"]
        assert [entry.event for entry in store.events(other)][2:] == said
    assert told.words_lost.names == 1
    assert "the name of 1 panel is lost" in told.what
    speak(Tongue("de"))
    try:
        assert "der Name von 1 Tafel ist verloren" in said_again(told)
    finally:
        speak(Tongue())


def said_again(told):
    """Say the same again, in the language spoken now."""
    return Mended(
        told.path,
        kept=told.kept,
        newer=told.newer,
        lost=told.lost,
        files_lost=told.files_lost,
        last=told.last,
        backup=told.backup,
        aside=told.aside,
        number=told.number,
        words_lost=told.words_lost,
    ).what


@pytest.mark.parametrize("version", [step.version for step in MIGRATIONS])
def test_a_damaged_book_of_any_version_is_mended_from_its_own_rows(tmp_path, clock, version):
    """Before version 4 nothing has a seal, and that is no reason to lose an entry."""
    with closing(sqlite3.connect(tmp_path / BOOK_NAME)) as connection:
        connection.executescript((SAMPLES / f"book-version-{version}.sql").read_text(encoding="utf-8"))
    from_outside(tmp_path / BOOK_NAME, "DROP TRIGGER blob_stays", "UPDATE blob SET data = x'00'")
    store, told = mended(tmp_path, clock)
    with store:
        assert acts_in(store) == [act_of_three(number) for number in range(3)]
        assert [panel.name for panel in store.panels()] == ["Lemons"]
    assert (told.kept, told.lost, told.files_lost) == (9, 0, 1)


@pytest.mark.parametrize("version", [step.version for step in MIGRATIONS if step.version < KNOWN_VERSION])
def test_words_of_an_earlier_version_are_sealed_when_they_are_brought_up_to_date(tmp_path, clock, version):
    with closing(sqlite3.connect(tmp_path / BOOK_NAME)) as connection:
        connection.executescript((SAMPLES / f"book-version-{version}.sql").read_text(encoding="utf-8"))
    Store.open(tmp_path).close()
    from_outside(tmp_path / BOOK_NAME, SPOILS["panel"])
    with Store.open(tmp_path) as store, pytest.raises(Damaged, match="panel 1 has changed"):
        store.check(clock.utc())


def test_what_is_written_after_a_mending_is_sealed_again(folder, clock):
    from_outside(folder / BOOK_NAME, SPOILS["setting"], SPOILS["draft"])
    store, _ = mended(folder, clock)
    with store:
        store.set_setting("look", "dusk")
        store.set_setting("look", "dawn")
        store.drafts.change(1, "{}", clock.utc())
        record.note(Job(store, clock, 1), "Cobalt")
    with Store.open(folder) as store:
        store.check(clock.utc())
        assert store.setting("look") == "dawn"



def test_settings_of_which_nothing_can_be_read_are_told_as_uncertain(folder, clock):
    """A sealed book has always its own id among them."""
    from_outside(folder / BOOK_NAME, "DELETE FROM setting", *SPOILS.values())
    store, told = mended(folder, clock)
    with store:
        assert store.setting("look") is None
        assert len(store.elsewhere.book_id) == 32
    assert told.words_lost.settings is None
    assert "whether settings are lost cannot be told" in told.what


@pytest.mark.parametrize("name", ["brought", "parted", "setting", "draft", "event_by_kind", "event_is_kept"])
def test_tables_that_are_not_as_they_were_made_are_mended(folder, clock, name):
    """A bit flipped in the name of a column: what is asked of it fails much later, or never."""
    path = folder / BOOK_NAME
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("PRAGMA writable_schema = ON")
        (sql,) = connection.execute("SELECT sql FROM sqlite_master WHERE name = ?", (name,)).fetchone()
        flipped = "".join((sql[:-9], chr(ord(sql[-9]) ^ 1), sql[-8:]))
        connection.execute("UPDATE sqlite_master SET sql = ? WHERE name = ?", (flipped, name))
    store, told = mended(folder, clock)
    with store:
        store.check(clock.utc())
        assert len(fold(store.events(1)).sections) > 0
    assert told.lost == 0


def test_what_another_program_added_beside_is_no_damage(folder, clock):
    from_outside(folder / BOOK_NAME, "ANALYZE", "CREATE TABLE recipe (name)")
    with Store.open(folder) as store:
        store.check(clock.utc())
        assert [panel.name for panel in store.panels()] == ["Lemons"]
