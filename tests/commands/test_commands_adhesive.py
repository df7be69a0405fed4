"""The adhesive from the command line: each slip of a label or a scale has one clear line of its own."""

from datetime import date

import pytest

from bench.adhesive.product_file import find_product, product_toml
from bench.book import Store, SystemClock
from bench.book.events import BenchSet
from bench.commands import main
from bench.job.acts import stock
from bench.job.acts.opening import open_panel
from tests.fakes.drawings import grid_svg
from tests.fakes.products import example

BATCH = ("batch", "--area-cm2", 40)
BY_MASS, MASS = "by_mass = [100, 50]", "test_mass_g = 100\n"


@pytest.mark.parametrize(
    ("swap", "told"),
    [
        ({BY_MASS: "by_mass = [100, 0]"}, "two numbers in brackets, parts of resin, then of hardener"),
        ({BY_MASS: "by_mass = [100, -50]"}, "two numbers in brackets, parts of resin, then of hardener"),
        ({BY_MASS: "by_mass = [1, 1000]"}, "give resin first, then hardener"),
        ({BY_MASS: "by_mass = [1.55, 1.48]"}, "repeats the two densities"),
        ({"resin_g_per_cm3 = 1.55": "resin_g_per_cm3 = 100"}, "is it the mix ratio? that belongs in [ratio]"),
        ({"minutes = 32": "minutes = 0.5"}, "if hours are meant, that is 30 minutes"),
        ({MASS: ""}, "a working time means nothing without the mass"),
        ({MASS: "test_mass_g = 0.1\n"}, "if kg are meant, that is 100 g"),
        ({"= 1.55": "= 1,55"}, "write a point: 2.5, not 2,5"),
    ],
)
def test_a_slip_in_an_adhesive_file_is_one_line_that_says_what_was_meant(refused, tmp_path, swap, told):
    path = tmp_path / "mine.toml"
    path.write_bytes(example(swap))
    line = refused(*BATCH, "--adhesive", path)
    assert "mine.toml" in line
    assert told in line


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--poured-resin-g", 0), "tap the scale"),
        (("--poured-resin-g", 0, "--poured-hardener-g", 3), "pour 6 g of resin onto it"),
        (("--poured-resin-g", 0.006), "if kg are meant, that is 6 g"),
        (("--poured-resin-g", 6, "--poured-hardener-g", 0), "0.0 g of hardener"),
        (("--poured-resin-g", 6, "--poured-hardener-g", 0.003), "if kg are meant, that is 3 g"),
        (("--poured-resin-g", -6), "--poured-resin-g"),
        (("--temperature", 45), "outside the 10 to 35 °C"),
        (("--temperature", 73), "73 cannot be"),
        (("--bottles", 5), "bottles at 5 °C are outside the 10 to 35 °C"),
        (("--scale-g", 0), "--scale-g"),
    ],
)
def test_a_slip_at_the_scale_or_the_thermometer_is_one_line(refused, options, told):
    assert told in refused(*BATCH, *options)


@pytest.mark.parametrize(
    "option", ["--area-cm2", "--bed-mm", "--waste", "--residue-g", "--temperature", "--bottles", "--scale-g"]
)
def test_a_comma_is_told_for_every_number(capsys, option):
    code = main(["batch", "--area-cm2", "40", option, "1,5"])
    err = capsys.readouterr().err
    assert code == 2
    assert "write a point, 1.5" in err
    assert "Traceback" not in err


@pytest.mark.parametrize("command", ["plan", "capacity"])
def test_a_working_time_in_hours_is_told_in_minutes(refused, tmp_path, command):
    path = tmp_path / "grid.svg"
    path.write_bytes(grid_svg(8, 6))
    drawing = [path] if command == "plan" else []
    line = refused(command, *drawing, "--working-time", 0.5)
    assert "if hours are meant, that is 30 minutes" in line


def test_warm_bottles_shorten_and_cold_ones_are_credited_with_nothing(run):
    times = {}
    for bottles in ((), ("--bottles", 33), ("--bottles", 12)):
        out = run(*BATCH, *bottles)[1]
        times[bottles] = float(out.split("working time ")[1].split()[0])
    assert times["--bottles", 33] < times[()]
    assert times["--bottles", 12] == times[()]


def test_too_little_for_the_scale_is_answered_in_grams(run):
    assert "too little for a 1 g scale: mix 78.0 g, " in run("batch", "--area-cm2", 30, "--scale-g", 1)[1]
    assert "g scale, or join another section that takes " in run("batch", "--area-cm2", 25)[1]


def test_a_ready_adhesive_is_grams_and_open_time_and_takes_no_hardener(run, refused):
    ready = (*BATCH, "--adhesive", "white-ready")
    assert run(*ready)[1].startswith("White, ready to use, typical: 7.1 g, open for 20 min")
    assert "takes no hardener" in refused(*ready, "--poured-resin-g", 6, "--poured-hardener-g", 3)


def test_a_file_made_on_one_tablet_opens_on_another(run, tmp_path):
    path = tmp_path / "carried over.toml"
    path.write_text(product_toml(find_product("clear-slow")).replace("Clear liquid", "Far"), "utf-8")
    code, out, err = run(*BATCH, "--adhesive", path)
    assert (code, err) == (0, "")
    assert out.startswith("Far, slow, typical: resin ")


def test_an_expired_lot_and_an_unopened_one_are_said_of_the_stock(run, home):
    with Store.open(home) as store:
        job = open_panel(store, SystemClock(), grid_svg(8, 6), "grid.svg", bench=BenchSet(pace_per_min=5.0))
        paste = "White paste, typical"
        stock.open_bottle(job, paste, "hardener", net_g=90.0, lot="A12", best_before=date(2020, 4, 30))
        stock.buy_bottle(job, paste, "resin", net_g=250.0, lot="R9")
    out = run("stock")[1]
    assert "The hardener, lot A12, was good until 30 Apr 2020." in out
    assert "unopened" in out
