"""Sentences: English in the code, looked up in the language spoken, their values filled in last."""

from __future__ import annotations

import string
from collections.abc import Mapping
from numbers import Real
from typing import Any

from bench.speech.tongue import tongue

_SWAPPED = str.maketrans(".,", ",.")  # a comma for the decimals, points between thousands


class _Filler(string.Formatter):
    """Fill in values as str.format does, without attributes and indices, numbers with the marks spoken."""

    def get_field(self, field_name: str, args: Any, kwargs: Mapping[str, Any]) -> Any:
        return kwargs[field_name], field_name

    def format_field(self, value: Any, format_spec: str) -> str:
        text = str(super().format_field(value, format_spec))
        swapped = isinstance(value, Real) and tongue().decimal_mark == ","
        return text.translate(_SWAPPED) if swapped else text


_FILLER = _Filler()
SHIPPED = "shipped"  # the catalogues' context of texts that stand in data files


def say(text: str, /, **values: object) -> str:
    """Return a sentence in the language spoken.

    text: in English, a literal, so that it is found for the catalogues; values stand in it as {name} or
    {name:.1f}. Without values, braces are left as they are. A sentence without a translation is said in
    English. KeyError for a value that is not given.
    """
    found = tongue().words.gettext(text)
    return _FILLER.vformat(found, (), values) if values else found


def say_n(one: str, many: str, count: int, /, **values: object) -> str:
    """Return a sentence that depends on a count, which stands in it as {count}.

    one, many: in English, literals; how many forms a language has is its catalogue's matter.
    """
    found = tongue().words.ngettext(one, many, count)
    return _FILLER.vformat(found, (), {"count": count, **values})


def large_first(text: str) -> str:
    """Return a text with its first letter large, as where a sentence begins; nothing stays nothing."""
    return text[:1].upper() + text[1:]


def said(text: str) -> str:
    """Return a text of a data file that ships with the house in the language spoken, any other as it is.

    The names of the adhesives and the statements of the GHS are such texts: the catalogues hold them by
    their English wording in a context of their own (tests.tools.catalogues gathers the fields), so that
    what a maker typed is said as it was typed.
    """
    return tongue().words.pgettext(SHIPPED, text)
