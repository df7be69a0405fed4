"""The adhesive, its cautions and what is said at the cup, in German."""

from __future__ import annotations

import re
from datetime import date
from itertools import product as every

import pytest

from bench.adhesive.batch import prescribe, scale_advice
from bench.adhesive.cautions import cautions, first_aid
from bench.adhesive.faults import AdhesiveFileFault, AmountNotAllowed, OutsideRange
from bench.adhesive.hazards import hazard_codes, signal_word, wording
from bench.adhesive.label import Label
from bench.adhesive.limits import check_temperature
from bench.adhesive.poured import judge_poured, poured_words
from bench.adhesive.product_file import find_product, parse_product, product_toml, shipped_products
from bench.adhesive.scale import Scale, checked_pour_g
from bench.adhesive.workshop import workshop_cautions
from bench.job.cup_heat import cup_heat, heat_words
from bench.job.stock import Bottle
from bench.job.stock_need import Short
from bench.job.stock_words import bottle_lines, bottle_name, left_words, short_words
from bench.screens.labelling.questions import answer_words, questions, questions_for
from bench.speech import Tongue, said, speak
from bench.speech.said import SHIPPED
from tests.speech.test_speech_said import unsaid
from tests.tools.catalogues import gathered

PASTE = find_product("white-paste")
SPEAKING = (
    *("commands/batch.py", "commands/glass.py", "commands/glass_words.py", "commands/stock.py"),
    *("commands/weighing.py", "job/acts/stock.py", "job/acts/weigh_cup.py", "job/cup_heat.py"),
    *("job/own_adhesives.py", "job/stock_words.py"),
)

# Regulation (EC) No 1272/2008, Annex III part 1 and Annex II, German wording, from memory.
STATEMENTS = {
    "H302": "Gesundheitsschädlich bei Verschlucken",
    "H314": "Verursacht schwere Verätzungen der Haut und schwere Augenschäden",
    "H315": "Verursacht Hautreizungen",
    "H317": "Kann allergische Hautreaktionen verursachen",
    "H318": "Verursacht schwere Augenschäden",
    "H319": "Verursacht schwere Augenreizung",
    "H334": "Kann bei Einatmen Allergie, asthmaartige Symptome oder Atembeschwerden verursachen",
    "H335": "Kann die Atemwege reizen",
    "H411": "Giftig für Wasserorganismen, mit langfristiger Wirkung",
    "H412": "Schädlich für Wasserorganismen, mit langfristiger Wirkung",
    "EUH205": "Enthält epoxidhaltige Verbindungen. Kann allergische Reaktionen hervorrufen.",
}
# The same regulation, Annex IV part 2, German wording, from memory.
ADVICE = {
    "P273": "Freisetzung in die Umwelt vermeiden.",
    "P280": "Schutzhandschuhe/Schutzkleidung/Augenschutz/Gesichtsschutz tragen.",
    "P301+P330+P331": "BEI VERSCHLUCKEN: Mund ausspülen. KEIN Erbrechen herbeiführen.",
    "P302+P352": "BEI BERÜHRUNG MIT DER HAUT: Mit viel Wasser waschen.",
    "P304+P340": ("BEI EINATMEN: Die Person an die frische Luft bringen und für ungehinderte Atmung sorgen."),
    "P305+P351+P338": (
        "BEI KONTAKT MIT DEN AUGEN: Einige Minuten lang behutsam mit Wasser spülen. Eventuell vorhandene "
        "Kontaktlinsen nach Möglichkeit entfernen. Weiter spülen."
    ),
}


pytestmark = pytest.mark.usefixtures("german")


@pytest.mark.parametrize("name", SPEAKING)
def test_no_sentence_of_the_stock_and_the_batch_goes_past_say(name: str) -> None:
    assert unsaid(name) == []


@pytest.mark.parametrize(("code", "says"), (STATEMENTS | ADVICE).items())
def test_a_statement_has_the_wording_of_the_regulation(code: str, says: str) -> None:
    assert wording(code) == says


def test_the_signal_words_are_those_of_the_regulation() -> None:
    """Regulation (EC) No 1272/2008, article 20 and Annex I, from memory: Gefahr, Achtung."""
    assert (signal_word(["H314"]), signal_word(["H317"])) == ("Gefahr", "Achtung")


def test_no_statement_is_left_in_english() -> None:
    german = {code: wording(code) for code in hazard_codes()}
    speak(Tongue())
    assert [code for code in german if german[code] == wording(code)] == []
    assert wording("H999") == "read the label for H999"


def everything_of(stem: str) -> list[str]:
    """Return all lines of a type's cautions, whatever the day, the label and the bottles."""
    product = find_product(stem)
    room = product.range_C[1] - 2
    lines = []
    for first, burns, mix_C, mass_g in every((True, False), (True, False), (None, room), (8.0, 400.0)):
        groups = cautions(
            product, temperature_C=room, mass_g=mass_g, first_today=first, mix_C=mix_C, burns=burns
        )
        lines += [text for group in (*groups, first_aid(product)) for text in (group.title, *group.lines)]
    return lines


@pytest.mark.parametrize("stem", shipped_products())
def test_no_caution_is_left_in_english(stem: str) -> None:
    german = everything_of(stem)
    speak(Tongue())
    english = everything_of(stem)
    assert len(german) == len(english) > 40
    assert [one for one, other in zip(german, english, strict=True) if one == other] == []


@pytest.mark.parametrize("stem", shipped_products())
def test_only_a_statement_begins_with_its_code(stem: str) -> None:
    """The sheet sets what begins with a code apart as a statement, whose code is looked for on the label."""
    product = find_product(stem)
    for group in cautions(product, temperature_C=21.0, mass_g=5.0, first_today=True):
        coded = [line.split()[0] for line in group.lines if re.match(r"(EU)?[HP]\d", line)]
        assert tuple(coded) == group.codes


@pytest.mark.parametrize("work", ["board", "glass", "grout"])
def test_no_caution_of_the_workshop_is_left_in_english(work) -> None:
    german = [line for group in workshop_cautions(work) for line in (group.title, *group.lines)]
    speak(Tongue())
    english = [line for group in workshop_cautions(work) for line in (group.title, *group.lines)]
    assert [one for one, other in zip(german, english, strict=True) if one == other] == []


def test_the_cautions_say_the_same_with_the_same_force() -> None:
    groups = cautions(PASTE, temperature_C=21.5, mass_g=12.25, first_today=True)
    told = "\n".join(line for group in groups for line in group.lines)
    for word in ("Sicherheitsdatenblatt", "Nitril", "30 Minuten", "Schutzbrille", "Nie Lösemittel"):
        assert word in told
    for word in ("zum Arzt", "kein Erbrechen", "in den Abfluss", "Kein Trockenschliff", "12,2 g bei 21,5 °C"):
        assert word in told
    assert [group.title for group in groups][:3] == [
        "Zuerst",
        "Harz: Achtung (GHS 10)",
        "Härter: Gefahr (GHS 10)",
    ]
    hot = cautions(PASTE, temperature_C=33.0, mass_g=400.0, first_today=False)[1]
    assert any("nie halten oder abdecken" in line for line in hot.lines)
    assert any(line.startswith("Zu viel für einen Becher") for line in hot.lines)


def test_a_type_that_ships_is_named_in_german_and_a_makers_own_as_it_was_typed() -> None:
    assert said(PASTE.name) == "Weiße Paste, typisch"
    assert said("Grandmother's white paste") == "Grandmother's white paste"
    assert said("Resin") == "Resin"  # a sentence of ours, but no text of a data file
    assert find_product("White paste, typical") == PASTE
    assert parse_product(product_toml(PASTE).encode(), "a.toml") == PASTE


def test_what_data_files_hold_for_a_person_is_gathered_in_a_context_of_its_own() -> None:
    said_there = {message.id for message in gathered() if message.context == SHIPPED}
    assert {find_product(stem).name for stem in shipped_products()} < said_there
    assert {"Danger", "Causes skin irritation", "Rinse mouth."} < said_there
    assert "" not in said_there


def test_the_batch_and_the_cup_are_judged_with_a_decimal_comma() -> None:
    coarse = Scale(1.0)
    batch = prescribe(PASTE, bed_area_mm2=3000, scale=coarse)
    smallest = f"{batch.smallest_batch_g:.1f}".replace(".", ",")
    assert scale_advice(PASTE, batch, coarse) == (
        f"6,0 g sind zu wenig für eine 1-g-Waage: {smallest} g mischen oder mit 0,01-g-Waage wiegen."
    )
    poured = judge_poured(PASTE, resin_g=10.0, hardener_g=5.6)
    assert poured_words(poured, tolerance=0.05) == ("12 % zu viel Härter", "1,2 g Harz zugeben.")
    heat = cup_heat(PASTE, mass_g=400.0, temperature_C=30.0, bed_mm=0.8)
    assert heat is not None
    assert heat_words(heat)[0] == "400,0 g in einem Becher würden durchgehen"


def test_faults_are_german_and_what_stands_in_a_file_keeps_its_point() -> None:
    with pytest.raises(OutsideRange) as cold:
        check_temperature(PASTE, 4.5)
    assert str(cold.value) == (
        "Temperatur: bei 4,5 °C ist „Weiße Paste, typisch“ nicht verwendbar, nur bei 10 bis 35 °C; "
        "Raum und Flaschen wärmen, und im Datenblatt nachsehen"
    )
    with pytest.raises(AmountNotAllowed) as empty:
        checked_pour_g("poured_resin_g", 0.0)
    assert str(empty.value).startswith("gegossenes Harz: die Waage zeigt 0,0 g Harz; die Anzeige abwarten")
    spoiled = product_toml(PASTE).replace("resin_g_per_cm3 = 1.55", "resin_g_per_cm3 = 1550")
    with pytest.raises(AdhesiveFileFault) as heavy:
        parse_product(spoiled.encode(), "a.toml")
    assert str(heavy.value) == (
        "a.toml: density.resin_g_per_cm3 = 1550, was nicht erlaubt ist; anzugeben: die Dichte in g/cm³, von "
        "0.5 bis 4 (falls kg/m³ gemeint ist: 1.55)"
    )


def test_a_room_is_told_in_the_unit_spoken() -> None:
    """1.8 °F to the °C, water freezes at 32 °F."""
    speak(Tongue(fahrenheit=True))
    with pytest.raises(OutsideRange) as cold:
        check_temperature(PASTE, 5.0)
    assert "41 °F is outside the 50 to 95 °F in which" in str(cold.value)
    this = cautions(PASTE, temperature_C=25.0, mass_g=8.0, first_today=False)[1]
    assert this.lines[0].startswith("8.0 g at 77 °F: ")


def test_bottles_are_told_in_german() -> None:
    bottle = Bottle(
        number=1,
        product=PASTE.name,
        part="hardener",
        lot="A12",
        net_g=250.0,
        opened=date(2026, 3, 2),
        bought=None,
        made=None,
        best_before=date(2027, 3, 31),
        shelf_life_months=None,
        left_g=41.25,
        taken_g=208.75,
    )
    assert bottle_name(bottle) == "Härter, Charge A12: Weiße Paste, typisch"
    assert left_words(bottle, date(2026, 11, 1)) == "41,2 von 250 g übrig, haltbar bis 31. Mär 2027"
    assert bottle_lines(bottle, date(2026, 11, 1))[1] == "Geöffnet 2. Mär 2026"
    short = Short(7, PASTE.name, "hardener", 6.2, 4.0, "A12", 10.0)
    assert short_words(short) == (
        "Abschnitt 7 braucht 6,2 g Härter; 4,0 g sind in Charge A12 übrig, der Rest in anderen Flaschen."
    )


def test_no_question_about_a_label_is_left_in_english() -> None:
    german = {q.key: q.title for q in questions()}
    speak(Tongue())
    assert [q.key for q in questions() if q.title == german[q.key]] == []


def test_an_answer_of_a_label_is_said_in_the_mark_and_unit_spoken() -> None:
    label = Label.of(PASTE)
    told = {q.key: answer_words(label, q) for q in questions_for(label)}
    assert (told["resin_density"], told["range"], told["by_mass"]) == (
        "1,55 g/cm³",
        "10 bis 35 °C",
        "100 : 50",
    )
    assert (told["kind"], told["colour"], told["shelf_life"]) == ("Zwei Teile", "Weiß", "Steht nicht da")
    speak(Tongue("de", fahrenheit=True))
    told = {q.key: answer_words(label, q) for q in questions_for(label)}
    assert (told["range"], told["test_temperature"]) == ("50 bis 95 °F", "73,4 °F")
