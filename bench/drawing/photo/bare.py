"""Take out of a picture file what tells of its maker: place, time, camera, serial numbers, notes, previews.

The picture itself is not touched: no pixel is unpacked or packed again. What stays says how to show it:
size, colours, resolution, which way is up. Whatever else a file carries, and what follows its end, goes.
The parts of the formats are those of ISO/IEC 15948 (PNG), ITU-T T.81 and T.871 with Exif 2.32 (JPEG), and
RFC 9649 (WebP); the numbers of marks and tags are from memory.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator

_PNG, _JPEG = b"\x89PNG\r\n\x1a\n", b"\xff\xd8"
# colours, resolution and transparency; a text, a time or an Exif block is none of these
_PNG_STAYS = frozenset(
    (
        b"IHDR",
        b"PLTE",
        b"IDAT",
        b"IEND",
        b"tRNS",
        b"gAMA",
        b"cHRM",
        b"sRGB",
        b"iCCP",
        b"sBIT",
        b"pHYs",
        b"bKGD",
    )
)
_WEBP_STAYS = frozenset((b"VP8 ", b"VP8L", b"VP8X", b"ALPH", b"ICCP", b"ANIM", b"ANMF"))
_WEBP_EXIF, _WEBP_XMP = 0x08, 0x04  # flags of VP8X that say that such a part follows
_SCAN, _END = 0xDA, 0xD9
_ORIENTATION, _X_PER_UNIT, _Y_PER_UNIT, _UNIT = 0x0112, 0x011A, 0x011B, 0x0128
_SHORT, _RATIO = 3, 5


def bare(data: bytes) -> bytes:
    """Return the file of a picture with nothing in it but the picture.

    A file that is no PNG, JPEG or WebP, or is broken where its parts are told apart, comes back as it is:
    whoever reads it says so.
    """
    try:
        if data.startswith(_PNG):
            return b"".join(_png_parts(data))
        if data.startswith(_JPEG):
            return b"".join(_jpeg_parts(data))
        if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
            return _webp(data)
    except (struct.error, IndexError):
        pass
    return data


def _png_parts(data: bytes) -> Iterator[bytes]:
    yield _PNG
    at = len(_PNG)
    while at < len(data):
        (size,), kind = struct.unpack_from(">L", data, at), data[at + 4 : at + 8]
        part = data[at : at + 12 + size]
        if kind == b"eXIf" and (kept := _kept_exif(part[8:-4])):
            yield _png_chunk(b"eXIf", kept)
        elif kind in _PNG_STAYS:
            yield part
        at += 12 + size
        if kind == b"IEND":
            return


def _png_chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">L", len(data)) + kind + data + struct.pack(">L", zlib.crc32(kind + data))


def _jpeg_parts(data: bytes) -> Iterator[bytes]:
    yield _JPEG
    at = 2
    while True:
        if data[at] != 0xFF:
            raise IndexError  # no marker
        while data[at + 1] == 0xFF:
            at += 1
        kind = data[at + 1]
        if kind == _END or 0xD0 <= kind <= 0xD8 or kind == 0x01:  # these have no length
            yield data[at : at + 2]
            at += 2
            if kind == _END:
                return
            continue
        (size,) = struct.unpack_from(">H", data, at + 2)
        part = data[at : at + 2 + size]
        if kind == 0xE1 and part[4:10] == b"Exif\0\0":
            kept = _kept_exif(part[10:])
            if kept:
                yield b"\xff\xe1" + struct.pack(">H", len(kept) + 8) + b"Exif\0\0" + kept
        elif _jpeg_stays(kind, part):
            yield part
        at += 2 + size
        if kind == _SCAN:
            end = _end_of_scan(data, at)
            yield data[at:end]
            at = end


def _jpeg_stays(kind: int, part: bytes) -> bool:
    """Tell whether a segment is of the picture: application segments only for size, colours and profile."""
    if kind == 0xE0:
        return part[4:9] == b"JFIF\0"
    if kind == 0xE2:
        return part[4:16] == b"ICC_PROFILE\0"
    if kind == 0xEE:
        return part[4:9] == b"Adobe"
    return not (0xE1 <= kind <= 0xEF or kind == 0xFE)


def _end_of_scan(data: bytes, at: int) -> int:
    """Return where the packed pixels end: at the first marker that is neither a zero nor a restart."""
    while True:
        at = data.find(b"\xff", at)
        if at < 0 or at + 1 >= len(data):
            return len(data)
        if data[at + 1] == 0 or 0xD0 <= data[at + 1] <= 0xD7:
            at += 2
        elif data[at + 1] == 0xFF:
            at += 1
        else:
            return at


def _webp(data: bytes) -> bytes:
    (size,) = struct.unpack_from("<L", data, 4)
    end, at, parts = min(len(data), size + 8), 12, []
    while at + 8 <= end:
        kind, (length,) = data[at : at + 4], struct.unpack_from("<L", data, at + 4)
        part = data[at : at + 8 + length + length % 2]
        exif = _kept_exif(part[8:].removeprefix(b"Exif\0\0")) if kind == b"EXIF" else b""
        if exif:
            parts.append(b"EXIF" + struct.pack("<L", len(exif)) + exif + b"\0" * (len(exif) % 2))
        elif kind in _WEBP_STAYS:
            parts.append(part)
        at += len(part) if part else 8
    has_exif = any(part.startswith(b"EXIF") for part in parts)
    parts = [_flagged(part, has_exif) if part.startswith(b"VP8X") else part for part in parts]
    body = b"WEBP" + b"".join(parts)
    return b"RIFF" + struct.pack("<L", len(body)) + body


def _flagged(part: bytes, has_exif: bool) -> bytes:
    """Return a VP8X part whose flags say what follows now."""
    flags = part[8] & ~(_WEBP_EXIF | _WEBP_XMP) | (_WEBP_EXIF if has_exif else 0)
    return part[:8] + bytes([flags]) + part[9:]


def _kept_exif(block: bytes) -> bytes:
    """Return an Exif block of what shows a picture rightly: orientation and resolution; b"" for neither."""
    order = {b"II": "<", b"MM": ">"}.get(block[:2])
    if order is None or len(block) < 8:
        return b""
    try:
        (first,) = struct.unpack_from(f"{order}L", block, 4)
        (count,) = struct.unpack_from(f"{order}H", block, first)
        found: dict[int, tuple[int, int]] = {}
        for k in range(min(count, 200)):
            tag, kind, many = struct.unpack_from(f"{order}HHL", block, first + 2 + 12 * k)
            at = first + 2 + 12 * k + 8
            if many != 1:
                continue
            if tag in (_ORIENTATION, _UNIT) and kind == _SHORT:
                found[tag] = (struct.unpack_from(f"{order}H", block, at)[0], 0)
            elif tag in (_X_PER_UNIT, _Y_PER_UNIT) and kind == _RATIO:
                (place,) = struct.unpack_from(f"{order}L", block, at)
                found[tag] = struct.unpack_from(f"{order}LL", block, place)
    except struct.error:
        return b""
    return _exif(found) if found else b""


def _exif(found: dict[int, tuple[int, int]]) -> bytes:
    """Return an Exif block of one directory with these tags, as little-endian TIFF."""
    entries, after = b"", b""
    place = 8 + 2 + 12 * len(found) + 4
    for tag, value in sorted(found.items()):
        if tag in (_ORIENTATION, _UNIT):
            entries += struct.pack("<HHLHH", tag, _SHORT, 1, value[0], 0)
        else:
            entries += struct.pack("<HHLL", tag, _RATIO, 1, place + len(after))
            after += struct.pack("<LL", *value)
    return b"II*\0\x08\0\0\0" + struct.pack("<H", len(found)) + entries + bytes(4) + after
