"""Bundles that must be refused, each in a book that has a panel."""

from pathlib import Path

import pytest

from bench.book import Store
from bench.book.bundle import faults
from bench.job.acts.bringing import open_the_bundle
from tests.fakes.bundles import bundled, worked_panel
from tests.fakes.clock import FakeClock


def made_in(folder: Path) -> Path:
    """Make a good bundle, and a home with a book of another panel; return where."""
    bundled(folder, name="good.zip")
    with Store.open(folder / "home") as store:
        worked_panel(store, name="Blue cloth", columns=7)
    return folder


def refusing(home: Path):
    """Return what opens a bundle that must be refused, changing nothing, and returns the fault."""

    def content(store):
        tables = (
            "panel",
            "event",
            "blob",
            "countdown",
            "setting",
            "draft",
            "draft_file",
            "brought",
            "parted",
        )
        return {name: store._rows(f"SELECT * FROM {name} ORDER BY 1, 2") for name in tables}

    def call(path, kind=faults.BundleFault):
        with Store.open(home) as store:
            before, files = content(store), sorted(p.name for p in home.rglob("*"))
            with pytest.raises(kind) as caught:
                open_the_bundle(store, FakeClock(), path)
            assert content(store) == before
            assert sorted(p.name for p in home.rglob("*")) == files
        assert str(caught.value).count("\n") == 0
        return caught.value

    return call
