"""What a seeded hand makes of good files of every kind: the mutation half of the fuzzer."""

from __future__ import annotations

import hashlib
import io
import json
import random
import re
import zipfile
from collections.abc import Callable
from typing import Any

from bench.book.bundle.layout import MANIFEST, MARKER
from tests.campaigns.hostile_seeds import seeds

NUMBERS = (
    "1e308", "-1e308", "1e309", "NaN", "nan", "inf", "-inf", "Infinity", "1e-320", "-0", "0", "-1",
    "99999999999999999999", "0.1e", "1,5", "1e", ".", "1.2.3", "0x10", "4294967296", "2147483648",
    "1e400", "true", "null", "\uff11", "9" * 400, "1e-400", "-1e-5", "1_0",
)  # fmt: skip
WORDS = (
    "", " ", "\x00", "\ud7ff", "\u202e", "🍋" * 50, "%s%n", "../../x", "/dev/zero", "file:///etc/passwd",
    "http://localhost:9/x", "data:image/png;base64,AAAA", "A" * 5000, "'", '"', "]]>", "<!--", "&#0;", "&a;",
)  # fmt: skip
JSON_VALUES: tuple[Any, ...] = (
    None, True, -1, 0, 1, 2**31, 2**63, 10**30, 1e308, -1e308, float("nan"), float("inf"), "", "x", "\x00",
    [], {}, [[]], "9" * 300, "2026-05-04T09:00:00", "0001-01-01T00:00:00Z", "9999-12-31T23:59:59Z", "0" * 64,
)  # fmt: skip
_NUMBER = re.compile(rb"[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?")


def mutated(kind: str, rng: random.Random) -> bytes:
    """Return a good file of a kind, changed in one to six places, most often in one."""
    data = rng.choice(seeds(kind))
    if kind == "bundle" and rng.random() < 0.7:
        return _bundle_within(data, rng)
    if kind == "plan" and rng.random() < 0.5:
        return json.dumps(_json_changed(json.loads(data), rng)).encode()
    for _ in range(rng.choice((1, 1, 1, 2, 3, 6))):
        ways = _BYTES if kind in ("picture", "bundle") else _BYTES + 3 * _TEXT
        data = rng.choice(ways)(data, rng)
        if kind == "svg" and rng.random() < 0.3:
            data = _svg_added(data, rng)
    return data


# -- bytes -----------------------------------------------------------------------------------------------


def _flip(data: bytes, rng: random.Random) -> bytes:
    out = bytearray(data)
    for _ in range(rng.randint(1, 8)):
        if out:
            out[rng.randrange(len(out))] = rng.choice((0, 1, 0x7F, 0x80, 0xFF, rng.randrange(256)))
    return bytes(out)


def _cut(data: bytes, rng: random.Random) -> bytes:
    a = rng.randint(0, len(data))
    return data[:a] if rng.random() < 0.4 else data[:a] + data[min(len(data), a + rng.randint(1, 200)) :]


def _repeat(data: bytes, rng: random.Random) -> bytes:
    a = rng.randint(0, len(data))
    part = data[a : a + rng.randint(1, 300)]
    return data[:a] + part * rng.choice((2, 3, 50)) + data[a:]


def _swap(data: bytes, rng: random.Random) -> bytes:
    a, b, c = sorted(rng.randint(0, len(data)) for _ in range(3))
    return data[:a] + data[b:c] + data[a:b] + data[c:]


def _insert(data: bytes, rng: random.Random) -> bytes:
    a = rng.randint(0, len(data))
    return data[:a] + rng.randbytes(rng.randint(1, 40)) + data[a:]


_BYTES: tuple[Callable[[bytes, random.Random], bytes], ...] = (_flip, _cut, _repeat, _swap, _insert)


# -- text ------------------------------------------------------------------------------------------------


def _number(data: bytes, rng: random.Random) -> bytes:
    found = list(_NUMBER.finditer(data))
    if not found:
        return data
    one = rng.choice(found)
    return data[: one.start()] + rng.choice(NUMBERS).encode() + data[one.end() :]


def _word(data: bytes, rng: random.Random) -> bytes:
    found = list(re.finditer(rb"[A-Za-z_][\w-]*", data))
    if not found:
        return data
    one, other = rng.choice(found), rng.choice(found)
    put = rng.choice(WORDS).encode() if rng.random() < 0.5 else other[0]
    return data[: one.start()] + put + data[one.end() :]


def _lines(data: bytes, rng: random.Random) -> bytes:
    lines = re.split(rb"(?<=[\n>])", data)
    a, b = rng.randrange(len(lines)), rng.randrange(len(lines))
    lines[a] = rng.choice((b"", lines[a] * 3, lines[b], lines[a][::-1]))
    return b"".join(lines)


_TEXT: tuple[Callable[[bytes, random.Random], bytes], ...] = (_number, _word, _lines)

_SVG_PARTS = (
    '<use href="#{i}"/>', '<g id="{i}"><use href="#{i}"/></g>', '<g transform="{t}">', "</g>",
    '<path d="{p}" fill="red"/>',
    '<polygon points="{n} {n} {n},{n} 5 5 9 1"/>', '<rect width="{n}" height="{n}"/>',
    '<circle r="{n}" cx="{n}"/>',
    '<ellipse rx="{n}" ry="3"/>', "<style>* {{ fill: url(#{i}); r: {n} }}</style>",
    '<image href="file:///etc/passwd" width="9" height="9"/>', '<symbol id="{i}" viewBox="0 0 {n} {n}">',
    '<svg viewBox="{n} {n} {n} {n}" width="{n}">', "<!DOCTYPE a [<!ENTITY x '{i}'>]>", "<?xml-stylesheet?>",
    '<rect data-board="{i}" data-glass="{i}" data-adhesive="{i}" x="1" y="1" width="4" height="4"/>',
)  # fmt: skip
_TRANSFORMS = (
    "scale({n})", "matrix({n} 0 0 {n} 0 0)", "rotate({n} {n} {n})", "skewX(90)", "translate({n})", "scale(0)",
)  # fmt: skip
_PATHS = (
    "M{n} {n}L5 5 9 {n}Z",
    "M0 0A{n} {n} 0 1 1 5 5Z",
    "M0 0C{n} 1 2 {n} 3 3Z",
    "M0 0h{n}v{n}z m5 5",
    "Q",
    "M",
)


def _svg_added(data: bytes, rng: random.Random) -> bytes:
    """Put a part of a drawing between two others."""

    def number(_: object) -> str:
        return rng.choice((*NUMBERS, f"{rng.uniform(-50, 500):.3f}"))

    part = rng.choice(_SVG_PARTS)
    part = part.replace("{t}", rng.choice(_TRANSFORMS)).replace("{p}", rng.choice(_PATHS))
    part = part.replace("{i}", rng.choice(("a", "c0r0", "c1r1", *WORDS[:4])))
    part = re.sub(r"\{n\}", number, part).replace("{{", "{").replace("}}", "}")
    places = [0, *(m.end() for m in re.finditer(rb">", data))]
    at = rng.choice(places)
    return data[:at] + part.encode("utf-8", "replace") * rng.choice((1, 1, 1, 30)) + data[at:]


# -- JSON and bundles ------------------------------------------------------------------------------------


def _json_changed(value: Any, rng: random.Random) -> Any:
    """Change one place of a JSON value, chosen at random on the way down."""
    if isinstance(value, dict) and value and rng.random() < 0.85:
        key = rng.choice(list(value))
        if rng.random() < 0.08:
            return {k: v for k, v in value.items() if k != key}
        return {**value, key: _json_changed(value[key], rng)}
    if isinstance(value, list) and value and rng.random() < 0.85:
        k = rng.randrange(len(value))
        if rng.random() < 0.2:
            return rng.choice((value[:k], value + value[k:], value[k:], value[::-1]))
        return [*value[:k], _json_changed(value[k], rng), *value[k + 1 :]]
    if isinstance(value, int | float) and rng.random() < 0.5:
        return value + rng.choice((1, -1, 1e9, -1e9, 0.5))
    return rng.choice(JSON_VALUES)


def _bundle_within(data: bytes, rng: random.Random) -> bytes:
    """Change what is in a bundle and let its hashes agree, so that what lies deeper is reached."""
    with zipfile.ZipFile(io.BytesIO(data)) as pack:
        members = {info.filename: pack.read(info) for info in pack.infolist()}
    for _ in range(rng.choice((1, 1, 1, 2, 3))):
        name = rng.choice([n for n in members if n != MARKER])
        if name.endswith(".jsonl"):
            lines = [json.loads(line) for line in members[name].splitlines()]
            if not lines:
                continue
            k = rng.randrange(len(lines))
            how = rng.random()
            if how < 0.7:
                lines[k] = _json_changed(lines[k], rng)
            elif how < 0.8:
                del lines[k]
            else:
                lines.insert(rng.randint(0, len(lines)), lines[k])
            members[name] = "".join(json.dumps(line) + "\n" for line in lines).encode()
        elif name == MANIFEST:
            members[name] = json.dumps(_json_changed(json.loads(members[name]), rng)).encode()
        elif rng.random() < 0.3:
            members = _file_changed(members, name, rng)
    return _packed(members)


def _file_changed(members: dict[str, bytes], name: str, rng: random.Random) -> dict[str, bytes]:
    """Change a file that entries name, and the name everywhere."""
    new = rng.choice((*_BYTES, *_TEXT))(members[name], rng)
    old_sha, new_sha = name[6:70], hashlib.sha256(new).hexdigest()
    said = {n: d.replace(old_sha.encode(), new_sha.encode()) for n, d in members.items() if n != name}
    return {**said, name.replace(old_sha, new_sha): new}


def _packed(members: dict[str, bytes]) -> bytes:
    with_hashes = dict(members)
    try:
        manifest = json.loads(members[MANIFEST])
        manifest["members"] = [
            {"name": n, "bytes": len(d), "sha256": hashlib.sha256(d).hexdigest()}
            for n, d in members.items()
            if n not in (MARKER, MANIFEST)
        ]
        lines = members["book.jsonl"].count(b"\n")
        manifest["entries"] = lines if isinstance(manifest.get("entries"), int) else manifest.get("entries")
        with_hashes[MANIFEST] = json.dumps(manifest).encode()
    except (TypeError, AttributeError, KeyError, ValueError):
        pass
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as pack:
        for name, data in with_hashes.items():
            pack.writestr(name, data, zipfile.ZIP_STORED if name == MARKER else None)
    return out.getvalue()
