"""Read a command's options, so that what the parser itself says is in the language spoken too.

argparse looks its own words up by `_`, which it has from gettext; Python brings no catalogue for them, so
those that our commands can meet are said here. Where a Python has other words, they come in English.
"""

from __future__ import annotations

import argparse
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, NoReturn

from bench.speech import say

_OF_ONE = re.compile(r"argument (?P<name>[^:]+): (?P<why>.*)", re.DOTALL)


class Parser(argparse.ArgumentParser):
    """An argparse parser that speaks."""

    def __init__(self, **how: Any) -> None:
        with _speaking():
            super().__init__(**how)

    def parse_args(self, *args: Any, **more: Any) -> Any:
        """Read a command line; SystemExit 2 for one that is wrong, as argparse has it."""
        with _speaking():
            return super().parse_args(*args, **more)

    def error(self, message: str) -> NoReturn:
        """Say what is wrong with a command line, and leave."""
        found = _OF_ONE.fullmatch(message)
        if found is not None:
            message = say("argument {name}: {why}", name=found["name"], why=found["why"])
        with _speaking():
            super().error(message)


def _words() -> dict[str, str]:
    """Return what argparse says, by its own words; their values are filled in by argparse."""
    return {
        "usage: ": say("usage: "),
        "positional arguments": say("positional arguments"),
        "options": say("options"),
        "show this help message and exit": say("show this help message and exit"),
        "%(prog)s: error: %(message)s\n": say("%(prog)s: error: %(message)s\n"),
        "unrecognized arguments: %s": say("unrecognized arguments: %s"),
        "the following arguments are required: %s": say("the following arguments are required: %s"),
        "expected one argument": say("expected one argument"),
        "expected at most one argument": say("expected at most one argument"),
        "ignored explicit argument %r": say("ignored explicit argument %r"),
        "invalid %(type)s value: %(value)r": say("invalid %(type)s value: %(value)r"),
        "invalid choice: %(value)r (choose from %(choices)s)": say(
            "invalid choice: %(value)r (choose from %(choices)s)"
        ),
    }


@contextmanager
def _speaking() -> Iterator[None]:
    """Let argparse look its words up here, until the end of it."""
    words, before = _words(), vars(argparse)["_"]
    vars(argparse)["_"] = lambda text: words.get(text, text)
    try:
        yield
    finally:
        vars(argparse)["_"] = before
