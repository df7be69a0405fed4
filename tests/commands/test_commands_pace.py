"""The promise from the command line: by the patch, in words, from a table, with the maker's notes."""

import json

import pytest

from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts import record
from bench.job.acts.opening import open_panel
from tests.fakes.benches import set_section
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

HEAD = (
    "started_utc,small,medium,large,seconds,paused_s,temperature_C,finished_after_s,stringy_after_s,"
    "all_placed,patches,area_cm2\n"
)
OVER_AN_HOUR = "2025-01-01T09:00:00Z,0,40,0,300,0,21,3900,,yes,,"


@pytest.fixture(autouse=True)
def here(home, monkeypatch):
    """Work in the folder that the book is in."""
    home.mkdir()
    monkeypatch.chdir(home)


def by_patch_csv(home, rows=5):
    path = home / "glue-ups.csv"
    lines = [f"2025-01-0{k + 1}T09:00:00Z,0,0,0,{300 + 10 * k},0,21,700,,yes,6,180" for k in range(rows)]
    path.write_text(HEAD + "\n".join(lines) + "\n")
    return path


def test_a_table_of_patches_tells_how_many_fit(run, home):
    path = by_patch_csv(home)
    code, out, _ = run("capacity", "--glue-ups", str(path))
    assert code == 0
    assert "patches of 30 cm²" in out
    code, out, _ = run("capacity", "--glue-ups", str(path), "--json", "-")
    told = json.loads(out)
    assert told["patch_cm2"] == 30
    assert told["patches"] == int(told["bed_cm2"] / 30)
    assert told["pace_per_min"]["p50"] == pytest.approx(6 / (320 / 60), rel=0.1)
    assert "pieces_medium" not in told


def test_asked_piece_by_piece_a_table_of_patches_teaches_nothing(run, home):
    _, plain, _ = run("capacity", "--json", "-", "--pace", "5")
    _, told, _ = run("capacity", "--glue-ups", str(by_patch_csv(home)), "--transfer", "single", "--json", "-")
    assert json.loads(told)["pace_per_min"] == json.loads(plain)["pace_per_min"]


def test_a_plan_by_the_patch_keeps_the_promise(run, home):
    (home / "grid.svg").write_bytes(grid_svg(24, 12))
    options = ("plan", "grid.svg", "--transfer", "patch", "--patch-cm2", "6", "--pace", "0.5")
    code, out, _ = run(*options)
    assert code == 0
    assert "0.5 patches of 6 cm² a minute" in out
    assert "h of laying dry" in out
    code, out, _ = run(*options, "--json", "-")
    told = json.loads(out)
    assert told["assumptions"]["patch_cm2"] == 6
    assert min(s["in_time"] for s in told["sections"]) >= 0.9


def test_a_promise_may_be_told_in_words(run):
    _, words, _ = run("capacity", "--pace", "5", "--sure", "19 in 20", "--json", "-")
    _, share, _ = run("capacity", "--pace", "5", "--sure", "0.95", "--json", "-")
    assert json.loads(words) == json.loads(share)
    assert run("capacity", "--pace", "5", "--sure", "always")[0] == 2


def test_a_longer_memory_moves_the_pace_less(run, home):
    path = home / "glue-ups.csv"
    took_s = [900] * 12 + [500] * 3
    rows = [f"2025-01-{k + 1:02d}T09:00:00Z,0,60,0,{s},0,21,1300,,yes,," for k, s in enumerate(took_s)]
    path.write_text(HEAD + "\n".join(rows) + "\n")

    def pace(*options):
        _, out, _ = run("capacity", "--glue-ups", str(path), "--json", "-", *options)
        return json.loads(out)["pace_per_min"]["p50"]

    assert pace("--half-life", "never") < pace() < pace("--half-life", "3")
    code, _, said = run("capacity", "--glue-ups", str(path), "--half-life", "0")
    assert (code, "--half-life" in said) == (1, True)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("2025-01-01T09:00:00Z,0,0,0,300,0,21,500,,yes,,", "0 pieces"),
        ("2025-01-01T09:00:00Z,0,40,0,0,0,21,500,,yes,,", "0 s"),
        ("2025-01-01T09:00:00Z,0,40,0,36000,0,21,,,yes,,", "10 h"),
        ("2025-01-01T09:00:00Z,0,0,0,300,0,21,500,,yes,6,", "without a bed"),
        (f"{OVER_AN_HOUR}\n2025-01-01T09:05:00Z,0,9,0,60,0,21,90,,yes,,", "while the glue-up of line 2"),
    ],
)
def test_a_glue_up_that_cannot_be_ends_in_one_line(run, home, row, says):
    path = home / "glue-ups.csv"
    path.write_text(f"{HEAD}{row}\n")
    code, _, said = run("capacity", "--glue-ups", str(path))
    assert code == 1
    assert says in said
    assert len(said.strip().splitlines()) == 1


def test_a_patch_nobody_lifts_is_refused(run):
    code, _, said = run("capacity", "--transfer", "patch", "--patch-cm2", "0")
    assert (code, "--patch-cm2" in said) == (1, True)


def test_the_book_by_the_patch_goes_out_as_a_table_and_comes_back(run, home):
    bench = BenchSet(transfer="patch", patch_cm2=6.0, patches_per_min=0.5)
    with Store.open(home) as store:
        job = open_panel(store, FakeClock(), grid_svg(24, 12), "grid.svg", bench=bench)
        set_section(job, 1)
        seq = next(x.seq for x in job.store.events(job.panel_id) if x.event.kind == "mix_closed")
        record.note(job, "cold resin", about=seq)
    code, out, _ = run("book", "--csv", "glue-ups.csv")
    assert (code, "1 glue-up written" in out) == (0, True)
    head, row = (home / "glue-ups.csv").read_text().splitlines()
    assert head.endswith("all_placed,patches,area_cm2,note")
    assert row.endswith(",cold resin")
    code, out, _ = run("capacity", "--glue-ups", "glue-ups.csv")
    assert (code, "patches of" in out) == (0, True)
    assert "note: cold resin" in run("book")[1]
