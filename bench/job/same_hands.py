"""Whose hands wrote what was brought from another tablet: only the maker knows, and is asked once a book.

Until the maker says that they are the same, nothing is learned from it: neither pace, nor an adhesive's
life, nor what a bed takes. It stays in the book all the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from bench.book import Store
from bench.book.events import ActUndone, Envelope, MixClosed
from bench.job.settings import SAME_HANDS


def say_hands(store: Store, books: Iterable[str], *, same: bool) -> None:
    """Keep what the maker says of the hands behind these books."""
    with store.together():
        for book in books:
            store.set_setting(f"{SAME_HANDS}:{book}", "yes" if same else "no")


def not_asked(store: Store, entries: Iterable[Envelope]) -> tuple[str, ...]:
    """Return the other books with glue-ups among these entries whose hands nobody has told of."""
    books = dict.fromkeys(x.book for x in entries if x.book and isinstance(x.event, MixClosed))
    return tuple(book for book in books if store.setting(f"{SAME_HANDS}:{book}") is None)


def of_these_hands(store: Store, kinds: Sequence[str]) -> list[Envelope]:
    """Return the entries of these kinds that the hands of this book wrote, wherever they wrote them.

    What was taken back counts nowhere, whoever took it back: those entries come along.
    """
    entries = store.of_kinds(kinds)
    books = {x.book for x in entries}
    known = {book for book in books if not book or store.setting(f"{SAME_HANDS}:{book}") == "yes"}
    if known == books:
        return entries
    return [x for x in entries if x.book in known or isinstance(x.event, ActUndone)]
