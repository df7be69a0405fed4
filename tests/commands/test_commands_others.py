"""`batch`, `capacity`, `book`: figures agree with the rooms they come from, files are as documented."""


import pytest

from bench.adhesive.product_file import find_product
from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts import cup, dry, glueup
from bench.job.acts.opening import open_panel
from bench.job.advice import advise
from tests.fakes.clock import FakeClock
from tests.fakes.commands import as_json
from tests.fakes.drawings import grid_svg

HEAD = (
    "started_utc,small,medium,large,seconds,paused_s,temperature_C,"
    "finished_after_s,stringy_after_s,all_placed"
)


def test_a_batch_balances_and_follows_the_label(run):
    data = as_json(run, "batch", "--area-cm2", 40)
    product = find_product("white-paste")
    assert data["total_g"] == pytest.approx(data["resin_g"] + data["hardener_g"])
    assert data["volume_cm3"] == pytest.approx(40 * 0.08)
    # M = V·ρ·(1 + waste) + residue, to the scale's step for each part
    mass_g = data["volume_cm3"] * product.mixed_density_g_per_cm3 * 1.1 + 1.5
    assert data["total_g"] == pytest.approx(mass_g, abs=0.11)
    assert data["hardener_target_g"] == pytest.approx(data["resin_g"] * product.mass_ratio)


def test_the_worst_case_of_a_tared_scale_is_the_documented_formula(run):
    """(1 + d/H)/(1 − d/2R) − 1, worked by hand for the masses prescribed."""
    data = as_json(run, "batch", "--area-cm2", 60, "--scale-g", 0.1)
    resin, hardener, step = data["resin_g"], data["hardener_g"], 0.1
    by_hand = (1 + step / hardener) / (1 - step / (2 * resin)) - 1
    assert data["worst_ratio_error"] == pytest.approx(by_hand)
    assert data["scale_ok"] == (data["worst_ratio_error"] <= 0.05)


def test_a_gram_scale_cannot_hold_a_small_batch_and_says_which_it_could(run):
    data = as_json(run, "batch", "--area-cm2", 30, "--scale-g", 1)
    assert not data["scale_ok"]
    assert data["smallest_batch_g"] > data["total_g"]


def test_hardener_follows_the_resin_poured(run):
    data = as_json(run, "batch", "--area-cm2", 40, "--poured-resin-g", 6.4)
    assert data["hardener_target_g"] == pytest.approx(6.4 * find_product("white-paste").mass_ratio)


def test_over_poured_hardener_is_told_the_resin_to_add(run):
    """The paste is 100 to 50: 3.6 g of hardener want 7.2 g of resin, and 6 g are in the cup."""
    poured = ("batch", "--area-cm2", 40, "--poured-resin-g", 6, "--poured-hardener-g", 3.6)
    data = as_json(run, *poured)
    assert (data["ratio_error"], data["resin_to_add_g"]) == (pytest.approx(0.2), pytest.approx(1.2))
    assert "20 % too much hardener.\nAdd 1.2 g of resin." in run(*poured)[1]


def test_a_cup_that_would_run_away_is_told_its_split(run):
    large = ("batch", "--area-cm2", 900, "--adhesive", "clear-slow", "--temperature", 25)
    data = as_json(run, *large)
    assert data["cups"] > 1
    assert data["hot_after_s"] < 3600
    told = f"{data['cups']} cups of {data['total_g'] / data['cups']:.1f} g, one after the other"
    assert told in run(*large)[1]
    assert as_json(run, "batch", "--area-cm2", 40)["cups"] == 1


def test_a_comma_for_the_decimal_mark_is_told_by_name(run):
    code, _, err = run("batch", "--area-cm2", 40, "--poured-resin-g", "6,2")
    assert code == 2
    assert "write a point, 6.2" in err


def test_capacity_grows_as_the_book_earns_it(run, tmp_path):
    first = as_json(run, "capacity", "--pace", 5, "--working-time", 25)
    rows = [f"2026-05-0{d}T09:00:00Z,0,60,0,720,0,21,960,,yes" for d in range(1, 8)]
    file = tmp_path / "glue-ups.csv"
    file.write_text("\n".join([HEAD, *rows]) + "\n")
    later = as_json(run, "capacity", "--glue-ups", file, "--pace", 5, "--working-time", 25)
    assert later["pieces_medium"] > first["pieces_medium"]
    assert later["reserve_s"] < first["reserve_s"]
    assert later["pace_per_min"]["p50"] == pytest.approx(5, rel=0.05)


def test_the_capacity_file_has_every_figure_that_is_documented(run):
    data = as_json(run, "capacity", "--pace", 5)
    assert list(data) == [
        "capacity_s",
        "capacity_effort",
        "pieces_medium",
        "stir_s",
        "spread_s",
        "clean_s",
        "reserve_s",
        "pace_per_min",
        "life_s",
    ]
    assert list(data["pace_per_min"]) == list(data["life_s"]) == ["p10", "p50", "p90"]


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("2026-05-01T09:00:00Z,0,0,0,720,0,21,960,,yes", "pieces"),
        ("2026-05-01T09:00:00Z,0,60,0,0,0,21,960,,yes", "seconds"),
        ("2026-05-01T09:00:00Z,0,60,0,36000,0,21,36000,,yes", "seconds"),
        ("2026-05-01T09:00:00Z,0,sixty,0,720,0,21,960,,yes", "medium"),
        ("2026-05-01T09:00:00Z,0,60,0,720,0,21,960,,perhaps", "all_placed"),
        ("2026-05-01T09:00:00Z,0,60", ""),
    ],
)
def test_a_glue_up_that_cannot_be_names_file_and_line(refused, tmp_path, row, told):
    file = tmp_path / "glue-ups.csv"
    file.write_text(f"{HEAD}\n{row}\n")
    line = refused("capacity", "--glue-ups", file)
    assert "glue-ups.csv" in line
    assert "2" in line
    assert told in line


def test_the_book_is_read_in_plain_words_and_written_as_csv(run, home, tmp_path):
    clock = FakeClock()
    with Store.open(home) as store:
        job = open_panel(store, clock, grid_svg(10, 6), "grid.svg", bench=BenchSet(pace_per_min=5))
        number = advise(job).section
        dry.lay(job, number)
        mix = cup.open_mix(job, number, 21.0)
        cup.acknowledge(job, mix)
        cup.first_contact(job, mix)
        clock.advance(700)
        glueup.close(job, mix)
    code, out, _ = run("book")
    assert code == 0
    assert f"Section {number}:" in out
    assert out.index("pieces set in 11:40") < out.index("First contact")
    file = tmp_path / "book.csv"
    assert run("book", "--csv", file)[0] == 0
    head, row = file.read_text().strip().split("\n")
    assert head.strip() == HEAD
    assert row.split(",")[7] in ("700", "700.0")
    again = as_json(run, "capacity", "--glue-ups", file)
    assert again["pieces_medium"] > 0


def test_without_a_book_there_is_nothing_to_read(refused):
    assert "no book" in refused("book")


def test_plan_without_a_pace_takes_the_books(run, home, tmp_path):
    clock = FakeClock()
    drawing = tmp_path / "grid.svg"
    drawing.write_bytes(grid_svg(30, 20))
    before = as_json(run, "plan", drawing)
    with Store.open(home) as store:
        job = open_panel(store, clock, grid_svg(30, 20), "grid.svg")
        for _ in range(3):
            number = advise(job).section
            dry.lay(job, number)
            mix = cup.open_mix(job, number, 21.0)
            cup.acknowledge(job, mix)
            cup.first_contact(job, mix)
            clock.advance(6 * 60)
            glueup.close(job, mix)
            clock.advance(30 * 3600)
    after = as_json(run, "plan", drawing)
    assert after["assumptions"]["pace_per_min"] > before["assumptions"]["pace_per_min"]
    assert len(after["sections"]) < len(before["sections"])


def test_the_glue_ups_go_to_stdout_where_a_dash_is_given(run, home, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with Store.open(home) as store:
        open_panel(store, FakeClock(), grid_svg(8, 6), "grid.svg")
    code, out, err = run("book", "--csv", "-")
    assert (code, out, err) == (0, HEAD + "\n", "")
    assert not (tmp_path / "-").exists()
