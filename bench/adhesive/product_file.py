"""Read, find and write adhesive files. The product is what the file says; nothing is guessed in."""

from __future__ import annotations

import os
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from bench.adhesive import faults
from bench.adhesive.product import Product
from bench.adhesive.product_words import fault_of
from bench.resources import resource
from bench.speech import say

DEFAULT_PRODUCT = "white-paste"
LARGEST_BYTES = 256 * 1024

_LINE = re.compile(r"at line (\d+)")
_TWICE = re.compile(r"Cannot (overwrite|declare|mutate) ")
_COMMA = re.compile(r"=\s*-?\d+,\d+\s*(#.*)?$")


def parse_product(data: bytes, where: str) -> Product:
    """Return the product of an adhesive file's bytes. where: its name, for the faults.

    Raises an AdhesiveFileFault, one line, for whatever is wrong.
    """
    if not data.strip():
        raise _unreadable(say("the file is empty"), where, say("copy a file that ships and change it"))
    if len(data) > LARGEST_BYTES:
        raise _unreadable(
            say("{count} bytes is too large", count=len(data)),
            where,
            say("an adhesive file has a few lines of text"),
        )
    try:
        return Product.model_validate(_toml(data, where))
    except ValidationError as error:
        raise fault_of(error, where) from None


def load_product(path: Path) -> Product:
    """Return the product of the file at path. Raises NotAnAdhesiveFile where it cannot be read."""
    try:
        with path.expanduser().open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except IsADirectoryError:
        raise _unreadable(say("this is a folder"), str(path), say("name a .toml file in it")) from None
    except FileNotFoundError:
        raise _unreadable(say("there is no such file"), str(path), say("check the path")) from None
    except (OSError, ValueError, RuntimeError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise _unreadable(
            say("the file cannot be read: {reason}", reason=reason),
            str(path),
            say("check the path and its rights"),
        ) from None
    return parse_product(data, str(path))


def shipped_products() -> dict[str, Path]:
    """Return the adhesive files that ship, by file stem, the default first."""
    files = sorted(resource("assets", "adhesives").glob("*.toml"), key=lambda path: path.stem)
    files.sort(key=lambda path: path.stem != DEFAULT_PRODUCT)
    return {path.stem: path for path in files}


def find_product(name_or_path: str) -> Product:
    """Return the product at a path (with a slash or a .toml), or the shipped one of that stem or name.

    Letter case does not matter in a name. Raises NoSuchAdhesive, which lists the choices.
    """
    asked = name_or_path.strip()
    if asked.casefold().endswith(".toml") or "/" in asked or os.sep in asked:
        return load_product(Path(asked))
    shipped = shipped_products()
    for stem, path in shipped.items():
        if stem.casefold() == asked.casefold():
            return load_product(path)
    for path in shipped.values():
        product = load_product(path)
        if product.name.casefold() == asked.casefold():
            return product
    raise faults.NoSuchAdhesive(asked, tuple(shipped))


def product_toml(product: Product) -> str:
    """Return the file of a product; `parse_product` reads back an equal one."""
    return tables_toml(product.model_dump(exclude_none=True))


def tables_toml(given: Mapping[str, Any]) -> str:
    """Return the text of an adhesive file's tables, whole or not, as they stand."""
    tables = {key: value for key, value in given.items() if key != "hazard"}
    hazard = given.get("hazard", {})
    plain = {key: value for key, value in tables.items() if not isinstance(value, dict)}
    lines = [_row(key, value) for key, value in plain.items()]
    for name, table in tables.items():
        if isinstance(table, dict):
            lines += ["", f"[{name}]", *(_row(key, value) for key, value in table.items())]
    for part in ("resin", "hardener"):
        if part in hazard:
            lines += ["", f"[hazard.{part}]", _row("statements", hazard[part]["statements"])]
    if "revision" in hazard:
        lines += ["", "[hazard]", _row("revision", hazard["revision"])]
    return "\n".join(lines) + "\n"


def _row(key: str, value: object) -> str:
    return f"{key} = {_written(value)}"


def _written(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int):
        return str(value)
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(_written(item) for item in value)}]"
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() else repr(value)
    escaped = "".join(_ESCAPES.get(letter, letter) for letter in str(value))
    return f'"{escaped}"'


# TOML 1.0: in a basic string the quotation mark, the backslash and control characters are escaped.
_ESCAPES = {'"': '\\"', "\\": "\\\\", **{chr(n): f"\\u{n:04x}" for n in (*range(32), 127)}}


def _unreadable(what: str, where: str, todo: str) -> faults.NotAnAdhesiveFile:
    return faults.NotAnAdhesiveFile(what, where=where, todo=todo)


def _toml(data: bytes, where: str) -> Any:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise _unreadable(
            say("line {line} is not UTF-8 text", line=line), where, say("save the file as plain text, UTF-8")
        ) from None
    try:
        return lists_as_tuples(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise _toml_fault(str(error), text, where) from None
    except (ValueError, RecursionError):
        raise _unreadable(
            say("a value is far too long or too deep"), where, say("compare with a file that ships")
        ) from None


def _toml_fault(message: str, text: str, where: str) -> faults.AdhesiveFileFault:
    lines = text.splitlines() or [""]
    at = _LINE.search(message)
    number = min(int(at[1]), len(lines)) if at else len(lines)
    row = lines[number - 1].strip()[:60]
    if _TWICE.match(message):
        field = row.split("=")[0].strip()
        what = say("{field} is given twice; the second is in line {line}", field=field, line=number)
        todo = say("keep one of the two")
        return faults.FieldDoubled(what, where=where, todo=todo, field=field.strip("[]"))
    if _COMMA.search(row):
        what = say("line {line} has a comma in a number: {row}", line=number, row=row)
        return _unreadable(what, where, say("write a point: 2.5, not 2,5"))
    what = say("line {line} cannot be read: {row}", line=number, row=row or say("the line is empty"))
    todo = say('write field = value, with text in "quotes", as in the files that ship')
    return _unreadable(what, where, todo)


def lists_as_tuples(value: Any) -> Any:
    """Return TOML's lists as tuples all the way down: the models are strict and frozen."""
    if isinstance(value, dict):
        return {key: lists_as_tuples(item) for key, item in value.items()}
    if isinstance(value, list):
        return tuple(lists_as_tuples(item) for item in value)
    return value
