"""Find entries of the book by words that stand in them as they are read."""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate

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


def about(text: str, wanted: Sequence[str], most: int) -> str:
    """Return so many characters of a text, the first of the words wanted that stands in it among them.

    An ellipsis stands where something is missing.
    """
    if len(text) <= most:
        return text
    text = unicodedata.normalize("NFC", text)
    first = _first(text, [plain for one in wanted for plain in _plain(one).split()])
    begin = 0 if first < most // 2 else text.rfind(" ", 0, first - most // 4) + 1
    cut, room = text[begin:], most - 2 * (begin > 0)
    cut = cut if len(cut) <= room else cut[: room - 2].rstrip() + " …"
    return f"… {cut}" if begin else cut


def _first(text: str, words: Iterable[str]) -> int:
    """Return where the first of some words begins in a text, 0 where none stands in it."""
    letters = [_plain(letter) for letter in text]
    found = [at for word in words if (at := "".join(letters).find(word)) >= 0]
    return bisect_right(list(accumulate(map(len, letters))), min(found, default=0))


def _holds(text: str, words: Iterable[str]) -> bool:
    return all(word in text for word in words)


def _plain(text: str) -> str:
    """Return a text without the difference of capitals and of ways to write a letter (Unicode's NFKC)."""
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", text).casefold())
