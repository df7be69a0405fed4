"""Languages to try the screens in: the real ones, and one made up, whose sentences are a third longer."""

from __future__ import annotations

import gettext
import string
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module

import pytest

from bench.speech import LANGUAGES, Tongue, speak, tongue

STRETCHED = "stretched"
SPOKEN = (*LANGUAGES, STRETCHED)
LONGER = 0.3
_ACCENTED = str.maketrans("aeiouAEIOUcn", "äéîöûÄÉÎÖÛçñ")
_VOWELS = frozenset("äéîöûÄÉÎÖÛ")


def stretched(text: str) -> str:
    """Return a sentence a third longer and with accents; what is filled in stays."""
    parts = []
    for words, field, spec, conversion in string.Formatter().parse(text):
        parts.append(_longer(words).replace("{", "{{").replace("}", "}}"))
        if field is not None:
            parts.append(f"{{{field}{f'!{conversion}' if conversion else ''}{f':{spec}' if spec else ''}}}")
    return "".join(parts)


def _longer(words: str) -> str:
    """Double vowels until a third is gained; units and signs without vowels stay as long as they are."""
    out, gained = [], 0
    for seen, letter in enumerate(words.translate(_ACCENTED), start=1):
        out.append(letter)
        if letter in _VOWELS and gained < LONGER * seen and len(words.strip()) > 2:
            out.append(letter)
            gained += 1
    return "".join(out)


class Stretched(gettext.NullTranslations):
    """The made-up language."""

    def gettext(self, message: str) -> str:
        return stretched(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return stretched(msgid1 if n == 1 else msgid2)


@contextmanager
def speaking(language: str, **how: object) -> Iterator[None]:
    """Speak a language of SPOKEN for the length of a `with`, and what was spoken before after it."""
    before = tongue()
    with pytest.MonkeyPatch.context() as patch:
        if language == STRETCHED:
            patch.setattr(import_module("bench.speech.tongue"), "_words", lambda _language: Stretched())
        speak(Tongue(language, **how))  # type: ignore[arg-type]
        try:
            yield
        finally:
            speak(before)
