"""What the book keeps is its owner's alone: no one else may read it, and pictures tell nothing of him."""

import io
import os
import stat
from dataclasses import replace

import pytest
from PIL import Image

from bench.adhesive.product_file import find_product
from bench.book import Store
from bench.drawing.dry import as_kept
from bench.drawing.photo import read_picture
from bench.job.acts.bundling import bundle_panel
from bench.job.drafts import COLOURS, PICTURE, begin_draft, keep_colours
from bench.job.job import Job
from bench.job.own_adhesives import keep_adhesive, own_folder
from bench.job.settings import PHOTOS
from tests.fakes.bundles import worked_panel
from tests.fakes.clock import FakeClock
from tests.fakes.scans import painted_halves

pytestmark = pytest.mark.skipif(os.name != "posix", reason="rights of owner, group and others are Unix's")


@pytest.fixture(params=[0o000, 0o022, 0o077, 0o277])
def umask(request):
    before = os.umask(request.param)
    yield request.param
    os.umask(before)


def rights_in(folder):
    """Return the rights of a folder and of all that is in it, by path."""
    found = {".": folder.stat()} | {str(p.relative_to(folder)): p.lstat() for p in folder.rglob("*")}
    return {name: (stat.S_ISDIR(at.st_mode), stat.S_IMODE(at.st_mode)) for name, at in found.items()}


def test_every_file_and_folder_is_its_owners_alone_while_it_is_written_and_after(tmp_path, umask):
    home = tmp_path / "home"
    with Store.open(home) as store:
        job = worked_panel(store)
        Job(store, job.clock, 1)  # reads the drawing, and keeps what it read
        keep_adhesive(own_folder(home), find_product("white-paste"))
        bundle_panel(store, job.clock, 1, home / "panel.zip")
        open_now = rights_in(home)
    assert {"potwatch.sqlite3-wal", "potwatch.sqlite3-shm", "readings", "adhesives"} <= open_now.keys()
    assert any(name.startswith("readings/") for name in open_now)
    for rights in (open_now, rights_in(home)):
        assert {name: of for name, of in rights.items() if of[1] & ~(0o700 if of[0] else 0o600)} == {}
        assert {rights[name][1] for name in (".", "potwatch.sqlite3", "potwatch.lock")} == {0o700, 0o600}
    with Store.open(home) as store:
        assert len(store.panels()) == 1


def test_files_that_others_could_read_are_closed_to_them_when_the_book_is_opened(tmp_path):
    home = tmp_path / "home"
    with Store.open(home) as store:
        worked_panel(store)
        for path in home.iterdir():
            path.chmod(0o755 if path.is_dir() else 0o644)
    with Store.open(home):
        rights = {name: of for name, of in rights_in(home).items() if name.startswith("potwatch.")}
    assert {mode for _, mode in rights.values()} == {0o600}


def photo_with_place():
    exif = Image.Exif()
    exif[0x010F], exif[0x8825] = "A camera", {1: "N", 2: (48.0, 8.0, 13.7)}
    file = io.BytesIO()
    painted_halves((64, 40)).save(file, "JPEG", exif=exif)
    return file.getvalue()


def test_a_picture_on_its_way_to_a_panel_is_kept_without_its_place():
    with Store.in_memory() as store:
        data = photo_with_place()
        draft_id = begin_draft(store, FakeClock(), "photo.jpg", data)
        keep_colours(store, draft_id, data)
        for role in (PICTURE, COLOURS):
            kept = store.drafts.file(draft_id, role)
            assert Image.open(io.BytesIO(kept)).getexif().get_ifd(0x8825) == {}
            assert b"A camera" not in kept
        assert begin_draft(store, FakeClock(), "photo.jpg", data) == draft_id


def test_its_place_is_kept_where_that_is_wanted():
    with Store.in_memory() as store:
        store.set_setting(PHOTOS, "whole")
        draft_id = begin_draft(store, FakeClock(), "photo.jpg", photo_with_place())
        assert store.drafts.file(draft_id, PICTURE) == photo_with_place()


def test_a_photo_of_a_dry_lay_is_written_from_its_pixels_alone():
    kept = Image.open(io.BytesIO(as_kept(replace(read_picture(photo_with_place(), "a")))))
    assert len(kept.getexif()) == 0
    assert set(kept.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
