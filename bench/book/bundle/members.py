"""What a zip file says of its members, judged before any of them is read."""

from __future__ import annotations

import os
import stat
import struct
import zipfile
from typing import IO

from bench.book.bundle import layout as at
from bench.book.bundle.faults import BundleBroken, BundleTooLarge, BundleUnsafe, NoBundle
from bench.speech import say

_END = struct.Struct("<4s4H2LH")  # APPNOTE.TXT 4.3.16: end of central directory record
_ENTRY_BYTES = 46 + 120  # 4.3.12: a central entry with a name of ours
_ENCRYPTED, _WAYS = 0x1, (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)


def refuse_odd_end(file: IO[bytes], path: str) -> None:
    """Raise for a file that does not begin and end as our zip files do, before a library reads its list.

    Ours carry no comment, nothing before or between, and no zip64, so the last 22 bytes tell how long the
    list of members is and that nothing else is in the file.
    """
    size = file.seek(0, os.SEEK_END)
    file.seek(0)
    if file.read(4) != b"PK\x03\x04":
        raise NoBundle(path, say("it is empty") if not size else say("not a zip file"))
    file.seek(max(0, size - _END.size))
    tail = file.read(_END.size)
    file.seek(0)
    if len(tail) < _END.size or not tail.startswith(b"PK\x05\x06"):
        raise BundleBroken(path, say("it is cut short, or something was added to it"))
    _, disk, first_disk, here, count, list_bytes, list_at, comment = _END.unpack(tail)
    if count > at.MOST_MEMBERS + 2:
        raise BundleTooLarge(path, say("more than {most:,} members", most=at.MOST_MEMBERS))
    if disk or first_disk or here != count or comment or list_bytes > count * _ENTRY_BYTES:
        raise BundleBroken(path, say("its list of members is odd"))
    if list_at + list_bytes + _END.size != size:
        raise BundleBroken(path, say("it is cut short, or something was added to it"))


def checked_members(pack: zipfile.ZipFile, size_bytes: int, path: str) -> dict[str, zipfile.ZipInfo]:
    """Return the members by name; raises what no bundle holds.

    Packed parts that lie over one another would unpack to more than the file holds: their sizes together
    may not be more than it is.
    """
    found: dict[str, zipfile.ZipInfo] = {}
    for info in pack.infolist():
        _check_one(info, path)
        if info.filename in found:
            raise BundleUnsafe(path, say("two members of one name"), _shown(info.filename))
        found[info.filename] = info
    if at.MARKER not in found or at.MANIFEST not in found:
        raise NoBundle(path, say("another program's zip file"))
    if sum(info.file_size for info in found.values()) > at.MOST_BYTES:
        raise BundleTooLarge(path, say("it unpacks to more than {mib} MiB", mib=at.MOST_BYTES // 2**20))
    if sum(info.compress_size for info in found.values()) > size_bytes:
        raise BundleBroken(path, say("its members lie over one another"))
    return found


def _check_one(info: zipfile.ZipInfo, path: str) -> None:
    name, shown = info.filename, _shown(info.filename)
    parts = name.replace("\\", "/").split("/")
    if ".." in parts or name.startswith(("/", "\\")) or ":" in parts[0]:
        raise BundleUnsafe(path, say("a path that leads out of it"), shown)
    kind = stat.S_IFMT(info.external_attr >> 16)
    if kind == stat.S_IFLNK:
        raise BundleUnsafe(path, say("a link"), shown)
    if kind not in (0, stat.S_IFREG) or info.is_dir():
        raise BundleUnsafe(path, say("a folder or a device"), shown)
    if info.flag_bits & _ENCRYPTED:
        raise BundleUnsafe(path, say("anything encrypted"), shown)
    if info.compress_type not in _WAYS:
        raise BundleUnsafe(path, say("a member packed in this way"), shown)
    if name not in (at.MARKER, at.MANIFEST) and not at.MEMBER.fullmatch(name):
        raise BundleUnsafe(path, say("a member of this name"), shown)
    _check_size(info, path)


def _check_size(info: zipfile.ZipInfo, path: str) -> None:
    most = {
        at.MARKER: 100,
        at.MANIFEST: at.MOST_MANIFEST_BYTES,
        at.BOOK: at.MOST_TEXT_BYTES,
        at.WORKSHOP: at.MOST_TEXT_BYTES,
        at.DRAFTS: at.MOST_TEXT_BYTES,
    }.get(info.filename, at.MOST_FILE_BYTES)
    if info.file_size > most:
        raise BundleTooLarge(path, say("more than {mib} MiB", mib=most // 2**20), info.filename)
    if info.file_size > max(at.RATIO_FROM_BYTES, at.MOST_RATIO * info.compress_size):
        why = say("it unpacks to more than {times} times itself", times=at.MOST_RATIO)
        raise BundleTooLarge(path, why, info.filename)


def _shown(name: str) -> str:
    return repr(name if len(name) <= 60 else f"{name[:57]}...")
