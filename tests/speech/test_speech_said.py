"""Every sentence that a person reads passes through say, so that none is left behind in English."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

HOUSE = Path(__file__).parents[2]
BENCH, KV = HOUSE / "bench", HOUSE / "kv"

# What looks like a sentence and is none: keys that are the same in every language.
NAMES = frozenset(
    {
        *("orange red", "sea green", "sky blue"),  # hues, said by colour_words
        *("dark patch",),  # what was left out, said by LeftOut.told
        *("within capacity", "one adhesive"),  # rules of a division
        *("between rows", "between motifs", "inside a fitting motif"),  # kinds of joints, for their price
        *("http://www.w3.org/1999/xlink href",),
        *("key \0",),  # a key that has no name, as it is learned
        *("pad hardener", "pad late", "pad left"),  # views beside a step at the cup and at the glue-up
        *("cement board",),  # one of the boards, said by its function
        *("shaped by hand", "taken up", "mixed for"),  # acts that a stage bars, said by stage_rule
        *("first division", "pieces left over", "chipped out"),  # why, said by division_reasons
        *("divided anew after a glue-up", "divided anew after the bench was set"),
        *("divided anew after days away", "divided anew under the revised drawing"),
        *("section %d was shaped by hand and no longer fits one mix: it is divided anew",),
        *("section %d was shaped by hand and its pieces have changed: it is divided anew",),
        *("An empty panel",),  # a draft without a picture, said by draft_title
        *("last pieces",),  # how the time stands, said by mood_word
        *("the rest", "the panel"),  # kept names of zones, said by zone_called
        *("grout powder", "as it is"),  # material_said, Part.told, and a word of the tables
        *("for the client.pdf", "template, section \0", "template, whole panel"),  # names of files
        *("key, value", "no such table", "no such column", "Could not decode to UTF-8"),  # SQLite's
        *("potwatch bundle", "potwatch \0", "potwatch: \0"),  # the program's own name before what is said
    }
)

CODE = re.compile(r"^\s*<|=\"|</|;\n|#ifdef")  # markup, and programs for the graphics card
SQL = re.compile(
    r"^\s*(SELECT|INSERT|UPDATE|DELETE|CREATE|DROP|ALTER|PRAGMA|BEGIN|CASE|FROM)\b"
    r"|^CAST\(\0 AS BLOB\)$|^\0 (WHERE|ORDER BY|= excluded)\b|^\w+ = (MEMORY|ON)$"
    r"|^(?=.*_|sha256)\w+(, (\w+|\0|CAST\(\w+ AS BLOB\)))+$"  # columns of a table
)
TWO_WORDS = re.compile(r"[^\W\d_]{2,}[^\w]*\s[^\w]*[^\W\d_]{2,}")
WORD_AND_VALUE = re.compile(r"\0\s[^\w\0]*[^\W\d_]{2,}|[^\W\d_]{2,}[^\w\0]*\s\0")
SPEAKING = {"say": 1, "say_n": 2}  # how many of its first arguments are what is said
UNREAD = {"compile", "fullmatch", "match", "search", "sub", "findall", "finditer"}  # of re
LOGGED = {"debug", "info", "warning", "error", "exception"}
FOR_PROGRAMMERS = {"ValueError", "TypeError", "KeyError", "RuntimeError", "FileNotFoundError"}


def sentences(source: str) -> Iterator[tuple[int, str]]:
    """Yield line and text of each sentence in a module that does not pass through say.

    A sentence is a string of two words, or a word beside a value that is filled in. Docstrings, types, keys
    of dictionaries, what is compared with, regular expressions, SQL, markup, logs and errors that only a
    programmer meets are none.
    """
    tree = ast.parse(source)
    passed = set(_passed(tree))
    for node in ast.walk(tree):
        if id(node) in passed:
            continue
        text = _text(node)
        if text is None or CODE.search(text) or SQL.search(text) or text.strip() in NAMES:
            continue
        if TWO_WORDS.search(text) or WORD_AND_VALUE.search(text):
            yield node.lineno, text.replace("\0", "{}")  # type: ignore[attr-defined]


def _text(node: ast.AST) -> str | None:
    """Return what a string says, values as \\0; None for anything else."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.JoinedStr):
        return "".join(v.value if isinstance(v, ast.Constant) else "\0" for v in node.values)
    return None


def _passed(tree: ast.AST) -> Iterator[int]:
    """Yield the nodes that need not pass through say."""
    for node in ast.walk(tree):
        for part in _unspoken(node):
            yield from (id(inner) for inner in ast.walk(part))
        if isinstance(node, ast.JoinedStr):  # judged as a whole
            yield from (id(part) for part in node.values)


def _unspoken(node: ast.AST) -> list[ast.AST]:
    if isinstance(node, ast.Call):
        return _in_call(node)
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return [node.value]
    if isinstance(node, ast.Dict):
        return [key for key in node.keys if key is not None]
    if isinstance(node, ast.Compare):
        return [node.left, *node.comparators]
    if isinstance(node, ast.Subscript):
        return [node.slice]
    if isinstance(node, ast.AnnAssign | ast.arg):
        return [node.annotation] if node.annotation is not None else []
    if isinstance(node, ast.FunctionDef):
        return [node.returns] if node.returns is not None else []
    return []


def _in_call(call: ast.Call) -> list[ast.AST]:
    name = getattr(call.func, "id", getattr(call.func, "attr", ""))
    if isinstance(call.func, ast.Name) and name in SPEAKING:
        return list(call.args[: SPEAKING[name]])
    unread = isinstance(call.func, ast.Attribute) and name in (UNREAD | LOGGED)
    return [*call.args] if unread or name in FOR_PROGRAMMERS else []


def unsaid(name: str) -> list[str]:
    """Return the sentences of a module of bench/ that do not pass through say, each with its place."""
    return [f"{name}:{line}: {text!r}" for line, text in sentences((BENCH / name).read_text("utf-8"))]


MODULES = sorted(path.relative_to(BENCH).as_posix() for path in BENCH.rglob("*.py"))


@pytest.mark.parametrize("name", MODULES)
def test_no_sentence_in_a_module_goes_past_say(name: str) -> None:
    assert unsaid(name) == []


def test_what_is_a_sentence_and_what_is_none() -> None:
    assert [text for _, text in sentences('x = "two words"\ny = f"{n} pieces"\nz = f"pieces of {n}"')] == [
        "two words",
        "{} pieces",
        "pieces of {}",
    ]
    assert [text for _, text in sentences('say("{a}", a="not said")')] == ["not said"]
    for none in (
        '"""A docstring of several words."""',
        'say("two words")',
        'say_n("{count} one word", "{count} two words", 3)',
        'd = {"did not fit": 1}["did not fit"]',
        'x == "did not fit"',
        're.compile(r"two words")',
        'f"draft_{n}"',
        "'<path d=\"M0 0\" fill=\"none\"/>'",
        '"SELECT a FROM b"',
        'x: "list of int" = []',
    ):
        assert list(sentences(none)) == [], none


SHOWN = re.compile(r"^\s*(text|title|says|head|hint_text):(.*)$")
LITERAL = re.compile(r"""(==|!=|\bin|say\()?\s*("[^"]*"|'[^']*')""")


def unsaid_in_kv(source: str) -> Iterator[str]:
    """Yield what a kv file shows without say: literals of more than one letter, but those compared with."""
    for line in source.splitlines():
        shown = SHOWN.match(line)
        for before, literal in LITERAL.findall(shown[2]) if shown else ():
            if not before and re.search(r"[^\W\d_]{2,}", literal):
                yield line.strip()


@pytest.mark.parametrize("name", sorted(p.name for p in KV.glob("*.kv")))
def test_no_text_in_a_kv_file_goes_past_say(name: str) -> None:
    assert list(unsaid_in_kv((KV / name).read_text("utf-8"))) == []


def test_what_a_kv_file_shows_is_found() -> None:
    assert list(unsaid_in_kv('text: "Mix it"\ntext: root.name\nkind: "bold"')) == ['text: "Mix it"']
    assert list(unsaid_in_kv('    text: say("Mix it") if root.kind == "two" else "Off"')) != []
    assert list(unsaid_in_kv('    text: say("Mix it") if root.kind == "two" else "–"')) == []
