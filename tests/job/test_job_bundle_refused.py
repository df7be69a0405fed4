"""Whatever is wrong with a bundle ends in one line, and nothing that was there before is touched.

The zip format: PKWARE's APPNOTE.TXT; which of its fields tell what is beside each check.
"""

import random
import string
import struct
import zipfile

import pytest

from bench.book import Store
from bench.book.bundle import faults, is_bundle
from bench.book.bundle import layout as at
from bench.book.schema import KNOWN_VERSION
from bench.job.acts import bringing, record
from bench.job.acts.bringing import open_the_bundle
from bench.job.acts.bundling import bundle_panel
from tests.fakes.bundles import changed, members_of, worked_panel, write_members
from tests.fakes.clock import FakeClock


def test_what_is_no_zip_file_is_no_bundle(refuse, tmp_path):
    for name, data in (("a.zip", b""), ("b.zip", b"hello"), ("c.zip", b"\x89PNG\r\n\x1a\n" + bytes(99))):
        (tmp_path / name).write_bytes(data)
        refuse(tmp_path / name, faults.NoBundle)
        assert not is_bundle(tmp_path / name)
    refuse(tmp_path, faults.NoBundle)
    refuse(tmp_path / "nowhere.zip", faults.BundleUnreadable)
    refuse(tmp_path / "no\0name.zip", faults.BundleUnreadable)


def test_another_programs_zip_file_is_no_bundle(refuse, tmp_path):
    with zipfile.ZipFile(tmp_path / "photos.zip", "w") as pack:
        pack.writestr("book.jsonl", b"")
    refuse(tmp_path / "photos.zip", faults.NoBundle)


@pytest.mark.parametrize("share", [0.01, 0.3, 0.7, 0.99])
def test_a_bundle_that_is_cut_short_is_refused(refuse, good, share):
    data = good.read_bytes()
    good.write_bytes(data[: int(share * len(data))])
    refuse(good)


@pytest.mark.parametrize(("before", "after"), [(b"MZ", b""), (b"", b"more"), (b"PK\x03\x04", b"")])
def test_nothing_may_stand_before_or_after_it(refuse, good, before, after):
    good.write_bytes(before + good.read_bytes() + after)
    refuse(good)


@pytest.mark.parametrize(
    "name",
    ["../book.jsonl", "/etc/passwd", "files/../../x", "..\\x", "C:\\x", "\\\\host\\x", "files/", "other.txt",
     "files/abc.svg", f"files/{'0' * 64}.exe", "book.jsonl ", "BOOK.JSONL"],
)  # fmt: skip
def test_a_member_of_any_other_name_is_refused(refuse, good, name):
    fault = refuse(write_members(good, {**members_of(good), name: b"x"}), faults.BundleUnsafe)
    assert "do not open it" in str(fault)


def test_a_link_in_it_is_refused(refuse, good):
    """The upper half of external attributes is the Unix mode; 0o120000 is a link (APPNOTE 4.4.15, stat.h)."""
    members = members_of(good)
    with zipfile.ZipFile(good, "w") as pack:
        for name, data in members.items():
            info = zipfile.ZipInfo(name)
            info.external_attr = (0o120777 if name.startswith("files/") else 0o100600) << 16
            pack.writestr(info, data)
    assert "a link" in str(refuse(good, faults.BundleUnsafe))


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_two_members_of_one_name_are_refused(refuse, good):
    with zipfile.ZipFile(good, "a") as pack:
        pack.writestr("book.jsonl", b"{}")
    assert "two members of one name" in str(refuse(good, faults.BundleUnsafe))


def test_an_encrypted_member_is_refused(refuse, good):
    """Bit 0 of the general purpose flags (APPNOTE 4.4.4), in the local and in the central header."""
    data = bytearray(good.read_bytes())
    for mark, where in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        found = data.rfind(mark)
        data[found + where] |= 1
    good.write_bytes(data)
    assert "encrypted" in str(refuse(good, faults.BundleUnsafe))


@pytest.mark.parametrize("way", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_other_ways_of_packing_are_refused(refuse, good, way):
    members = members_of(good)
    with zipfile.ZipFile(good, "w") as pack:
        for name, data in members.items():
            pack.writestr(name, data, way if name == "book.jsonl" else zipfile.ZIP_STORED)
    refuse(good, faults.BundleUnsafe)


def test_a_member_that_unpacks_without_end_is_refused(refuse, good):
    members = {**members_of(good), f"files/{'0' * 64}.svg": bytes(40 * 2**20)}
    fault = refuse(write_members(good, members), faults.BundleTooLarge)
    assert "200 times" in str(fault)


def test_a_size_beyond_all_panels_is_refused_before_anything_is_read(refuse, good):
    """Uncompressed size at offset 24 of a central header (APPNOTE 4.3.12): a lie is enough to be refused."""
    data = bytearray(good.read_bytes())
    struct.pack_into("<L", data, data.rfind(b"PK\x01\x02") + 24, 2**32 - 2)
    good.write_bytes(data)
    refuse(good, faults.BundleTooLarge)


def test_more_members_than_any_panel_has_are_refused(refuse, good, monkeypatch):
    monkeypatch.setattr(at, "MOST_MEMBERS", 2)
    refuse(good, faults.BundleTooLarge)


def test_members_that_lie_over_one_another_are_refused(refuse, good):
    """Two central headers that lead to one packed part: the heart of a bomb that no ratio shows."""
    data = good.read_bytes()
    end = data.rfind(b"PK\x05\x06")
    fields = list(struct.unpack("<4s4H2LH", data[end:]))
    first = data.find(b"PK\x01\x02")
    entries, place = [], first
    while place < end:
        name, extra, note = struct.unpack_from("<3H", data, place + 28)
        entries.append(data[place : place + 46 + name + extra + note])
        place += len(entries[-1])
    largest = max(entries, key=lambda one: struct.unpack_from("<L", one, 20)[0])
    copies = []
    for k in range(300):
        copy = bytearray(largest[:46] + f"files/{k:064x}.svg".encode())
        struct.pack_into("<3H", copy, 28, len(copy) - 46, 0, 0)
        copies.append(bytes(copy))
    listed = b"".join(entries + copies)
    fields[3] = fields[4] = len(entries) + len(copies)
    fields[5] = len(listed)
    good.write_bytes(data[:first] + listed + struct.pack("<4s4H2LH", *fields))
    assert "lie over one another" in str(refuse(good, faults.BundleBroken))


def test_zip64_is_refused(refuse, good):
    """0xFFFF members say that the true count stands elsewhere (APPNOTE 4.4.1.4)."""
    data = bytearray(good.read_bytes())
    struct.pack_into("<2H", data, len(data) - 14, 0xFFFF, 0xFFFF)
    good.write_bytes(data)
    refuse(good)


def test_a_member_that_is_not_what_its_hash_says_is_refused(refuse, good):
    members = members_of(good)
    for name in members:
        if name.startswith("files/") or name.endswith(".jsonl"):
            spoiled = {**members, name: members[name] + b" "}
            refuse(write_members(good, spoiled, told=False), faults.HashWrong)
            if name.startswith("files/"):  # the manifest tells the same lie: the name does not
                refuse(write_members(good, spoiled), faults.HashWrong)


@pytest.mark.parametrize("where", ["members", "file"])
def test_a_member_too_few_or_too_many_is_refused(refuse, good, where):
    members = members_of(good)
    name = next(name for name in members if name.endswith(".svg"))
    del members[name]
    refuse(write_members(good, members, told=where == "file"), faults.BundleBroken)


def test_newer_layouts_and_newer_books_are_named(refuse, good):
    members = members_of(good)
    refuse(write_members(good, {**members, at.MARKER: b"2\n"}), faults.NewerBundle)
    write_members(good, members)
    changed(good, manifest=lambda told: told.update(version=KNOWN_VERSION + 1))
    fault = refuse(good, faults.NewerBundle)
    assert f"version {KNOWN_VERSION + 1}" in str(fault)
    assert "newer Potwatch" in fault.todo


@pytest.mark.parametrize(
    "head", [b"", b"{}", b"[" * 100_000, b"\xff", b'{"kind": "potwatch bundle"}', b"null"]
)
def test_a_manifest_that_cannot_be_read_is_refused(refuse, good, head):
    refuse(write_members(good, {**members_of(good), at.MANIFEST: head}, told=False), faults.BundleBroken)


def test_a_file_that_changes_while_it_is_read_is_seen(tmp_path, monkeypatch):
    """Every member is read twice; the second time it is held against its hash again."""
    rng = random.Random(7)
    with Store.in_memory() as store:
        job = worked_panel(store)
        for _ in range(40):  # far more than any buffer holds
            record.note(job, "".join(rng.choices(string.ascii_letters, k=4000)))
        path = bundle_panel(store, job.clock, job.panel_id, tmp_path / "long.zip").path

    def read_then_spoil(bundle):
        read = told_by(bundle)
        with path.open("r+b") as file:
            file.seek(path.stat().st_size // 2)
            file.write(bytes(60))
        return read

    told_by = bringing.told_by
    monkeypatch.setattr(bringing, "told_by", read_then_spoil)
    with Store.in_memory() as store:
        with pytest.raises(faults.BundleFault):
            open_the_bundle(store, FakeClock(), path)
        assert store.panels() == []
