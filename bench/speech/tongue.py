"""The language that is spoken, with its decimal mark and units: one for the whole house, set at its door."""

from __future__ import annotations

import gettext
from dataclasses import dataclass
from functools import cache

from bench.resources import resource

LANGUAGES = {"en": "English", "de": "Deutsch"}  # each by its own name, so that it is found again
DOMAIN = "potwatch"
DECIMAL_MARKS = {"en": ".", "de": ","}


@dataclass(frozen=True)
class Tongue:
    """How things are said. mark: "" for the decimal mark of the language."""

    language: str = "en"
    mark: str = ""
    inches: bool = False
    fahrenheit: bool = False

    @property
    def decimal_mark(self) -> str:
        return self.mark or DECIMAL_MARKS.get(self.language, ".")

    @property
    def words(self) -> gettext.NullTranslations:
        """The catalogue of the language; the sentences themselves for English."""
        return _words(self.language)


_spoken = [Tongue()]


def speak(new: Tongue) -> None:
    """Speak so from now on. What was said already stays as it was said."""
    _spoken[0] = new


def tongue() -> Tongue:
    """Return how things are said at present."""
    return _spoken[0]


@cache
def _words(language: str) -> gettext.NullTranslations:
    if language == "en":
        return gettext.NullTranslations()
    folder = str(resource("assets", "words"))
    return gettext.translation(DOMAIN, folder, languages=[language], fallback=True)
