"""The book, its copies and its bundles say in German what they have to say, and store the same as ever."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path

from bench.book import Store, copies, open_book
from bench.book.backups import Copy, Held
from bench.book.bundle import faults as bundled
from bench.book.countdown import ContactInFuture
from bench.book.faults import DiskFull, InUse, NewerBook, NoSuchPanel
from bench.book.salvage_words import WordsLost
from bench.book.told import Mended, NotBackedUp, ReadingOnly
from bench.job.acts import record
from bench.job.acts.bringing import open_the_bundle
from bench.job.acts.bundling import bundle_panel
from bench.job.backup_words import copy_lines
from bench.speech import Tongue, speak
from tests.fakes.books import make_book
from tests.fakes.bundles import worked_panel
from tests.fakes.clock import FakeClock

ENGLISH = re.compile(r"\b(the|of|and|is|are|not|with|it|its|this|or|for|from|to)\b", re.IGNORECASE)


def told_mended(**but: object) -> Mended:
    at = datetime(2026, 11, 24, 17, 5, tzinfo=UTC)
    what = {"kept": 12, "newer": 4, "lost": 3, "files_lost": 1, "last": at, "backup": at, "aside": "x"}
    what["words_lost"] = WordsLost()
    return Mended("potwatch.sqlite3", number=7, **{**what, **but})  # type: ignore[arg-type]


def test_a_mended_book_is_told_in_whole_sentences_whatever_was_saved(german: None) -> None:
    assert told_mended().what == (
        "das Buch war beschädigt und ist repariert: gerettet sind 12 Einträge, der letzte vom "
        "24. November 2026, 17:05 (8 davon aus der Kopie vom 24. November 2026, 17:05); "
        "3 spätere gingen verloren; 1 Datei darin ging verloren"
    )
    least = told_mended(kept=1, newer=1, lost=None, files_lost=0, last=None, backup=None, aside="")
    assert least.what == (
        "das Buch war beschädigt und ist repariert: gerettet ist 1 Eintrag; "
        "ob spätere verloren gingen, lässt sich nicht sagen"
    )
    assert "Kopie 7" in told_mended().todo
    assert "Kopie" not in least.todo


def test_faults_of_the_book_and_of_bundles_leave_no_english(german: None) -> None:
    found = (
        InUse("b"),
        DiskFull("b"),
        NewerBook("b", 9, 4),
        NoSuchPanel(3, ()),
        NotBackedUp(DiskFull("b")),
        ContactInFuture(-2.5),
        bundled.NewerBundle("b", 9, 1),
        bundled.BundleUnsafe("b", "x", "y"),
        bundled.HashWrong("b", "y"),
    )
    for fault in found:
        assert ENGLISH.findall(str(fault).replace("POTWATCH_HOME", "")) == []
    assert "2,5 s" in str(ContactInFuture(-2.5))


def test_a_book_that_is_in_use_is_to_be_opened_again_and_not_read(german: None) -> None:
    assert ReadingOnly(InUse("b")).todo == "das andere Potwatch schließen, dann neu öffnen"
    assert ReadingOnly(DiskFull("b")).todo == DiskFull("b").todo


def test_a_copy_is_told_by_its_day_and_by_what_it_holds(german: None) -> None:
    noon = datetime(2026, 11, 24, 12, 0).astimezone()
    copy = Copy(3, noon, "daily", Path("backups/3"))
    assert copy_lines(copy, Held(("Zitronen",), 1204, noon)) == [
        "Kopie 3. An dem Tag von selbst entstanden.",
        "1 Tafel, 1.204 Einträge, der letzte vom 24. November 2026, 12:00.",
        "Tafeln: Zitronen.",
    ]


def test_copies_are_named_on_the_disk_as_in_english(german: None, tmp_path: Path) -> None:
    make_book(tmp_path, 2)
    open_book(tmp_path, FakeClock()).store.close()
    assert [copy.why for copy in copies(tmp_path)] == ["daily"]
    named = r"0001-\d{8}T\d{6}Z-daily\.sqlite3"
    assert all(re.fullmatch(named, path.name) for path in tmp_path.glob("backups/*"))


def test_a_panel_keeps_its_first_name_whichever_languages_it_went_through(tmp_path: Path) -> None:
    def carry(job: object, store: Store) -> object:
        bundle_panel(job.store, job.clock, job.panel_id, tmp_path / "panel.zip")  # type: ignore[attr-defined]
        return open_the_bundle(store, job.clock, tmp_path / "panel.zip")  # type: ignore[attr-defined]

    with Store.in_memory() as here, Store.in_memory() as there:
        job = worked_panel(here)
        away = carry(job, there).job  # type: ignore[attr-defined]
        record.note(job, "ours")
        record.note(away, "theirs")
        try:
            speak(Tongue("de"))
            parted = carry(away, here)
        finally:
            speak(Tongue())
        assert parted.name == "Lemons (vom anderen Tablet)"  # type: ignore[attr-defined]
        assert parted.job.state.name == parted.name  # type: ignore[attr-defined]
        record.note(parted.job, "here")  # type: ignore[attr-defined]
        gone = carry(parted.job, there)  # type: ignore[attr-defined]
        record.note(parted.job, "on, here")  # type: ignore[attr-defined]
        record.note(gone.job, "on, there")  # type: ignore[attr-defined]
        again = carry(gone.job, here)  # type: ignore[attr-defined]
        assert (again.how, again.name) == ("parted", "Lemons (from the other tablet)")  # type: ignore[attr-defined]


def test_what_came_of_a_bundle_is_one_german_sentence(german: None, tmp_path: Path) -> None:
    with Store.in_memory() as here, Store.in_memory() as there:
        job = worked_panel(here)
        bundle_panel(here, job.clock, job.panel_id, tmp_path / "panel.zip")
        first = open_the_bundle(there, job.clock, tmp_path / "panel.zip")
        assert first.said == f"Lemons ist hier, mit {first.entries} Einträgen"
        assert open_the_bundle(there, job.clock, tmp_path / "panel.zip").said == (
            "Alles von Lemons war schon hier"
        )
