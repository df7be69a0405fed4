"""A small panel on a book in memory, with a clock that the test moves."""

import shutil
from pathlib import Path

import pytest

from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts import dry, stock
from bench.job.acts.opening import open_panel
from tests.fakes.benches import set_section
from tests.fakes.bottles import PASTE
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.refused_bundles import made_in, refusing


@pytest.fixture
def clock():
    return FakeClock()


@pytest.fixture
def store():
    with Store.in_memory() as store:
        yield store


@pytest.fixture
def job(store, clock):
    """A panel of 24 × 12 tesserae, all of one adhesive."""
    return open_panel(store, clock, grid_svg(24, 12), "grid.svg", bench=BenchSet(pace_per_min=5.0))


@pytest.fixture
def two_adhesives(store, clock):
    """The same with a clear patch that wants white adhesive, on a clear one."""
    data = grid_svg(24, 12, clear=lambda c, r: c < 6)
    return open_panel(
        store, clock, data, "patch.svg", bench=BenchSet(adhesive="clear-slow", pace_per_min=5.0)
    )


@pytest.fixture
def begun(job):
    """Section 1 set, section 2 dry and counted again, the rest bare."""
    set_section(job, 1)
    dry.lay(job, 2, job.section(2).piece_count + 3)
    return job


@pytest.fixture
def bottles(job):
    """A resin and a hardener in use: bottles 1 and 2."""
    stock.open_bottle(job, PASTE, "resin", net_g=250.0, lot="R7")
    stock.open_bottle(job, PASTE, "hardener", net_g=125.0, lot="A12")
    return job


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A good bundle, and a home with a book of another panel."""
    return made_in(tmp_path_factory.mktemp("made"))


@pytest.fixture
def good(made, tmp_path):
    return Path(shutil.copy(made / "good.zip", tmp_path))


@pytest.fixture
def refuse(made, tmp_path):
    return refusing(Path(shutil.copytree(made / "home", tmp_path / "home")))
