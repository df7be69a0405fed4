"""Bundles for tests: good ones, and ones changed member by member with hashes that are right all the same."""

import hashlib
import json
import zipfile
from collections.abc import Callable
from pathlib import Path

from bench.book import Store
from bench.book.bundle.layout import MANIFEST, MARKER
from bench.book.events import BenchSet
from bench.job.acts import record
from bench.job.acts.bundling import bundle_panel
from bench.job.acts.opening import open_panel
from bench.job.job import Job
from tests.fakes.benches import set_section
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.photographed import photograph


def worked_panel(
    store: Store, clock: FakeClock | None = None, *, name: str = "Lemons", columns: int = 8
) -> Job:
    """Open a small panel and work it: a photo, a glue-up, a note."""
    bench = BenchSet(pace_per_min=2.5)
    job = open_panel(store, clock or FakeClock(), grid_svg(columns, 6), "grid.svg", bench=bench, name=name)
    number = min(job.state.sections)
    photograph(job, number, job.section(number).piece_count)
    set_section(job, number)
    record.note(job, "The blue one next")
    return job


def bundled(folder: Path, *, name: str = "panel.zip") -> Path:
    """Write the bundle of a worked panel into a folder."""
    with Store.in_memory() as store:
        job = worked_panel(store)
        return bundle_panel(store, job.clock, job.panel_id, folder / name).path


def members_of(path: Path) -> dict[str, bytes]:
    """Return the members of a zip file in their order."""
    with zipfile.ZipFile(path) as pack:
        return {info.filename: pack.read(info) for info in pack.infolist()}


def write_members(path: Path, members: dict[str, bytes], *, told: bool = True) -> Path:
    """Write a bundle of these members; told: the manifest gives their hashes as they are."""
    members = dict(members)
    if told:
        manifest = json.loads(members[MANIFEST])
        manifest["members"] = [
            {"name": name, "bytes": len(data), "sha256": hashlib.sha256(data).hexdigest()}
            for name, data in members.items()
            if name not in (MARKER, MANIFEST)
        ]
        members[MANIFEST] = json.dumps(manifest).encode()
    with zipfile.ZipFile(path, "w") as pack:
        for name, data in members.items():
            way = zipfile.ZIP_STORED if name == MARKER else zipfile.ZIP_DEFLATED
            pack.writestr(name, data, way)
    return path


def changed(path: Path, **changes: Callable[[dict], None]) -> Path:
    """Change the manifest or entries by name: `manifest=`, or `book=` for each line of the book."""
    members = members_of(path)
    if "manifest" in changes:
        told = json.loads(members[MANIFEST])
        changes["manifest"](told)
        members[MANIFEST] = json.dumps(told).encode()
    if "book" in changes:
        lines = [json.loads(line) for line in members["book.jsonl"].splitlines()]
        lines = [line for line in lines if changes["book"](line) is not False]
        told = json.loads(members[MANIFEST])
        told["entries"] = len(lines)
        members[MANIFEST] = json.dumps(told).encode()
        members["book.jsonl"] = b"".join(json.dumps(line).encode() + b"\n" for line in lines)
    return write_members(path, members)
