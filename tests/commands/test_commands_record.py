"""`potwatch record` and templates of a panel: the papers, or one line that says why not."""

import pypdfium2
import pytest

from bench.book import Store
from bench.commands import main
from bench.job.acts.opening import set_bench
from bench.job.papers import set_units
from tests.fakes.records import NAME, begun_panel


@pytest.fixture
def panel_id(home):
    with Store.open(home) as store:
        return begun_panel(store).panel_id


def words(path) -> str:
    return " ".join(
        " ".join(p.get_textpage().get_text_bounded() for p in pypdfium2.PdfDocument(path)).split()
    )


def test_all_three_are_written_where_they_were_asked_for(run, panel_id, tmp_path):
    maker, client, folder = tmp_path / "m.pdf", tmp_path / "c.pdf", tmp_path / "deep" / "tables"
    code, out, _ = run("record", "--maker", maker, "--client", client, "--folder", folder)
    assert code == 0
    assert out.splitlines() == [f"written: {p}" for p in (maker, client, folder)]
    assert NAME in words(maker)
    assert NAME in words(client)
    assert {p.name for p in folder.iterdir()} == {"sections.csv", "batches.csv", "glass.csv", "hours.csv"}


def test_money_and_hours_are_for_the_maker_alone(run, panel_id, tmp_path):
    prices = tmp_path / "prices.csv"
    prices.write_text("material,unit,price\nglass,m²,90\n", encoding="utf-8")
    maker, client = tmp_path / "m.pdf", tmp_path / "c.pdf"
    more = ("--prices", prices, "--hours", "laying=20", "--hours", "grouting=2.5", "--sold", 777)
    code, _, _ = run("record", "--maker", maker, "--client", client, *more)
    assert code == 0
    for told in ("777.00", "laying 20.0 as told", "grouting 2.5 as told"):
        assert told in words(maker)
    for hidden in ("777", "laying", "grouting 2.5", "hour"):
        assert hidden not in words(client)


def test_without_a_place_the_figures_are_told(run, panel_id):
    code, out, _ = run("record", "--hours", "laying=20", "--sold", 500)
    assert code == 0
    assert f"{NAME} (panel {panel_id})" in out
    assert "Laying: 20.0 hours" in out
    assert "An hour of work earned" in out


@pytest.mark.parametrize(
    ("more", "size_pt", "told"),
    [
        ((), (595.3, 841.9), "168 × 84 mm"),
        (("--units", "inch"), (612, 792), "68 °F"),
        (("--units", "inch", "--degrees", "C", "--paper", "A4"), (595.3, 841.9), "20 °C"),
    ],
)
def test_units_and_paper_are_an_option(run, panel_id, tmp_path, more, size_pt, told):
    maker = tmp_path / "m.pdf"
    assert run("record", "--maker", maker, *more)[0] == 0
    assert pypdfium2.PdfDocument(maker)[0].get_size() == pytest.approx(size_pt, abs=0.1)
    assert told in words(maker)


def test_units_kept_in_the_app_are_followed(run, panel_id, home, tmp_path):
    with Store.open(home) as store:
        from bench.book import SystemClock
        from bench.job.job import Job

        set_units(Job(store, SystemClock(), panel_id), "inch")
    assert run("record", "--maker", tmp_path / "m.pdf")[0] == 0
    assert "6.6 × 3.3 in" in words(tmp_path / "m.pdf")


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--hours", "laying"), "'laying' tells no hours; give KIND=HOURS"),
        (("--hours", "sleeping=3"), "'sleeping' is no kind of work"),
        (("--hours", "laying=-3"), "-3 hours cannot be"),
        (("--sold", "-1"), "the panel: -1 is no price"),
        (("--prices", "nothing.csv"), "nothing.csv: no such file"),
        (("--prices", "missing.csv"), "no price for 'glass'"),
        (("--panel", "99"), "the book holds no panel 99"),
    ],
)
def test_what_cannot_be_is_said_in_one_line_and_nothing_is_written(
    refused, panel_id, tmp_path, monkeypatch, more, said
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "missing.csv").write_text("material,unit,price\nglass,m²,\n", encoding="utf-8")
    assert said in refused("record", "--maker", tmp_path / "m.pdf", *more)
    assert not (tmp_path / "m.pdf").exists()


def test_a_place_that_cannot_be_written_is_named(refused, panel_id, tmp_path):
    (tmp_path / "file").write_text("mine")
    for option in ("--maker", "--client", "--folder"):
        assert "file" in refused("record", option, tmp_path / "file" / "x.pdf")
    assert (tmp_path / "file").read_text() == "mine"


def test_without_a_book_there_is_nothing_to_record(refused, tmp_path):
    assert "there is no book yet" in refused("record", "--maker", tmp_path / "m.pdf")
    assert "there is no book yet" in refused("template", "--pdf", tmp_path / "t.pdf")


def test_help_names_it_and_tells_its_options(run):
    assert "record" in run("--help")[1]
    told = run("record", "--help")[1]
    for option in ("--maker", "--client", "--folder", "--units", "--prices", "--hours", "--sold"):
        assert option in told


def test_a_template_of_the_panel_in_the_book(run, panel_id, tmp_path):
    whole, one = tmp_path / "w.pdf", tmp_path / "s.pdf"
    assert run("template", "--pdf", whole)[0] == 0
    assert run("template", "--panel", panel_id, "--section", 4, "--paper", "letter", "--pdf", one)[0] == 0
    assert "the whole panel, 288 pieces" in words(whole)
    assert "section 4," in words(one)
    assert "irrored" not in words(one)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (("--section", "99"), "there is no section 99"),
        (("--transfer", "face-down"), "--transfer: this is for a drawing, and none is given"),
        (("--plan", "p.json"), "--plan: this is for a drawing"),
        (("--panel", "99"), "the book holds no panel 99"),
    ],
)
def test_a_template_of_the_panel_that_cannot_be(refused, panel_id, tmp_path, line, said):
    assert said in refused("template", *line, "--pdf", tmp_path / "t.pdf")
    assert not (tmp_path / "t.pdf").exists()


def test_a_panel_laid_face_down_has_mirrored_templates_and_a_drawing_says_so_itself(
    run, home, tmp_path, demo
):
    with Store.open(home) as store:
        job = begun_panel(store)
        set_bench(job, job.state.bench.model_copy(update={"transfer": "face-down"}))
        number = max(job.state.sections)
    assert run("template", "--section", number, "--pdf", tmp_path / "t.pdf")[0] == 0
    assert "Mirrored: glass is laid face down." in words(tmp_path / "t.pdf")
    assert main(["template", str(demo), "--transfer", "face-down", "--pdf", str(tmp_path / "d.pdf")]) == 0
    assert "Mirrored" in words(tmp_path / "d.pdf")
