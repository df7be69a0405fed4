"""Files that are small to send and large to read, or that lead elsewhere: each once in every campaign."""

from __future__ import annotations

import io
import json
import struct
import zipfile
import zlib
from collections.abc import Iterator

from bench.book.bundle.layout import MANIFEST, MARKER
from bench.pace.csv_file import COLUMNS

XLINK = 'xmlns:x="http://www.w3.org/1999/xlink"'
HEAD = f'<svg xmlns="http://www.w3.org/2000/svg" {XLINK} width="90mm" height="60mm"'
RECT = '<rect width="9" height="9"/>'
PLAIN = f'{HEAD} viewBox="0 0 90 60">'


LIGHT_BYTES = 300_000


def giants(*, light: bool = False) -> Iterator[tuple[str, str, bytes]]:
    """Yield kind, name and content; light: only drawings that are not large themselves."""
    for name, text in _svgs():
        data = text.encode() if isinstance(text, str) else text
        if not light or len(data) <= LIGHT_BYTES:
            yield "svg", name, data
    if light:
        return
    for name, picture in _pictures():
        yield "picture", name, picture
    for name, table in _tables():
        yield name.partition(":")[0], name.partition(":")[2], table
    for name, pack in _bundles():
        yield "bundle", name, pack


def _svgs() -> Iterator[tuple[str, str | bytes]]:
    laughs = "".join(f'<!ENTITY l{k} "{f"&l{k - 1};" * 10}">' for k in range(1, 10))
    yield "billion laughs", f'<!DOCTYPE svg [<!ENTITY l0 "lol">{laughs}]>{PLAIN}<text>&l9;</text></svg>'
    yield "quadratic entity", f'<!DOCTYPE svg [<!ENTITY a "{"a" * 100_000}">]>{PLAIN}{"&a;" * 10_000}</svg>'
    yield (
        "external entity",
        f'<!DOCTYPE s [<!ENTITY e SYSTEM "file:///etc/passwd">]>{PLAIN}<text>&e;</text></svg>',
    )
    yield "parameter entity", f'<!DOCTYPE s [<!ENTITY % p SYSTEM "http://localhost:9/x"> %p;]>{PLAIN}</svg>'
    yield (
        "external dtd",
        f'<!DOCTYPE svg SYSTEM "http://localhost:9/x.dtd">{PLAIN}<rect width="9" height="9"/></svg>',
    )
    yield (
        "external use",
        f'{PLAIN}<use href="file:///etc/passwd#a"/><image x:href="http://localhost:9/a.png"/></svg>',
    )
    yield (
        "external style",
        f'{PLAIN}<style>@import "http://localhost:9/a.css";</style><rect width="9" height="9"/></svg>',
    )
    yield "use of itself", f'{PLAIN}<g id="a"><use href="#a"/></g></svg>'
    yield (
        "two uses of each other",
        f'{PLAIN}<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g></svg>',
    )
    doubled = "".join(
        f'<g id="u{k}"><use href="#u{k - 1}"/><use href="#u{k - 1}"/></g>' for k in range(1, 60)
    )
    yield "uses doubled 59 times", f'{PLAIN}<rect id="u0" width="9" height="9"/>{doubled}</svg>'
    for depth in (300, 5_000, 200_000):
        yield (
            f"{depth} groups deep",
            f"{PLAIN}{'<g>' * depth}<rect width='9' height='9'/>{'</g>' * depth}</svg>",
        )
    yield "unclosed groups", PLAIN + "<g>" * 300_000
    yield "path of 10 MB", f'{PLAIN}<path d="M0 0{"L5 5 1 2" * 1_250_000}Z"/></svg>'
    yield "path of 10 MB of one number", f'{PLAIN}<path d="M0 0L{"1" * 10_000_000} 5Z"/></svg>'
    yield "path of 10 MB of signs", f'{PLAIN}<path d="M0 0{"-+" * 5_000_000}Z"/></svg>'
    yield "path of arcs", f'{PLAIN}<path d="M0 0{"a9 9 0 1 1 5 5" * 300_000}Z"/></svg>'
    yield "path of curves", f'{PLAIN}<path d="M0 0{"c9 9 1e9 1 5 5" * 300_000}Z"/></svg>'
    yield "points of 10 MB", f'{PLAIN}<polygon points="{"1,2 " * 2_500_000}"/></svg>'
    for number in ("1e308", "-1e308", "NaN", "inf", "1e-320", "1e400", "9" * 5_000):
        yield (
            f"numbers {number[:8]}",
            (
                f'{PLAIN}<rect x="{number}" width="{number}" height="9"/><circle r="{number}"/>'
                f'<path d="M{number} 0L5 5 {number} 9Z"/><g transform="scale({number})">{RECT}'
                "</g></svg>"
            ),
        )
        yield (
            f"page {number[:8]}",
            f'{HEAD} viewBox="0 0 {number} {number}"><rect width="9" height="9"/></svg>',
        )
        yield (
            f"scale {number[:8]}",
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{number}mm" height="9"/>',
        )
    yield "300,000 pieces", PLAIN + '<rect width="1" height="1"/>' * 300_000 + "</svg>"
    yield "100,000 pieces on one spot", PLAIN + '<rect width="9" height="9"/>' * 100_000 + "</svg>"
    star = " ".join(
        f"{45 + 40 * ((k * 7919) % 1000) / 1000},{5 + 50 * ((k * 104729) % 1000) / 1000}" for k in range(4000)
    )
    yield "an outline that crosses itself throughout", f'{PLAIN}<polygon points="{star}"/></svg>'
    yield "one attribute of 20 MB", f'{PLAIN}<rect id="{"a" * 20_000_000}" width="9" height="9"/></svg>'
    many = " ".join(f'a{k}="1"' for k in range(200_000))
    yield "200,000 attributes", f"{PLAIN}<rect {many}/></svg>"
    yield (
        "a transform list of 5 MB",
        f'{PLAIN}<g transform="{"scale(1.1) " * 450_000}"><rect width="9" height="9"/></g></svg>',
    )
    of_them = '<rect class="a1" width="1" height="1"/>'
    rules = "".join(f".a{k} rect {{ fill: red }}" for k in range(50_000))
    yield (
        "50,000 rules",
        f"{PLAIN}<style>{rules}</style>{of_them * 5_000}</svg>",
    )
    yield (
        "UTF-16",
        f'<?xml version="1.0" encoding="UTF-16"?>{PLAIN}<rect width="9" height="9"/></svg>'.encode("utf-16"),
    )
    yield "UTF-7", f'<?xml version="1.0" encoding="UTF-7"?>{PLAIN}</svg>'
    yield "not UTF-8", PLAIN.encode() + b"\xff\xfe</svg>"
    yield "zeros", bytes(5_000_000)


def _png(
    width: int, height: int, rows: bytes, *, depth: int = 8, colour: int = 2, extra: bytes = b""
) -> bytes:
    """Return a PNG by ISO/IEC 15948: signature, IHDR, what is extra, IDAT, IEND."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">L", len(data)) + name + data + struct.pack(">L", zlib.crc32(name + data))

    head = struct.pack(">2L5B", width, height, depth, colour, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + extra + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">L", len(data)) + name + data + struct.pack(">L", zlib.crc32(name + data))


def _pictures() -> Iterator[tuple[str, bytes]]:
    zeros = zlib.compress(bytes(7000 * (3 * 7000 + 1)), 9)
    yield "147 MB of black in 150 kB", _png(7000, 7000, zeros)
    yield "a head that claims 4 billion rows", _png(2**31 - 1, 2**31 - 1, zeros[:100])
    yield "a head that claims a line", _png(50_000_000, 1, zeros[:100])
    yield "rows that end early", _png(7000, 7000, zlib.compress(bytes(1000)))
    yield "16 bits and alpha", _png(7000, 7000, zeros, depth=16, colour=6)
    bomb = zlib.compress(bytes(300 * 2**20), 9)
    small = zlib.compress(bytes(32 * (3 * 32 + 1)))
    yield "a colour profile of 300 MB", _png(32, 32, small, extra=_chunk(b"iCCP", b"a\0\0" + bomb))
    yield "a text of 300 MB", _png(32, 32, small, extra=_chunk(b"zTXt", b"a\0\0" + bomb))
    yield "a text of 300 MB, the other way", _png(32, 32, small, extra=_chunk(b"iTXt", b"a\0\1\0\0\0" + bomb))
    yield "100,000 chunks", _png(32, 32, small, extra=_chunk(b"tEXt", b"a\0b") * 100_000)
    yield (
        "a JPEG that claims 65,535 squared",
        (
            b"\xff\xd8\xff\xc0\0\x11\x08\xff\xff\xff\xff\x03\x01\x11\0"
            b"\x02\x11\x01\x03\x11\x01\xff\xda\0\x0c\x03\x01\0"
            b"\x02\x11\x03\x11\0\x3f\0" + bytes(100)
        ),
    )
    yield "a JPEG of markers alone", b"\xff\xd8" + b"\xff\xe1\0\x02" * 500_000
    yield (
        "an EXIF block that leads back to itself",
        (b"\xff\xd8\xff\xe1\0\x22Exif\0\0II*\0\x08\0\0\0\x01\0\x69\x87\x04\0\x01\0\0\0\x08\0\0\0\x08\0\0\0"),
    )
    yield (
        "a WebP that claims more than it has",
        b"RIFF\xff\xff\xff\xffWEBPVP8L\xff\xff\xff\x7f\x2f" + b"\xff" * 60,
    )


def _tables() -> Iterator[tuple[str, bytes]]:
    head = f"{','.join(COLUMNS)}\n".encode()
    yield "glue-ups:200,000 rows", head + b"2026-01-05T09:00:00Z,3,40,2,600,0,21,900,,yes\n" * 200_000
    yield "glue-ups:a cell of 30 MB", head + b'"' + b"a" * 30_000_000 + b'"'
    yield "glue-ups:30 MB of commas", head + b"," * 30_000_000
    yield "glue-ups:an open quote", head + b'"\n' * 500_000
    yield (
        "sheets:a million rows",
        b"glass,width_mm,height_mm,sheets\n" + b"clear #2a5caa,300,300,2\n" * 1_000_000,
    )
    yield "plan:nested 200,000 deep", b"[" * 200_000
    yield "plan:objects 200,000 deep", b'{"tesserae":' * 200_000
    yield "plan:a number of 10 MB", b'{"tesserae": [{"id": "c0r0", "section": ' + b"1" * 10_000_000 + b"}]}"
    yield (
        "plan:a million tesserae",
        json.dumps({"tesserae": [{"id": str(k), "section": k} for k in range(10**6)]}).encode(),
    )
    yield "plan:300 MB of blanks", b" " * 300_000_000
    yield "adhesive:nested 100,000 deep", b"a = " + b"[" * 100_000
    yield "adhesive:tables 50,000 deep", b"[" + b"a." * 50_000 + b"a]"
    yield "adhesive:a number without end", b"name = " + b"1" * 200_000
    yield "adhesive:30 MB", b"# \n" * 10_000_000


def _bundles() -> Iterator[tuple[str, bytes]]:
    yield "nothing but zeros", bytes(1_000_000)
    yield "zeros by the gigabyte", _zip({MARKER: b"1\n", MANIFEST: b"{}", "book.jsonl": bytes(500_000_000)})
    yield "a manifest 100,000 deep", _zip({MARKER: b"1\n", MANIFEST: b"[" * 100_000})
    yield "a manifest of 15 MB", _zip({MARKER: b"1\n", MANIFEST: b"[" + b"1," * 7_000_000 + b"1]"})
    line = (
        b'{"act":"a","at_utc":"2026-05-04T09:00:00Z","book":"b","event":{"kind":"note_written","text":"x"}}\n'
    )
    yield "a zip in a zip in a zip", _zip({"a.zip": _zip({"b.zip": _zip({"c": bytes(10_000_000)})})})
    yield "60,000 members", _zip({f"files/{k:064x}.svg": b"" for k in range(60_000)})
    yield "entries without a manifest", _zip({MARKER: b"1\n", "book.jsonl": line * 300_000})


def _zip(members: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as pack:
        for name, data in members.items():
            pack.writestr(name, data, zipfile.ZIP_STORED if name == MARKER else None)
    return out.getvalue()
