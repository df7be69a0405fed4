"""What a person is told of how a book was opened: that it was mended, is read only, or has no backup."""

from __future__ import annotations

from datetime import datetime

from bench.book.salvage_words import WordsLost
from bench.fault import Fault
from bench.speech import say, say_n


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
        saved = f"saved are {kept} entries" if kept != 1 else "saved is 1 entry"
        up_to = f", the last of {_moment(last)}" if last is not None else ""
        base = f" ({kept - newer} of them from the backup of {_moment(backup)})" if backup is not None else ""
        gone = "whether later ones are lost cannot be told" if lost is None else _lost_words(lost)
        files = f"; {_files_words(files_lost)}" if files_lost else ""
        super().__init__(
            f"the book was damaged and is mended: {saved}{up_to}{base}; {gone}{files}",
            todo="see whether your newest acts are there"
            + (f"; the damaged file is kept as copy {number}, set aside" if aside else ""),
        )
        self.words_lost = words_lost
        self.what = "; ".join((self.what, *_words_lost_told(words_lost)))


def _lost_words(lost: int) -> str:
    if lost == 0:
        return "none are lost"
    return "1 later one is lost" if lost == 1 else f"{lost} later ones are lost"


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
    return [clause for count, clause in told if count != 0]


def _files_words(lost: int) -> str:
    return "1 file kept in it is lost" if lost == 1 else f"{lost} files kept in it are lost"


def _moment(at: datetime) -> str:
    return f"{at.day} {at:%B %Y, %H:%M}"


class ReadingOnly(Fault):
    """The book was opened to be worked in, and could only be opened for reading."""

    def __init__(self, why: Fault) -> None:
        self.why = why
        super().__init__(
            f"{why.what}: it is open for reading only",
            where=why.where,
            todo=why.todo.replace(", or open the book for reading only", ", then open it again"),
        )


class NotBackedUp(Fault):
    """The backup of the day could not be made; the book itself goes on."""

    def __init__(self, why: Fault) -> None:
        self.why = why
        super().__init__(f"no backup could be made today: {why.what}", where=why.where, todo=why.todo)
