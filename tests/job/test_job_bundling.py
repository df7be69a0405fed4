"""A bundle is a file of its own: whole or not there, and named for its panel and moment."""

import os

import pytest

from bench.book.bundle import faults
from bench.job.acts import record
from bench.job.acts.bundling import bundle_name, bundle_panel
from tests.fakes.bundles import worked_panel


def test_a_bundle_is_written_whole_or_not_at_all_and_for_its_owner(store, tmp_path, monkeypatch):
    job, path = worked_panel(store), tmp_path / "panel.zip"
    bundle_panel(store, job.clock, 1, path)
    before = path.read_bytes()
    assert path.stat().st_mode & 0o777 == 0o600

    def full(_handle):
        raise OSError(28, "No space left on device")

    record.note(job, "more")
    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", full)
        with pytest.raises(faults.BundleNotWritten, match="No space left"):
            bundle_panel(store, job.clock, 1, path)
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["panel.zip"]
    for target in (tmp_path, tmp_path / "nowhere" / "panel.zip"):
        with pytest.raises(faults.BundleNotWritten):
            bundle_panel(store, job.clock, 1, target)


def test_a_file_says_which_panel_and_when(store):
    at = worked_panel(store).clock.utc()
    assert bundle_name("Bowl of lemons / blue", at) == f"Bowl-of-lemons-blue {at:%Y-%m-%d %H-%M}.zip"
    assert bundle_name("../..", at).startswith("panel ")
