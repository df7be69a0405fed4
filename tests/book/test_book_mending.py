"""A damaged book is set aside under a dated name, and what can be read of it is kept."""

import sqlite3
from contextlib import closing

import pytest

from bench.book import WORKSHOP, copies, open_book
from bench.book.faults import InUse, LostFile, NewerBook, OtherFile
from bench.book.files import BOOK_NAME
from bench.book.schema import KNOWN_VERSION
from bench.book.store import Store
from bench.job.acts import record, stock
from bench.job.acts.opening import open_panel
from bench.job.fold import fold
from tests.book.test_book_faults import SPOILED, with_broken_pages
from tests.fakes.books import (
    DRAWING,
    MIX,
    act_of_three,
    acts_in,
    content_of,
    from_outside,
    make_book,
    mark_of,
    mended,
    write_act,
)
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

DROPS = "DROP TRIGGER event_stays"


@pytest.fixture
def clock():
    return FakeClock()


def first_acts(count):
    return [act_of_three(number) for number in range(count)]


def backed_up(folder, clock, acts=3, more=0):
    """Make a book with a backup of so many acts, and write more acts after it."""
    path = make_book(folder, acts)
    with open_book(folder, clock).store as store:
        for number in range(acts, acts + more):
            write_act(store, 1, number)
    return path


@pytest.mark.parametrize("spoil", SPOILED.values(), ids=SPOILED.keys())
def test_a_file_that_is_no_whole_book_gives_way_to_its_backup_and_stays_aside(tmp_path, clock, spoil):
    path = backed_up(tmp_path, clock)
    path.write_bytes(spoil(path.read_bytes()))
    before = path.read_bytes()
    store, told = mended(tmp_path, clock)
    with store:
        assert acts_in(store) == first_acts(3)
        write_act(store, 1, 3)
    assert told.kept == 9
    (aside,) = [copy for copy in copies(tmp_path) if copy.why == "damaged"]
    assert aside.path.read_bytes() == before
    assert told.aside.endswith(aside.path.name)
    assert "20260504T090000Z" in aside.path.name


def test_entries_newer_than_the_backup_come_out_of_the_damaged_file(tmp_path, clock):
    """A flipped bit in an entry that the backup has: the entry comes from there, newer ones from the file."""
    backed_up(tmp_path, clock, acts=3, more=2)
    body = "'{\"version\":1,\"kind\":\"note_written\",\"text\":\"act 7\"}'"
    from_outside(tmp_path / BOOK_NAME, DROPS, f"UPDATE event SET body = {body} WHERE seq = 3")
    store, told = mended(tmp_path, clock)
    with store:
        assert acts_in(store) == first_acts(5)
        assert store.countdown(1, MIX) == mark_of(4)
    assert (told.kept, told.newer, told.lost) == (15, 6, 0)
    assert "saved are 15 entries" in told.what
    assert "9 of them from the backup of 4 May 2026" in told.what
    assert "none are lost" in told.what


def test_what_comes_after_an_entry_that_cannot_be_read_is_told_as_lost(tmp_path, clock):
    """Entry 14 of act 4 has changed: act 3 is kept, act 4 left out whole."""
    backed_up(tmp_path, clock, acts=3, more=3)
    from_outside(tmp_path / BOOK_NAME, DROPS, "UPDATE event SET act_id = 'act-9' WHERE seq = 14")
    store, told = mended(tmp_path, clock)
    with store:
        assert acts_in(store) == first_acts(4)
        assert store.countdown(1, MIX) == mark_of(5)  # as the sealed row says: less time left, never more
    assert (told.kept, told.newer, told.lost) == (12, 3, 6)
    assert "6 later ones are lost" in told.what


def test_without_a_backup_the_entries_up_to_the_first_bad_one_are_kept(tmp_path, clock):
    make_book(tmp_path, acts=4)
    from_outside(tmp_path / BOOK_NAME, DROPS, "UPDATE event SET at_utc = 'then' WHERE seq = 7")
    store, told = mended(tmp_path, clock)
    with store:
        assert acts_in(store) == first_acts(1)  # entry 6 is whole, and its act may not have been
        assert [panel.name for panel in store.panels()] == ["Lemons"]
    assert (told.kept, told.lost, told.backup) == (3, 9, None)


def test_pages_that_cannot_be_read_are_stepped_over(tmp_path, clock):
    path = backed_up(tmp_path, clock, acts=50, more=2)
    path.write_bytes(with_broken_pages(path.read_bytes()))
    store, told = mended(tmp_path, clock)
    with store:
        assert acts_in(store) == first_acts(50)
    assert told.kept == 150
    assert told.lost in (None, 6)


def test_a_file_that_has_changed_comes_back_from_the_backup(tmp_path, clock):
    backed_up(tmp_path, clock)
    clock.advance(24 * 3600)  # files are looked at on the first opening of a day
    from_outside(tmp_path / BOOK_NAME, "DROP TRIGGER blob_stays", "UPDATE blob SET data = x'00'")
    store, told = mended(tmp_path, clock)
    with store:
        assert len(store.blob(store.panels()[0].drawing_sha256)) == 41
    assert told.files_lost == 0


def test_a_file_that_is_nowhere_whole_is_told_as_lost(tmp_path, clock):
    make_book(tmp_path)
    from_outside(tmp_path / BOOK_NAME, "DROP TRIGGER blob_stays", "UPDATE blob SET data = x'00'")
    store, told = mended(tmp_path, clock)
    with store:
        (panel,) = store.panels()
        assert acts_in(store) == first_acts(3)
        with pytest.raises(LostFile):
            store.blob(panel.drawing_sha256)
        assert store.back_up_daily(clock.utc()) is None  # made already: a lost file is no damage any more
        assert [copy.why for copy in copies(tmp_path)] == ["daily", "damaged"]
        assert store.put_blob(DRAWING, "image/svg+xml") == panel.drawing_sha256
        assert store.blob(panel.drawing_sha256) == DRAWING
    assert (told.kept, told.files_lost, told.lost) == (9, 1, 0)
    assert "1 file kept in it is lost" in told.what


def test_a_panel_whose_row_is_gone_is_made_again_from_its_first_entry(tmp_path, clock):
    with Store.open(tmp_path) as store:
        job = open_panel(store, clock, grid_svg(4, 3), "lemons.svg", name="Lemons")
        stock.open_bottle(job, "White paste", "resin", net_g=500.0)
        record.note(job, "Cobalt")
    from_outside(tmp_path / BOOK_NAME, "DELETE FROM panel", "UPDATE event SET seal = seal + 1 WHERE seq = 99")
    from_outside(tmp_path / BOOK_NAME, "INSERT INTO event VALUES (NULL, 1, 'x', 'then', '{}', 1)")
    store, told = mended(tmp_path, clock)
    with store:
        assert [panel.name for panel in store.panels()] == ["Lemons"]
        assert fold(store.events(1)) == fold(store.events(1)[:4])
        assert len(store.events(WORKSHOP)) == 1
    assert told.lost is not None


def test_settings_and_drafts_come_along(tmp_path, clock):
    backed_up(tmp_path, clock)
    with Store.open(tmp_path) as store:
        store.set_setting("look", "dark")
        draft_id = store.drafts.add("lemons.png", "{}", clock.utc())
        store.drafts.put_file(draft_id, "picture", b"lemons")
    from_outside(tmp_path / BOOK_NAME, DROPS, "UPDATE event SET at_utc = 'then' WHERE seq = 2")
    store, _ = mended(tmp_path, clock)
    with store:
        assert store.setting("look") == "dark"
        assert [row.name for row in store.drafts.all()] == ["lemons.png"]
        assert store.drafts.file(draft_id, "picture") == b"lemons"


def test_a_countdown_that_has_changed_on_the_disk_counts_as_lost(tmp_path):
    path = make_book(tmp_path)
    from_outside(path, "UPDATE countdown SET total_s = total_s + 512")
    with Store.open(tmp_path) as store:
        assert store.countdown(1, MIX) is None
        store.set_countdown(1, MIX, mark_of(2))
        assert store.countdown(1, MIX) == mark_of(2)


def test_a_backup_of_another_past_is_not_built_upon(tmp_path, clock):
    """Put back and gone on with, the book has other entries under the numbers of its newest old backup."""
    backed_up(tmp_path, clock, acts=2)
    clock.advance(24 * 3600)
    with open_book(tmp_path, clock).store as store:
        write_act(store, 1, 2)
    clock.advance(24 * 3600)
    with open_book(tmp_path, clock).store as store:  # backs up three acts
        store.restore(copies(tmp_path)[1], clock.utc())
        write_act(store, 1, 7)
        write_act(store, 1, 8)
    for copy in copies(tmp_path):
        if copy.why == "restored":
            copy.path.unlink()
    from_outside(tmp_path / BOOK_NAME, DROPS, "UPDATE event SET at_utc = 'then' WHERE seq = 2")
    store, _ = mended(tmp_path, clock)
    with store:
        assert acts_in(store) == [*first_acts(2), act_of_three(7), act_of_three(8)]


def test_the_log_beside_a_damaged_book_is_set_aside_with_it(tmp_path, clock):
    path = backed_up(tmp_path, clock)
    log = tmp_path / f"{BOOK_NAME}-wal"
    log.write_bytes(path.read_bytes())
    path.write_bytes(b"")
    store, told = mended(tmp_path, clock)
    with store:
        assert acts_in(store) == first_acts(3)
    assert (tmp_path / f"{told.aside}-wal").stat().st_size > 0


def test_another_programs_file_and_a_newer_book_are_no_books_to_mend(tmp_path, clock):
    other = tmp_path / "other"
    other.mkdir()
    from_outside(other / BOOK_NAME, "CREATE TABLE recipe (name)")
    newer = tmp_path / "newer"
    from_outside(make_book(newer), f"PRAGMA user_version = {KNOWN_VERSION + 1}")
    for folder, fault in ((other, OtherFile), (newer, NewerBook)):
        before = content_of(folder)
        with pytest.raises(fault):
            open_book(folder, clock)
        assert content_of(folder) == before
        assert copies(folder) == []


def test_a_second_program_does_not_mend_what_the_first_one_holds(tmp_path, clock):
    path = backed_up(tmp_path, clock)
    with Store.open(tmp_path):
        before = path.read_bytes()
        path.write_bytes(b"x" * 5000)
        with pytest.raises(InUse):
            open_book(tmp_path, clock)
        assert copies(tmp_path)[0].why == "daily"
        path.write_bytes(before)


def test_mending_uses_no_room_for_the_file_that_is_set_aside(tmp_path, clock):
    path = backed_up(tmp_path, clock)
    path.write_bytes(path.read_bytes()[:6000])
    number = path.stat().st_ino
    store, told = mended(tmp_path, clock)
    store.close()
    assert (tmp_path / told.aside).stat().st_ino == number


def test_a_mended_book_passes_sqlites_own_examination(tmp_path, clock):
    path = backed_up(tmp_path, clock, acts=40, more=3)
    data = bytearray(path.read_bytes())
    data[len(data) // 2] ^= 0x10
    path.write_bytes(bytes(data))
    open_book(tmp_path, clock).store.close()
    with closing(sqlite3.connect(path)) as plain:
        assert plain.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert plain.execute("PRAGMA foreign_key_check").fetchall() == []
