"""Finishing in German: papers, templates, days, faults and money, with the comma and without English left."""

from __future__ import annotations

import re
from collections.abc import Iterator

import numpy as np
import pypdfium2
import pytest
import vobject

from bench.book import Store
from bench.book.events import PanelSealed, ZoneInked
from bench.drawing.template_out import write_pdf, write_sheet_svg
from bench.finish.beheld import Cut, tint_said
from bench.finish.bend import board_said
from bench.finish.faults import TooColdForGrout
from bench.finish.hanging_words import part_lines, weight_words
from bench.finish.money import BadHours
from bench.finish.money_words import money_lines
from bench.finish.stock import read_stock
from bench.finish.sun import bed_in_sun
from bench.finish.units import Units
from bench.finish.weight import weight_of
from bench.job import costs, papers
from bench.job.acts import inking, zoning
from bench.job.acts.opening import open_panel
from bench.job.finish_advice import finish_next
from bench.job.finish_days import when_lines
from bench.job.finish_faults import OutOfTurn
from bench.job.ics import calendar_file
from bench.job.templates import panel_sheets
from bench.job.words import words
from bench.job.zone_words import sun_lines, zone_lines
from bench.job.zones import laid_zones, plan
from bench.speech import Tongue, speak
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.finished import GREY, grout_zone, hard_at_once, whole_panel
from tests.fakes.records import priced_panel

# Words that no German line of these has: a few of the commonest of English.
ENGLISH = re.compile(
    r"\b(the|of|and|is|are|its?|with|from|grout(ed)?|pieces?|may|set|page|glass|hours?|weight|kept|not)\b"
)


pytestmark = pytest.mark.usefixtures("german")


@pytest.fixture
def job() -> Iterator[object]:
    with Store.in_memory() as store:
        yield priced_panel(store)


@pytest.fixture
def bare() -> Iterator[object]:
    """A panel on which nothing was set."""
    with Store.in_memory() as store:
        yield open_panel(store, FakeClock(), grid_svg(12, 6), "grid.svg")


def read(data: bytes) -> str:
    """Return the text of a PDF, as PDFium reads it."""
    document = pypdfium2.PdfDocument(data)
    return " ".join("\n".join(page.get_textpage().get_text_bounded() for page in document).split())


def test_the_makers_paper_is_german_with_its_letters_and_its_comma(job, tmp_path) -> None:
    papers.write_record(job, maker=tmp_path / "maker.pdf")
    text = read((tmp_path / "maker.pdf").read_bytes())
    for told in ("Protokoll der Werkstatt", "Abschnitte", "Gewicht, Aufhängung", "Seite 1 von", "Härter"):
        assert told in text
    assert "22,5" in text
    assert re.search(r"\d,\d \+ \d+,\d g", text)
    assert "Zusagen gehalten: 2 von 3" in text
    assert re.search(r"Eine Stunde Arbeit brachte [\d.]*\d,\d\d, bei \d+,\d Stunden", text)
    assert "Carried flat" not in text
    assert "not set yet" not in text


def test_the_clients_paper_is_german_in_headings_units_and_care(job, tmp_path) -> None:
    papers.write_record(job, client=tmp_path / "client.pdf")
    text = read((tmp_path / "client.pdf").read_bytes())
    for told in ("Woraus sie besteht", "Gewicht", "Pflege", "288 Steine aus Glas", "Zementbauplatte"):
        assert told in text
    assert "Aufrecht mit beiden Händen" in text
    assert re.search(r"Etwa \d+,\d\d kg \(\d+,\d lb\), höchstens \d+,\d\d kg", text)
    assert re.search(r"gesetzt vom \d\. Mai 2026 bis \d\. Mai 2026", text)
    for word in ("Weight", "Care", "pieces", "Glass", "page", "Carry"):
        assert word not in text


def test_a_template_is_german_as_pdf_and_as_svg(job) -> None:
    sheets = panel_sheets(job)
    for text in (read(write_pdf(sheets)), write_sheet_svg(sheets[0]).decode()):
        assert "ganze Tafel, 288 Steine" in text
        assert "100 %" in text
        assert "whole panel" not in text
        assert "Print at" not in text


def test_the_tables_keep_their_heads_and_keys(job, tmp_path) -> None:
    def written(name: str) -> dict[str, str]:
        papers.write_record(job, tables=tmp_path / name)
        return {p.name: p.read_text("utf-8-sig") for p in sorted((tmp_path / name).iterdir())}

    german = written("de")
    speak(Tongue())
    english = written("en")
    assert german.keys() == english.keys()
    for name in ("sections.csv", "batches.csv", "hours.csv"):
        assert german[name] == english[name]
    assert german["glass.csv"].splitlines()[0] == english["glass.csv"].splitlines()[0]
    assert ",opaque," in german["glass.csv"]


def test_the_days_are_told_and_written_as_a_calendar_in_german(bare) -> None:
    number = whole_panel(bare)
    told = "\n".join(when_lines(bare))
    assert "darf die Tafel versiegelt werden" in told
    assert not ENGLISH.search(told)
    calendar = vobject.readOne(calendar_file(bare).decode())
    assert calendar.prodid.value.endswith("//DE")
    said = [event.summary.value for event in calendar.vevent_list]
    assert any(summary.endswith("Tafel versiegeln") for summary in said)
    hard_at_once(bare)
    zoning.tell_sun(bare, "direct")
    found = finish_next(bare)
    assert (found.act, found.zone) == ("grout", number)
    assert found.headline.startswith("Verfugen: ")
    assert not ENGLISH.search(found.why)


def test_a_zone_says_its_joints_sand_and_water_in_german(job) -> None:
    number = whole_panel(job)
    said = "\n".join(zone_lines(job, laid_zones(job), plan(job), number))
    assert re.search(r"\d,\d mm breit", said)
    assert "ohne Sand" in said or "mit Sand" in said
    assert " g Wasser" in said
    assert not ENGLISH.search(said)
    zoning.tell_sun(job, "direct")
    sun = "\n".join(sun_lines(job))
    assert "In direkter Sonne." in sun
    assert "Blaumaßstab" in sun
    assert not ENGLISH.search(sun.replace(job.product(job.state.bench.adhesive).name, ""))


def test_kept_names_are_said_in_german_and_stay_as_they_are_in_the_book(job) -> None:
    zoning.choose_grout(job, 0, "pale grey", GREY)
    (zone,) = job.state.finish.zones.values()
    assert (zone.name, zone.grout.name) == ("the panel", "pale grey")
    assert "Fugenmörtel: blasses Grau" in zone_lines(job, laid_zones(job), plan(job), zone.number)
    assert tint_said("blue over pale grey") == "Blau auf blasses Grau"
    assert tint_said("Sahara") == "Sahara"
    assert board_said("plywood") == "Sperrholz"


def test_what_stands_in_the_way_is_told_in_german_from_what_to_do(job) -> None:
    with pytest.raises(OutOfTurn) as caught:
        inking.may_seal(job)
    assert str(caught.value) == (
        "Tafel: ein Teil liegt in keiner Zone und ist nicht verfugt; erst alles verfugen"
    )
    assert str(TooColdForGrout(3.5, 5.0)) == (
        "Fugenmörtel: bei 3,5 °C härtet Fugenmörtel nicht aus; "
        "den Raum auf 5 °C oder mehr heizen und unter Einstellungen angeben, wie warm er ist"
    )
    assert str(BadHours("laying", -1.5)).startswith("Auslegen: -1,5 Stunden")


def test_entries_on_finishing_are_german_in_the_books_list(bare) -> None:
    number = whole_panel(bare)
    hard_at_once(bare)
    grout_zone(bare, number)
    entry = bare.store.events(bare.panel_id)[-1].event
    assert re.fullmatch(r"Zone \d+ verfugt: .+, [\d,]+ g Pulver und [\d,]+ g Wasser", words(entry))
    assert words(ZoneInked(zone=2, name="blue", colour=GREY, lot="K4")) == "Zone 2 gefärbt: Blau, Charge K4"
    assert words(PanelSealed(name="Klarsiegel")) == "Versiegelt mit Klarsiegel"


def test_money_and_weight_have_their_comma(job) -> None:
    told = "\n".join(money_lines(costs.money_of(job)))
    assert "Auslegen: 22,5 Stunden" in told
    assert "Ohne Preis und nicht gezählt:" in told
    assert "Härter" in told
    assert "Verkauft für 4711,00." in told
    weight = weight_of(job.panel, glass_mm=3.0, grout_g=20.0, frame_g=120.0)
    assert re.search(r"\d,\d\d kg \(\d,\d\d bis \d,\d\d\)", weight_words(weight))
    assert "Rahmen 120 g ± 2 %" in part_lines(weight)
    assert Units("inch", "F").thickness(12.7) == "0,50 in"
    assert Cut(5.0).words == "Fugen treten zurück"
    assert bed_in_sun(job.panel, job.product(job.state.bench.adhesive), "indoors") == ()


def test_a_rack_that_was_listed_in_one_language_is_read_in_another(tmp_path) -> None:
    path = tmp_path / "rack.csv"
    path.write_text(
        "glass,width_mm,height_mm,sheets\n"
        'Blau (klar) #2a5caa,300,200,1\n'
        "clear blue #2a5caa,300,200,1\n"
        "blue #2a5caa,300,200,1\n",
        "utf-8",
    )
    for language in ("de", "en"):
        speak(Tongue(language))
        assert [row.kind for row in read_stock(path)] == ["clear", "clear", "opaque"]


def test_the_same_letters_stand_for_the_same_glass_in_either_language(job) -> None:
    german = panel_sheets(job)[0]
    speak(Tongue())
    english = panel_sheets(job)[0]
    assert [p.mark for p in german.pieces] == [p.mark for p in english.pieces]
    assert np.shape(german.legend) == np.shape(english.legend)
