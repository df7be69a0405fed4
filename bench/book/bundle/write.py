"""Write a bundle: beside its place first, on the disk whole, then moved there."""

from __future__ import annotations

import hashlib
import os
import tempfile
import zipfile
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from pydantic import BaseModel

from bench.book.bundle.faults import BundleNotWritten, BundleTooLarge
from bench.book.bundle.layout import MANIFEST, MARKER, MOST_BYTES, SCHEMA, Manifest, Member, zip_time
from bench.book.files import sync_folder
from bench.speech import say

_PACKED_ALREADY = (".jpg", ".png", ".webp")


def lines_of(lines: Iterable[BaseModel]) -> bytes:
    """Return models as JSON, one a line."""
    return b"".join(line.model_dump_json().encode() + b"\n" for line in lines)


def write_bundle(
    path: Path,
    texts: Mapping[str, bytes],
    files: Mapping[str, Callable[[], bytes]],
    manifest: Callable[[tuple[Member, ...]], Manifest],
) -> int:
    """Write a bundle to a file, in place of one that is there, and return its size. [bytes]

    texts, files: member name -> content; a file is fetched when it is its turn, twice. manifest: makes the
    manifest of the members. Raises BundleNotWritten or BundleTooLarge, and then leaves what was there.
    """
    members = [_member(name, data) for name, data in texts.items()]
    members += [_member(name, fetch()) for name, fetch in files.items()]
    if sum(one.bytes for one in members) > MOST_BYTES:
        raise BundleTooLarge(str(path), say("more than {mib} MiB", mib=MOST_BYTES // 2**20))
    told = manifest(tuple(members))
    head = told.model_dump_json(by_alias=True).encode()
    try:
        if path.exists() and not path.is_file():
            raise BundleNotWritten(str(path), say("it is no file"))
        path = path.resolve() if path.is_symlink() else path
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name[:80]}.")
        try:
            with os.fdopen(handle, "wb") as out:
                with zipfile.ZipFile(out, "w", allowZip64=False) as pack:
                    _put(pack, MARKER, f"{SCHEMA}\n".encode(), told.written_utc)
                    _put(pack, MANIFEST, head, told.written_utc)
                    for name, data in texts.items():
                        _put(pack, name, data, told.written_utc)
                    for name, fetch in files.items():
                        _put(pack, name, fetch(), told.written_utc)
                out.flush()
                os.fsync(out.fileno())
            os.replace(beside, path)
        except BaseException:
            with suppress(OSError):
                os.unlink(beside)
            raise
        with suppress(OSError):  # a folder that cannot be asked to keep the name has it all the same
            sync_folder(path.parent)
        return path.stat().st_size
    except zipfile.LargeZipFile as error:
        raise BundleTooLarge(str(path), say("more than a plain zip file holds")) from error
    except (OSError, ValueError) as error:
        raise BundleNotWritten(str(path), getattr(error, "strerror", None) or str(error)) from error


def _member(name: str, data: bytes) -> Member:
    return Member(name=name, bytes=len(data), sha256=hashlib.sha256(data).hexdigest())


def _put(pack: zipfile.ZipFile, name: str, data: bytes, at_utc: datetime) -> None:
    info = zipfile.ZipInfo(name, zip_time(at_utc))
    plain = name == MARKER or name.endswith(_PACKED_ALREADY)
    info.compress_type = zipfile.ZIP_STORED if plain else zipfile.ZIP_DEFLATED
    info.external_attr = 0o100600 << 16  # a plain file, its owner's alone
    pack.writestr(info, data)
