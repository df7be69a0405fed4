"""The language that is spoken, with its decimal mark and units: one for the whole house, set at its door."""

from __future__ import annotations

import gettext
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from bench.resources import resource

LANGUAGES = {"en": "English", "de": "Deutsch"}  # each by its own name, so that it is found again
DOMAIN = "potwatch"
_LOCALES = ("LC_ALL", "LC_MESSAGES", "LANG")
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


def language_of(environ: Mapping[str, str]) -> str:
    """Return the language that a machine is set to, "en" where it is none of ours.

    environ: its environment, in which the first of LANGUAGE, LC_ALL, LC_MESSAGES and LANG counts that is
    set (POSIX.1-2017, 8.2, and the GNU gettext manual, 2.3); 'de_AT.UTF-8' is German, 'C' is English.
    LANGUAGE is a list, of which the first language of ours counts.
    """
    said = next((environ[name] for name in ("LANGUAGE", *_LOCALES) if environ.get(name)), "")
    spoken = (name.replace("-", "_").partition("_")[0].partition(".")[0].lower() for name in said.split(":"))
    return next((name for name in spoken if name in LANGUAGES), "en")


@cache
def _words(language: str) -> gettext.NullTranslations:
    if language == "en":
        return gettext.NullTranslations()
    folder = str(resource("assets", "words"))
    return gettext.translation(DOMAIN, folder, languages=[language], fallback=True)
