"""The workshop's own book: no panel, in the same file, and kept as safely."""

from datetime import date

import pytest

from bench.book import WORKSHOP, Store
from bench.book.events import BottleOpened, NoteWritten
from bench.book.faults import NoSuchPanel, Unfit
from tests.fakes.books import AT_UTC, add_panel

BOTTLE = BottleOpened(bottle=1, product="Paste", part="resin", net_g=250.0, opened=date(2026, 5, 4))


def test_its_events_come_back_and_stand_in_one_order_with_those_of_panels(tmp_path):
    with Store.open(tmp_path) as store:
        panel = add_panel(store)
        store.append(WORKSHOP, [BOTTLE], at_utc=AT_UTC)
        store.append(panel, [NoteWritten(text="after it")], at_utc=AT_UTC)
    with Store.open(tmp_path, read_only=True) as store:
        assert [x.event for x in store.events(WORKSHOP)] == [BOTTLE]
        assert [x.panel_id for x in store.all_events()] == [WORKSHOP, panel]
        assert [row.panel_id for row in store.panels()] == [panel]


def test_it_is_made_with_its_first_entry_or_not_at_all(tmp_path):
    with Store.open(tmp_path) as store:
        assert store.events(WORKSHOP) == []
        with pytest.raises(Unfit):
            store.append(WORKSHOP, [BottleOpened.model_construct(bottle=0)], at_utc=AT_UTC)
        with pytest.raises(NoSuchPanel):
            store.set_countdown(WORKSHOP, "1", None)
        assert add_panel(store) == 1
        store.append(WORKSHOP, [BOTTLE], at_utc=AT_UTC)
        store.append(WORKSHOP, [BOTTLE], at_utc=AT_UTC)
        assert add_panel(store) == 2
