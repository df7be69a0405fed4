"""`stock`: the bottles and what the last panel still takes, as the book has them."""

import json
from datetime import date

import pytest

from bench.book import Store, SystemClock
from bench.job.acts import stock
from bench.job.acts.opening import open_panel
from tests.fakes.benches import PACE
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

PASTE = "White paste, typical"


@pytest.fixture
def workshop(home):
    """A panel of 24 × 12 and two bottles, the hardener for the first sections only; return the job's data."""
    home.mkdir()
    with Store.open(home) as store:
        job = open_panel(store, FakeClock(), grid_svg(24, 12), "grid.svg", bench=PACE)
        stock.open_bottle(job, PASTE, "resin", net_g=250.0, lot="R7")
        stock.open_bottle(job, PASTE, "hardener", net_g=3.0, lot="A12", best_before=date(2026, 4, 30))
        stock.open_bottle(job, PASTE, "hardener", net_g=50.0)
        stock.empty_bottle(job, 3)
    return home


def test_the_bottles_and_the_needs_are_in_the_json(run, workshop):
    code, out, err = run("stock", "--json", "-")
    assert (code, err) == (0, "")
    data = json.loads(out)
    assert data["panel"] == {"panel_id": 1, "name": "grid"}
    assert [(b["part"], b["lot"], b["left_g"], b["empty"]) for b in data["bottles"]] == [
        ("resin", "R7", 250.0, False),
        ("hardener", "A12", 3.0, False),
        ("hardener", "", 0.0, True),
    ]
    assert data["bottles"][1]["good_until"] == "2026-04-30"
    past = SystemClock().utc().date() > date(2026, 4, 30)
    assert data["bottles"][1]["past_its_date"] is past
    needs = {n["part"]: n for n in data["needs"]}
    assert needs["resin"]["needed_g"]["p10"] <= needs["resin"]["needed_g"]["p90"]
    assert (needs["resin"]["lasts"], needs["resin"]["lasts_until_section"]) == ("for all that is left", None)
    assert needs["hardener"]["left_g"] == 3.0
    until = needs["hardener"]["lasts_until_section"]
    assert needs["hardener"]["lasts"] == f"Hardener lasts until section {until}"


def test_the_same_is_told_in_words_and_written_to_a_file(run, workshop, tmp_path):
    code, out, err = run("stock", "--json", tmp_path / "stock.json")
    assert (code, err) == (0, "")
    assert "1  White paste, typical, resin" in out
    assert "grid (panel 1) still takes:" in out
    assert "3.0 g left, hardener lasts until section" in out
    assert json.loads((tmp_path / "stock.json").read_text())["schema"] == 1


def test_without_a_bottle_it_says_how_to_add_one(run, home):
    home.mkdir()
    with Store.open(home) as store:
        open_panel(store, FakeClock(), grid_svg(6, 5), "small.svg", bench=PACE)
    code, out, _ = run("stock")
    assert code == 0
    assert "No bottle is entered yet" in out
    assert "no bottle is told of" in out


def test_the_book_is_left_as_it_was(run, workshop):
    with Store.open(workshop) as store:
        before = len(store.all_events())
    run("stock")
    with Store.open(workshop) as store:
        assert len(store.all_events()) == before


@pytest.mark.parametrize("panel", [0, 7, -1])
def test_a_panel_that_is_none_is_refused(refused, workshop, panel):
    assert "no panel" in refused("stock", "--panel", panel)


def test_without_a_book_there_is_nothing_to_show(refused):
    assert "there is no book yet" in refused("stock")
