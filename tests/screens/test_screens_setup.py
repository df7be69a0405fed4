"""Setup: each thing is set by a tap or the pad, and bare ground follows."""

from pathlib import Path

import pytest

from bench.adhesive.product_file import shipped_products
from bench.job.acts import cup, dry, record
from bench.job.advice import advise
from bench.resources import resource
from bench.screens.offscreen import Stage
from tests.fakes import tapping
from tests.fakes.benches import at_the_bench, changed, set_section
from tests.fakes.drawings import grid_svg


@pytest.fixture
def own_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A maker's own adhesive, with a name of its own."""
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path))
    folder = tmp_path / "adhesives"
    folder.mkdir()
    text = resource("assets", "adhesives", "white-paste.toml").read_text()
    name = 'name = "Bench paste"'
    lines = [name if line.startswith("name =") else line for line in text.splitlines()]
    (folder / "bench-paste.toml").write_text("\n".join(lines))
    return folder / "bench-paste.toml"


@pytest.fixture
def desk(stage: Stage, own_file: Path):
    with at_the_bench(stage) as desk:
        desk.go("setup")
        stage.frame(2)
        yield desk


def choose(stage: Stage, setting: str, name: str) -> None:
    stage.tap(f"set_{setting}")
    stage.tap(name)
    stage.run(1)


def type_in(stage: Stage, number: str) -> None:
    tapping.type_in(stage, number)
    stage.run(1)


@pytest.mark.parametrize(
    ("setting", "name", "value"),
    [
        ("adhesive", "choose_1", "clear-fast"),
        ("sure", "choose_0", 0.75),
        ("sure", "choose_2", 0.95),
        ("prefer", "choose_1", "fewest"),
        ("scale_g", "choose_0", 1.0),
        ("scale_g", "choose_2", 0.01),
        ("cumulative", "choose_1", True),
        ("transfer", "choose_1", "patch"),
        ("transfer", "choose_2", "face-down"),
        ("hand", "choose_1", "left"),
        ("pace_per_min", "choose_0", None),
    ],
)
def test_a_tap_sets_it_and_the_book_can_take_it_back(stage: Stage, desk, setting, name, value) -> None:
    before = desk.job.state.bench
    choose(stage, setting, name)
    assert getattr(desk.job.state.bench, setting) == value
    assert desk.attempt(record.undo)[0]
    assert desk.job.state.bench == before


@pytest.mark.parametrize(
    ("setting", "typed", "value"),
    [("bed_mm", "1.2", 1.2), ("temperature_C", "26.5", 26.5)],
)
def test_a_number_is_typed(stage: Stage, desk, setting, typed, value) -> None:
    stage.tap(f"set_{setting}")
    type_in(stage, typed)
    assert getattr(desk.job.state.bench, setting) == value


def test_a_pace_is_typed_or_left_to_the_book(stage: Stage, desk) -> None:
    stage.tap("set_pace_per_min")
    stage.tap("choose_number")
    type_in(stage, "8")
    assert desk.job.state.bench.pace_per_min == 8
    assert stage.find("set_pace_per_min").says == "8 pieces a minute"


def test_a_surer_promise_allows_less_in_a_section(stage: Stage, desk) -> None:
    before_s = max(s.capacity_s for s in desk.job.state.sections.values())
    choose(stage, "sure", "choose_2")
    assert max(s.capacity_s for s in desk.job.state.sections.values()) < before_s
    assert all(s.in_time >= 0.95 - 1e-9 for s in desk.job.state.sections.values())


def test_what_sets_no_section_apart_divides_nothing(stage: Stage, desk) -> None:
    before = dict(desk.job.state.sections)
    choose(stage, "scale_g", "choose_2")
    choose(stage, "hand", "choose_1")
    assert desk.job.state.sections == before


def test_dividing_anew_is_announced(stage: Stage, desk) -> None:
    stage.tap("set_prefer")
    stage.touch(*stage.find("choose_1").center).up()
    stage.frame()
    assert "Dividing anew …" in stage.texts()
    stage.run(1)
    assert "Dividing anew …" not in stage.texts()


def test_a_makers_own_adhesive_carries_through_to_the_cup_even_when_its_file_is_gone(
    stage: Stage, desk, own_file: Path
) -> None:
    shipped = len(shipped_products())
    choose(stage, "adhesive", f"choose_{shipped}")
    job = desk.job
    assert job.state.bench.adhesive == str(own_file)
    assert stage.find("set_adhesive").says == "Bench paste"
    own_file.unlink()
    number = advise(job).section
    assert job.section(number).adhesive == str(own_file)
    dry.lay(job, number)
    assert 0.9 <= dry.in_time(job, job.section(number)) <= 1.0
    mix = cup.open_mix(job, number, 21.0)
    assert cup.sheet(job, mix).product.name == "Bench paste"
    cup.put_away(job, mix)
    choose(stage, "sure", "choose_2")
    assert not desk.fault_what
    assert job.state.bench.sure == 0.95


def test_a_broken_adhesive_file_ends_in_a_card(stage: Stage, desk, own_file: Path) -> None:
    own_file.write_text("name = ")
    before = desk.job.state.bench
    shipped = len(shipped_products())
    choose(stage, "adhesive", f"choose_{shipped}")
    assert desk.job.state.bench == before
    assert desk.fault_what
    assert "fault" in stage.names()


def test_what_lies_dry_keeps_its_adhesive_and_its_promise_is_still_known(stage: Stage, desk) -> None:
    number = advise(desk.job).section
    dry.lay(desk.job, number)
    before = dry.in_time(desk.job, desk.job.section(number))
    choose(stage, "adhesive", "choose_1")
    assert desk.job.section(number).adhesive == "white-paste"
    assert dry.in_time(desk.job, desk.job.section(number)) == pytest.approx(before)


def test_the_bench_is_set_even_when_nothing_is_bare(stage: Stage, own_file: Path) -> None:
    with at_the_bench(stage, grid_svg(6, 5)) as desk:
        set_section(desk.job, 1)
        changed(desk)
        desk.go("setup")
        stage.frame(2)
        choose(stage, "sure", "choose_2")
        assert desk.job.state.bench.sure == 0.95
        assert not desk.fault_what


def test_a_drawing_that_names_its_adhesives_says_so(stage: Stage, own_file: Path) -> None:
    drawing = grid_svg(6, 5).replace(b'<rect id="c0r0"', b'<rect data-adhesive="clear-slow" id="c0r0"')
    with at_the_bench(stage, drawing) as desk:
        desk.go("setup")
        stage.frame(2)
        stage.tap("set_adhesive")
        assert any(text.startswith("The drawing names the adhesive of 1 piece,") for text in stage.texts())
