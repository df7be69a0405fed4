"""A book with one panel, on disk and in memory."""

import pytest

from bench.book.store import Store
from tests.fakes.books import add_panel


@pytest.fixture(params=["on disk", "in memory"])
def store(request, tmp_path):
    with Store.open(tmp_path / "book") if request.param == "on disk" else Store.in_memory() as opened:
        yield opened


@pytest.fixture
def panel_id(store):
    return add_panel(store)
