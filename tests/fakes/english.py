"""Find what was left in English where another language is spoken."""

from __future__ import annotations

import io
import re
import string
from collections.abc import Iterable
from functools import cache

from babel.messages.pofile import read_po

from tests.tools.catalogues import po_path

WORD = re.compile(r"[^\W\d_]{2,}")


def left_in_english(texts: Iterable[str], language: str = "de") -> list[str]:
    """Return the texts that are an English sentence of the catalogue, and not its translation as well."""
    found = []
    for text in texts:
        plain = text.replace("\u00a0", " ")
        for english, spoken in _sentences(language):
            if english.fullmatch(plain) and not spoken.fullmatch(plain):
                found.append(text)
                break
    return found


@cache
def _sentences(language: str) -> tuple[tuple[re.Pattern[str], re.Pattern[str]], ...]:
    catalogue = read_po(io.BytesIO(po_path(language).read_bytes()), locale=language)
    pairs = []
    for message in catalogue:
        ids = message.id if message.pluralizable else (message.id,)
        strings = message.string if message.pluralizable else (message.string,)
        pairs += [(_shape(i), _shape(s)) for i, s in zip(ids, strings, strict=True) if _has_words(i)]
    return tuple(pairs)


def _has_words(sentence: str) -> bool:
    return any(WORD.search(text) for text, *_ in string.Formatter().parse(sentence))


def _shape(sentence: str) -> re.Pattern[str]:
    """Return what a sentence looks like with any values in it."""
    parts = string.Formatter().parse(sentence)
    return re.compile("".join(re.escape(text) + (".+?" if name else "") for text, name, *_ in parts), re.S)
