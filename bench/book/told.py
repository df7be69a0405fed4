"""What a person is told of how a book was opened: that it was mended, is read only, or has no backup."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from bench.book.faults import InUse
from bench.fault import Fault
from bench.speech import moment, say, say_n

if TYPE_CHECKING:
    from bench.book.salvage_words import WordsLost


class Mended(Fault):
    """The book was damaged; told once it is mended, with what was saved and what was not.

    kept: entries in the mended book, `newer` of them out of the damaged file, the others out of the backup
    of that date, None without one. lost: entries that are gone, None where nobody can tell. last: when the
    last kept entry was written. aside: where the damaged file is now, copy `number` of the book; '' where
    it was gone. words_lost: names, settings and drafts that fell back.
    """

    def __init__(
        self,
        path: str,
        *,
        kept: int,
        newer: int,
        lost: int | None,
        files_lost: int,
        last: datetime | None,
        backup: datetime | None,
        aside: str,
        number: int,
        words_lost: WordsLost,
    ) -> None:
        self.path, self.kept, self.newer, self.lost = path, kept, newer, lost
        self.files_lost, self.last, self.backup = files_lost, last, backup
        self.aside, self.number = aside, number
        self.words_lost = words_lost
        files = _files_words(files_lost) if files_lost else ""
        clauses = (self._saved(), _lost_words(lost), files, *_words_lost_told(words_lost))
        super().__init__(
            say(
                "the book was damaged and is mended: {news}",
                news="; ".join(filter(None, clauses)),
            ),
            todo=say(
                "see whether your newest acts are there; "
                "the damaged file is kept as copy {number}, set aside",
                number=number,
            )
            if aside
            else say("see whether your newest acts are there"),
        )

    def _saved(self) -> str:
        told = say_n("saved is {count} entry", "saved are {count} entries", self.kept)
        if self.last is not None:
            told = say("{saved}, the last of {moment}", saved=told, moment=moment(self.last))
        if self.backup is None:
            return told
        return say(
            "{saved} ({older} of them from the backup of {moment})",
            saved=told,
            older=self.kept - self.newer,
            moment=moment(self.backup),
        )


def _lost_words(lost: int | None) -> str:
    if lost is None:
        return say("whether later ones are lost cannot be told")
    if lost == 0:
        return say("none are lost")
    return say_n("{count} later one is lost", "{count} later ones are lost", lost)


def _words_lost_told(lost: WordsLost) -> list[str]:
    """Say what fell back, a clause each."""
    names = say_n("the name of {count} panel is lost", "the names of {count} panels are lost", lost.names)
    settings = (
        say("whether settings are lost cannot be told")
        if lost.settings is None
        else say_n("{count} setting is lost", "{count} settings are lost", lost.settings)
    )
    drafts = (
        say("whether drafts are lost cannot be told")
        if lost.drafts is None
        else say_n(
            "what was said in {count} draft is lost, its pictures are kept",
            "what was said in {count} drafts is lost, their pictures are kept",
            lost.drafts,
        )
    )
    gone = say_n("{count} draft is lost", "{count} drafts are lost", lost.drafts_gone)
    told = ((lost.names, names), (lost.settings, settings), (lost.drafts, drafts), (lost.drafts_gone, gone))
    return [clause for count, clause in (*told, *_ties_lost_told(lost)) if count != 0]


def _ties_lost_told(lost: WordsLost) -> tuple[tuple[int, str], ...]:
    """Say of how much it is lost what it is or belongs to, a clause each, with how many they are."""
    kinds = say_n(
        "what kind of file {count} is that is kept in it is lost, the file is not",
        "what kind of files {count} are that are kept in it is lost, the files are not",
        lost.kinds,
    )
    origins = say_n(
        "of {count} entry it is lost which tablet it came from",
        "of {count} entries it is lost which tablet they came from",
        lost.origins,
    )
    beginnings = say_n(
        "the beginning of {count} panel is lost, which it shared with another",
        "the beginnings of {count} panels are lost, which they shared with others",
        lost.beginnings,
    )
    return (lost.kinds, kinds), (lost.origins, origins), (lost.beginnings, beginnings)


def _files_words(lost: int) -> str:
    return say_n("{count} file kept in it is lost", "{count} files kept in it are lost", lost)


class ReadingOnly(Fault):
    """The book was opened to be worked in, and could only be opened for reading."""

    def __init__(self, why: Fault) -> None:
        self.why = why
        again = say("close the other Potwatch, then open it again")
        super().__init__(
            say("{why}: it is open for reading only", why=why.what),
            where=why.where,
            todo=again if isinstance(why, InUse) else why.todo,
        )


class NotBackedUp(Fault):
    """The backup of the day could not be made; the book itself goes on."""

    def __init__(self, why: Fault) -> None:
        self.why = why
        what = say("no backup could be made today: {why}", why=why.what)
        super().__init__(what, where=why.where, todo=why.todo)
