"""Gather what is said in the code, and what data files hold to be read, into the catalogues; compile them.

Run: python -m tests.tools.catalogues. It brings each assets/words/<language>/LC_MESSAGES/potwatch.po up to
date (what is no longer said goes, what is new comes untranslated) and compiles it. With the word `check`
nothing is written: what is out of date or untranslated is told instead.
"""

from __future__ import annotations

import ast
import io
import json
import re
import sys
import tomllib
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from bench.speech import LANGUAGES
from bench.speech.said import SHIPPED

HOUSE = Path(__file__).parents[2]
WORDS = HOUSE / "assets" / "words"
UNDATED = datetime(2026, 1, 1, tzinfo=UTC)  # or every gathering would change the files
SAYING = {"say": 1, "say_n": 2}  # how many of its first arguments are sentences
IN_KV = re.compile(r"""\bsay\(\s*("(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*')""")


class NotLiteral(Exception):
    """A sentence is put together before it is said, so that no catalogue could hold it."""


def said_in_python(source: str, name: str) -> Iterator[tuple[tuple[str, ...], int]]:
    """Yield the sentences of each call of say and say_n in a module, with its line."""
    tree = ast.parse(source)
    if "from bench.speech" not in source:
        return  # another say than ours
    for node in ast.walk(tree):
        if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in SAYING):
            continue
        texts = node.args[: SAYING[node.func.id]]
        if not all(isinstance(text, ast.Constant) and isinstance(text.value, str) for text in texts):
            raise NotLiteral(f"{name}:{node.lineno}: say a literal and give its values by name")
        yield tuple(text.value for text in texts), node.lineno  # type: ignore[union-attr, misc]


def said_in_kv(source: str) -> Iterator[tuple[tuple[str, ...], int]]:
    """Yield the sentences of each call of say in a kv file, with its line."""
    if "#:import say bench.speech.say" not in source:
        return
    for number, line in enumerate(source.splitlines(), start=1):
        for found in IN_KV.finditer(line):
            yield (str(ast.literal_eval(found[1])),), number


# What data files hold for a person to read, looked up with `said`: the file, and where the text stands in it;
# * is any key.
IN_DATA = (
    ("assets/adhesives/*.toml", "name"),
    ("shared/hazard_statements.json", "hazard.*.says"),
    ("shared/hazard_statements.json", "hazard.*.signal"),
    ("shared/hazard_statements.json", "precautionary.*"),
)


def said_in_data(path: Path, field: str) -> Iterator[str]:
    """Yield the texts of one field of a TOML or JSON file; field: its dotted name, * for any key."""
    reads = tomllib.loads if path.suffix == ".toml" else json.loads
    found = [reads(path.read_text("utf-8"))]
    for part in field.split("."):
        found = [value for table in found for key, value in table.items() if part in ("*", key)]
    yield from (text for text in found if text)


def gathered() -> Catalog:
    """Return all that is said in bench/ and kv/, and what the data files hold for a person to read."""
    catalogue = Catalog(project="Potwatch", charset="utf-8")
    paths = sorted((HOUSE / "bench").rglob("*.py")) + sorted((HOUSE / "kv").glob("*.kv"))
    for path in paths:
        name, source = str(path.relative_to(HOUSE)), path.read_text("utf-8")
        said = said_in_kv(source) if path.suffix == ".kv" else said_in_python(source, name)
        for texts, _line in said:
            catalogue.add(texts if len(texts) > 1 else texts[0], locations=[(name, 0)])
    for pattern, field in IN_DATA:
        for data in sorted(HOUSE.glob(pattern)):
            for text in said_in_data(data, field):
                catalogue.add(text, locations=[(str(data.relative_to(HOUSE)), 0)], context=SHIPPED)
    return catalogue


def brought_up_to_date(language: str, said: Catalog) -> Catalog:
    """Return a language's catalogue with what is said now, and nothing else."""
    path = po_path(language)
    old = read_po(io.BytesIO(path.read_bytes()), locale=language) if path.exists() else Catalog(language)
    old.update(said, no_fuzzy_matching=True)
    old.obsolete.clear()
    old.creation_date = old.revision_date = UNDATED
    return old


def po_path(language: str) -> Path:
    return WORDS / language / "LC_MESSAGES" / "potwatch.po"


def po_bytes(catalogue: Catalog) -> bytes:
    out = io.BytesIO()
    write_po(out, catalogue, width=108, omit_header=False, sort_output=True, include_lineno=False)
    dated = re.compile(rb'^"(POT-Creation-Date|PO-Revision-Date|Generated-By):.*\n', re.M)
    return dated.sub(b"", out.getvalue())


def mo_bytes(catalogue: Catalog) -> bytes:
    out = io.BytesIO()
    write_mo(out, catalogue)
    return out.getvalue()


def main() -> None:
    said, late = gathered(), False
    for language in (name for name in LANGUAGES if name != "en"):
        catalogue = brought_up_to_date(language, said)
        missing = [m.id for m in catalogue if m.id and not (all(m.string) if m.pluralizable else m.string)]
        path = po_path(language)
        if "check" in sys.argv:
            late |= not path.exists() or path.read_bytes() != po_bytes(catalogue)
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(po_bytes(catalogue))
            path.with_suffix(".mo").write_bytes(mo_bytes(catalogue))
        print(f"{language}: {len(catalogue)} sentences, {len(missing)} untranslated")
        for text in missing[:20]:
            print("   ", text)
        late |= bool(missing)
    raise SystemExit(int(late and "check" in sys.argv))


if __name__ == "__main__":
    main()
