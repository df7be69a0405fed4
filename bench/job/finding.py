"""Find entries of the book by words that stand in them as they are read."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence

from bench.fault import Fault
from bench.job.words import Line
from bench.speech import say


class NothingToFind(Fault):
    """A search was asked for, and no word for it."""

    def __init__(self) -> None:
        super().__init__(say("there is no word to look for"), todo=say("name one, e.g. cobalt"))


def holding(lines: Iterable[Line], wanted: Sequence[str]) -> list[Line]:
    """Return the lines whose text and notes together hold every word wanted, in the order they came.

    A word may stand within a longer one; capitals and how an accent is written make no difference. What
    stands between spaces is a word of its own. Raises NothingToFind where no word is left.
    """
    words = [plain for one in wanted for plain in _plain(one).split()]
    if not words:
        raise NothingToFind
    return [line for line in lines if _holds(_plain("\n".join((line.text, *line.notes))), words)]


def _holds(text: str, words: Iterable[str]) -> bool:
    return all(word in text for word in words)


def _plain(text: str) -> str:
    """Return a text without the difference of capitals and of ways to write a letter (Unicode's NFKC)."""
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", text).casefold())
