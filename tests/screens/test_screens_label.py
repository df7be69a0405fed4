"""A label read out by touches: one question at a time, kept as it is given, and used at once as a file."""

from pathlib import Path

import pytest

from bench.adhesive.hazards import wording
from bench.adhesive.product_file import find_product, shipped_products
from bench.job.own_adhesives import label_of
from bench.resources import resource
from bench.screens.labelling.questions import questions
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench
from tests.fakes.gloves import complaints
from tests.fakes.tapping import type_in

SIZES = [(1280, 800, 1), (800, 1280, 1), (2560, 1600, 2)]


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A data folder, a home and a working folder of the test's own."""
    for name in ("data", "home"):
        (tmp_path / name).mkdir()
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.chdir(tmp_path / "home")
    return tmp_path


@pytest.fixture
def desk(stage: Stage, home: Path):
    with at_the_bench(stage) as desk:
        to_the_label(stage, desk)
        yield desk


def to_the_label(stage: Stage, desk) -> None:
    desk.go("setup")
    stage.frame(3)
    tap(stage, "set_adhesive", "choose_label")


def tap(stage: Stage, *names: str) -> None:
    for name in names:
        stage.tap(name)
        stage.frame(2)


def number(stage: Stage, *typed: str) -> None:
    """Type numbers, one after the other; a minus leads to below zero."""
    for text in typed:
        if text.startswith("-"):
            stage.tap("label_beside")
        type_in(stage, text.lstrip("-"))
        stage.frame(2)


def name_it(stage: Stage, letters: str) -> None:
    tap(stage, *(f"letter_{letter}" for letter in letters), "letters_use")


def kept(desk):
    return label_of(desk.job.store)


def read_out_two_parts(stage: Stage, desk, *, grout_h: str = "24") -> None:
    """The example of a two-part paste by mass, from its name to its shelf life."""
    tap(stage, "begin_new")
    name_it(stage, "paste")
    tap(stage, "option_0", "option_1", "option_1", "option_0")  # two parts, white, paste, by mass
    number(stage, "100", "50", "1.55", "1.48", "32", "100", "23")
    tap(stage, "option_0")  # EN 14022
    number(stage, "40", "10", "35", "4", "8", grout_h, "23", "-20", "60")
    tap(stage, "code_H315", "code_H317", "codes_done", "code_H314", "codes_done", "option_0")
    number(stage, "12", "3", "60.5")  # months, the ratio within 3 %, 60.5 kJ/mol


def keep(stage: Stage) -> None:
    tap(stage, "label_keep")
    stage.run(2)


def test_a_label_is_read_out_kept_as_a_file_and_used_at_once(stage: Stage, desk, home: Path) -> None:
    read_out_two_parts(stage, desk)
    assert "label_keep" in stage.names()
    keep(stage)
    path = home / "data" / "adhesives" / "paste.toml"
    product = find_product(str(path))
    assert (product.name, product.mass_ratio, product.form) == ("Paste", 0.5, "paste")
    assert product.working_time.model_dump(exclude_none=True) == {
        "minutes": 32,
        "test_mass_g": 100,
        "test_temperature_C": 23,
        "method": "EN 14022",
        "film_open_minutes": 40,
        "activation_kJ_per_mol": 60.5,
        "range_C": (10, 35),
    }
    assert product.tolerance == 0.03
    assert product.service.range_C == (-20, 60)
    assert product.hazard.resin.statements == ("H315", "H317")
    assert product.hazard.hardener.statements == ("H314",)
    assert (product.hazard.revision, product.shelf_life_months) == ("GHS 10", 12)
    assert not product.typical
    assert desk.job.state.bench.adhesive == str(path)
    assert desk.job.product(str(path)) == product
    assert kept(desk).answers == {}


def test_leaving_in_the_middle_keeps_what_was_entered_and_goes_on_there(stage: Stage, desk) -> None:
    tap(stage, "begin_new")
    name_it(stage, "glue")
    tap(stage, "option_0", "option_0", "label_later")
    assert desk.screen == "setup"
    tap(stage, "set_adhesive")
    assert stage.find("choose_label").says == "Go on with Glue"
    tap(stage, "choose_label")
    assert "How does it flow?" in stage.texts()
    assert kept(desk).answers == {"name": "Glue", "kind": "two-part", "colour": "clear"}


def test_back_goes_one_question_back_and_its_answer_stands_out(stage: Stage, desk) -> None:
    tap(stage, "begin_new")
    name_it(stage, "glue")
    tap(stage, "option_0", "label_back")
    assert stage.find("option_0").chosen
    tap(stage, "option_1")
    assert kept(desk).get("kind") == "ready"


def test_one_that_is_ready_is_asked_nothing_about_a_hardener(stage: Stage, desk, home: Path) -> None:
    tap(stage, "begin_new")
    name_it(stage, "ready")
    tap(stage, "option_1", "option_1", "option_2")
    number(stage, "1.6", "20", "23")
    tap(stage, "option_3", "label_silent", "label_silent")
    number(stage, "12", "24", "48", "23")
    tap(stage, "label_silent", "codes_done", "option_0", "label_silent", "label_silent")
    keep(stage)
    product = find_product(str(home / "data" / "adhesives" / "ready.toml"))
    assert not product.is_two_part
    assert product.hazard.resin.statements == ()


@pytest.mark.parametrize(
    ("way", "typed", "field", "value"),
    [
        ("option_0", ("100", "50"), "ratio.by_mass", (100, 50)),
        ("option_1", ("2", "1"), "ratio.by_volume", (2, 1)),
        ("option_2", ("190",), "ratio.eew_g_per_eq", 190),
    ],
)
def test_the_ratio_is_told_in_any_of_three_ways(stage: Stage, desk, way, typed, field, value) -> None:
    tap(stage, "begin_new")
    name_it(stage, "glue")
    tap(stage, "option_0", "option_0", "option_2", way)
    number(stage, *typed)
    assert kept(desk).get(field) == value


def test_a_blend_is_told_component_by_component(stage: Stage, desk) -> None:
    """80 parts at 189, 10 at 183, 10 of filler: note "Calculating Equivalent Weight of Epoxy Mixtures"."""
    tap(stage, "begin_new")
    name_it(stage, "glue")
    tap(stage, "option_0", "option_0", "option_2", "option_2", "label_beside")
    number(stage, "80", "189", "10", "183", "10")
    tap(stage, "label_beside")  # it does not react
    tap(stage, "label_beside")  # that is all
    assert kept(desk).get("ratio.eew_blend") == ((80, 189), (10, 183), (10, 0))
    assert stage.find("pad_value").text.endswith("g/eq")


def test_a_density_is_found_by_weighing_ten_millilitres(stage: Stage, desk) -> None:
    tap(stage, "begin_new")
    name_it(stage, "glue")
    tap(stage, "option_0", "option_0", "option_2", "option_0")
    number(stage, "2", "1")
    tap(stage, "label_beside")
    assert any("10 ml of resin" in text for text in stage.texts())
    assert complaints(stage) == {}
    tap(stage, "weigh_done")
    number(stage, "11.6")
    assert kept(desk).get("density.resin_g_per_cm3") == pytest.approx(1.16)


@pytest.mark.parametrize(
    ("typed", "words"), [("1550", "if kg/m³ is meant, that is 1.55"), ("0.1", "from 0.5 to 4")]
)
def test_a_slip_is_told_in_the_words_of_the_file_and_asked_again(stage: Stage, desk, typed, words) -> None:
    tap(stage, "begin_new")
    name_it(stage, "glue")
    tap(stage, "option_0", "option_0", "option_2", "option_0")
    number(stage, "2", "1", typed)
    assert words in desk.fault_todo
    assert kept(desk).get("density.resin_g_per_cm3") is None
    stage.frame(3)
    assert complaints(stage) == {}
    tap(stage, "fault_act")
    number(stage, "1.5")
    assert kept(desk).get("density.resin_g_per_cm3") == 1.5


def test_fields_that_contradict_each_other_are_told_at_the_end_and_asked_again(stage: Stage, desk) -> None:
    read_out_two_parts(stage, desk, grout_h="2")
    keep(stage)
    assert "the cure goes backward" in desk.fault_what
    assert desk.screen == "label"
    tap(stage, "fault_act")
    assert stage.find("pad_value").text.endswith("h")


def test_in_a_whole_label_a_contradiction_is_told_at_once_and_changes_nothing(stage: Stage, desk) -> None:
    tap(stage, "begin_copy_0")
    while "again_grout" not in stage.names():
        tap(stage, "page_more")
    tap(stage, "again_grout")
    number(stage, "2")
    assert "the cure goes backward" in desk.fault_what
    assert kept(desk).get("cure.grout_h") == find_product("white-paste").cure.grout_h


@pytest.mark.parametrize("k", range(4))
def test_a_shipped_type_is_changed_as_a_copy(stage: Stage, desk, home: Path, k: int) -> None:
    stem = list(shipped_products())[k]
    shipped = resource("assets", "adhesives", f"{stem}.toml").read_bytes()
    tap(stage, f"begin_copy_{k}", "again_name")
    tap(stage, *["letters_back"] * len(find_product(stem).name))
    name_it(stage, "mine")
    keep(stage)
    mine = find_product(str(home / "data" / "adhesives" / "mine.toml"))
    same = find_product(stem).model_copy(update={"name": "Mine", "typical": False})
    assert mine == same
    assert resource("assets", "adhesives", f"{stem}.toml").read_bytes() == shipped


def test_a_file_made_elsewhere_opens_and_what_is_none_is_not_offered(stage: Stage, home: Path) -> None:
    text = resource("assets", "adhesives", "clear-slow.toml").read_text().replace("Clear liquid, slow", "Far")
    (home / "home" / "far.toml").write_text(text)
    (home / "home" / "other.toml").write_text("[project]\nname = 'none'\n")
    with at_the_bench(stage) as desk:
        desk.go("setup")
        stage.frame(3)
        tap(stage, "set_adhesive")
        assert "Far, typical" in stage.texts()
        assert "none" not in stage.texts()
        tap(stage, f"choose_{len(shipped_products())}")
        stage.run(2)
        assert desk.job.product(desk.job.state.bench.adhesive).name == "Far, typical"


def test_every_code_of_the_table_can_be_tapped_with_its_wording(stage: Stage, desk) -> None:
    read_out_to_codes(stage)
    seen = {}
    for _ in range(20):
        rows = [w for w in stage.widgets() if getattr(w, "test_name", "").startswith("code_")]
        seen |= {row.text: row.says for row in rows}
        tap(stage, "page_more")
    assert len(seen) >= 37
    assert seen == {code: wording(code) for code in seen}


def read_out_to_codes(stage: Stage) -> None:
    tap(stage, "begin_new")
    name_it(stage, "glue")
    tap(stage, "option_0", "option_0", "option_2", "option_0")
    number(stage, "2", "1", "1.1", "1", "32", "100", "23")
    tap(stage, "option_3", "label_silent", "label_silent")
    number(stage, "4", "8", "24", "23")
    tap(stage, "label_silent")


def test_beginning_anew_puts_aside_what_was_entered(stage: Stage, desk) -> None:
    tap(stage, "begin_copy_1")
    assert kept(desk).answers
    tap(stage, "label_anew")
    assert kept(desk).answers == {}
    assert "begin_new" in stage.names()


@pytest.mark.parametrize("size", SIZES)
def test_every_question_is_fit_for_gloves_and_nothing_is_cut(stage: Stage, desk, size) -> None:
    stage.resize(*size[:2], density=size[2])
    stage.frame(4)
    seen = {"begin": complaints(stage)}
    tap(stage, "begin_copy_0")
    seen["whole"] = complaints(stage)
    screen = next(w for w in stage.widgets() if type(w).__name__ == "LabelScreen")
    for question in questions():
        screen.ask_again(question.key)
        stage.frame(4)
        seen[question.key] = complaints(stage)
    assert {key: wrong for key, wrong in seen.items() if wrong} == {}
