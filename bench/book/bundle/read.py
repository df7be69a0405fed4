"""Read a bundle that anybody may have made: first all that it says of itself, then every member, then use.

Nothing is unpacked to the disk. `open_bundle` reads every member once against the manifest's hash; what is
read again later is held against it again, so that a file changed in between is seen.
"""

from __future__ import annotations

import hashlib
import struct
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import IO, TypeVar

from pydantic import BaseModel, ValidationError

from bench.book.bundle import layout as at
from bench.book.bundle.faults import (
    BundleBroken,
    BundleTooLarge,
    BundleUnreadable,
    HashWrong,
    NewerBundle,
    NoBundle,
)
from bench.book.bundle.layout import DraftLine, EntryLine, Manifest, Member
from bench.book.bundle.members import checked_members, refuse_odd_end
from bench.book.schema import KNOWN_VERSION
from bench.speech import say

_BROKEN = (zipfile.BadZipFile, zlib.error, struct.error, EOFError, ValueError, RuntimeError)
_CHUNK = 2**20
_LOCAL_HEAD = 30  # bytes before a member's name in the zip format
_Model = TypeVar("_Model", bound=BaseModel)


def is_bundle(path: Path) -> bool:
    """Tell by its first bytes whether a file says that it is a bundle."""
    try:
        with path.open("rb") as file:
            head = file.read(_LOCAL_HEAD + len(at.MARKER))
    except (OSError, ValueError):
        return False
    return head.startswith(b"PK\x03\x04") and head.endswith(at.MARKER.encode())


@contextmanager
def open_bundle(path: Path) -> Iterator[Bundle]:
    """Open a bundle whose every member is as its manifest says.

    Raises NoBundle, BundleUnreadable, BundleBroken, BundleTooLarge, BundleUnsafe, HashWrong or NewerBundle.
    """
    name = str(path)
    with ExitStack() as held:
        try:
            if path.exists() and not path.is_file():
                raise NoBundle(name, say("a folder or a device"))
            file = held.enter_context(path.open("rb"))
            refuse_odd_end(file, name)
            with _told(name):
                pack = held.enter_context(zipfile.ZipFile(file))
                bundle = Bundle(name, pack, checked_members(pack, path.stat().st_size, name))
                bundle.check()
        except OSError as error:
            raise BundleUnreadable(name, error.strerror or str(error)) from error
        except ValueError as error:  # a name that no file can have
            raise BundleUnreadable(name, str(error)) from error
        yield bundle


@contextmanager
def _told(name: str, at_: str = "") -> Iterator[None]:
    """Raise what the zip library says of a broken file as the fault it is."""
    try:
        yield
    except _BROKEN as error:
        raise BundleBroken(name, " ".join(str(error).split())[:80] or say("it breaks off"), at_) from error


class Bundle:
    """An open bundle: its manifest, its entries and its files."""

    def __init__(self, name: str, pack: zipfile.ZipFile, infos: dict[str, zipfile.ZipInfo]) -> None:
        self.name = name
        self._pack, self._infos = pack, infos
        self.manifest = self._manifest()
        self._members = {one.name: one for one in self.manifest.members}
        # by the hash of its content: the member, and the kind of file
        self.files: dict[str, tuple[str, str]] = {}
        for member in self._members:
            found = at.MEMBER.fullmatch(member)
            if found is not None and found["sha256"]:
                self.files[found["sha256"]] = member, at.MEDIA[found["extension"]]

    def check(self) -> None:
        """Read every member once; raises HashWrong, or BundleBroken for what is missing or is too much."""
        told = {at.MARKER, at.MANIFEST, *self._members}
        if len(self._members) != len(self.manifest.members) or told != self._infos.keys():
            raise BundleBroken(self.name, say("its list of members does not match them"), at.MANIFEST)
        if at.BOOK not in self._members:
            raise BundleBroken(self.name, say("it holds no book"))
        for member in self._members.values():
            found = at.MEMBER.fullmatch(member.name)
            if found is not None and found["sha256"] not in (None, member.sha256):
                raise HashWrong(self.name, member.name)
            for _ in self._chunks(member):
                pass

    def entries(self, member: str = at.BOOK) -> Iterator[EntryLine]:
        """Yield the entries of a list in order; one that is not there holds none."""
        return self._lines(member, EntryLine)

    def drafts(self) -> Iterator[DraftLine]:
        """Yield the drafts that came along."""
        return self._lines(at.DRAFTS, DraftLine)

    def file(self, sha256: str) -> bytes:
        """Return a file that `files` has."""
        return b"".join(self._chunks(self._members[self.files[sha256][0]]))

    def _manifest(self) -> Manifest:
        self._refuse_newer_layout()
        data = self._pack.read(at.MANIFEST)
        try:
            manifest = Manifest.model_validate_json(data)
        except (ValidationError, RecursionError) as error:
            raise BundleBroken(self.name, _first_word(error), at.MANIFEST) from error
        if manifest.schema_ != at.SCHEMA:
            raise NewerBundle(self.name, manifest.schema_, at.SCHEMA)
        if manifest.version > KNOWN_VERSION:
            raise NewerBundle(self.name, manifest.version, KNOWN_VERSION)
        return manifest

    def _refuse_newer_layout(self) -> None:
        word = self._pack.read(at.MARKER).strip()
        if not (word.isdigit() and len(word) < 9):
            raise BundleBroken(self.name, say("it does not say which layout it has"), at.MARKER)
        if int(word) != at.SCHEMA:
            raise NewerBundle(self.name, int(word), at.SCHEMA)

    def _chunks(self, member: Member) -> Iterator[bytes]:
        """Yield a member's content; raises HashWrong at its end where it is not what it was."""
        told = hashlib.sha256()
        with _told(self.name, member.name), self._pack.open(self._infos[member.name]) as stream:
            size = 0
            while chunk := stream.read(_CHUNK):
                size += len(chunk)
                told.update(chunk)
                yield chunk
        if size != member.bytes or told.hexdigest() != member.sha256:
            raise HashWrong(self.name, member.name)

    def _lines(self, name: str, model: type[_Model]) -> Iterator[_Model]:
        if name not in self._members:
            return
        told = hashlib.sha256()
        with _told(self.name, name), self._pack.open(self._infos[name]) as stream:
            for number, line in _numbered(stream, self.name, name):
                told.update(line)
                try:
                    yield model.model_validate_json(line)
                except (ValidationError, RecursionError) as error:
                    raise BundleBroken(self.name, _first_word(error), at_line(name, number)) from error
        if told.hexdigest() != self._members[name].sha256:
            raise HashWrong(self.name, name)


def at_line(member: str, number: int) -> str:
    """Say which line of a member."""
    return say("{member}, line {number}", member=member, number=number)


def _numbered(stream: IO[bytes], path: str, name: str) -> Iterator[tuple[int, bytes]]:
    number = 0
    while line := stream.readline(at.MOST_LINE_BYTES + 1):
        number += 1
        if len(line) > at.MOST_LINE_BYTES:
            raise BundleTooLarge(path, say("a line without end"), at_line(name, number))
        yield number, line


def _first_word(error: Exception) -> str:
    if isinstance(error, ValidationError):
        first = error.errors(include_url=False, include_context=False, include_input=False)[0]
        place = ".".join(str(part) for part in first["loc"])
        return " ".join(f"{place[:60]}: {first['msg']}"[:160].split())
    return say("it is nested too deep")
