"""Cautions before a mix: this product, this batch, this day, on one screen."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.adhesive.cautions import asks_after_hardener, cautions, first_aid
from bench.adhesive.product_file import find_product, parse_product, shipped_products
from bench.adhesive.workshop import workshop_cautions
from tests.fakes.products import example, rounded, two_part_products

PASTE = parse_product(example(), "x")


def text_of(product, *, temperature_C=23, mass_g=8.0, first_today=True):
    groups = cautions(product, temperature_C=temperature_C, mass_g=mass_g, first_today=first_today)
    return "\n".join([group.title + "\n" + "\n".join(group.lines) for group in groups])


def test_the_data_sheet_local_rules_and_licensed_practice_come_first_of_all():
    first = cautions(PASTE, temperature_C=23, mass_g=8, first_today=False)[0]
    assert first.title == "First"
    assert "safety data sheet, local rules and licensed practice" in first.lines[0]


def test_each_part_states_its_own_label_in_exact_words_with_code_and_revision():
    _, resin, hardener, *_ = cautions(PASTE, temperature_C=23, mass_g=8, first_today=True)
    assert (resin.title, hardener.title) == ("Resin: Warning (GHS 10)", "Hardener: Danger (GHS 10)")
    assert resin.codes == ("H315", "H317", "H319", "H411", "EUH205")
    assert "H411 Toxic to aquatic life with long lasting effects" in resin.lines
    assert hardener.lines == (
        "H314 Causes severe skin burns and eye damage",
        "H317 May cause an allergic skin reaction",
    )


@pytest.mark.parametrize(
    "words",
    [
        "fresh nitrile pair",
        "nicked",
        "Cuts: cover them",
        "Air: window open",
        "goggles",
        "wipe off at once, soap and water",
        "Never solvent on skin",
        "see a doctor",
        "for life",
        "outdoors on stone",
        "down the drain",
        "No dry sanding",
        "sleeve",
        "In the eye: rinse",
        "Swallowed",
        "32 minutes",
    ],
)
def test_the_first_mix_of_the_day_says_it_all(words):
    assert words in text_of(PASTE)


@pytest.mark.parametrize(
    "words",
    ["safety data sheet", "8.0 g at 23 °C", "fresh nitrile pair", "goggles", "Air:", "Never solvent on skin"],
)
def test_a_later_mix_keeps_what_is_new_and_the_four_that_always_stand(words):
    assert words in text_of(PASTE, first_today=False)


def test_a_later_mix_repeats_no_label():
    titles = [g.title for g in cautions(PASTE, temperature_C=23, mass_g=8, first_today=False)]
    assert titles == ["First", "This batch", "As always"]


def test_h314_that_the_maker_found_on_the_label_leads_the_hardener_in_the_tables_words():
    """GHS Rev. 10: H314 Causes severe skin burns and eye damage, Danger."""
    product = parse_product(example({'["H314", "H317"]': '["H317"]'}), "x")
    found = cautions(product, temperature_C=23, mass_g=8, first_today=True, burns=True)
    hardener = next(g for g in found if g.title.startswith("Hardener"))
    assert hardener.title == "Hardener: Danger (GHS 10)"
    assert hardener.lines[0] == "H314 Causes severe skin burns and eye damage"
    assert hardener.codes == ("H314", "H317")
    assert "No H314 is listed" not in " ".join(hardener.lines)


def test_bottles_kept_warm_are_named_and_shorten_what_is_said_of_the_batch():
    usual = cautions(PASTE, temperature_C=23, mass_g=8, first_today=False)[1].lines[0]
    warm = cautions(PASTE, temperature_C=23, mass_g=8, first_today=False, mix_C=33)[1].lines[0]
    assert "bottles at 33 °C" in warm
    assert int(warm.split(": ")[1].split()[0]) < int(usual.split(": ")[1].split()[0])


def test_a_later_mix_is_shorter():
    assert len(text_of(PASTE, first_today=False)) < 0.7 * len(text_of(PASTE))


@pytest.mark.parametrize(
    ("hardener", "asks"),
    [
        ('statements = ["H314", "H317"]', False),
        ('statements = ["H315"]', True),
        ("statements = []", True),
        (None, True),
    ],
)
def test_the_hardeners_label_is_asked_after_where_it_lists_no_burn(hardener, asks):
    old = '[hazard.hardener]\nstatements = ["H314", "H317"]\n'
    new = f"[hazard.hardener]\n{hardener}\n" if hardener else ""
    product = parse_product(example({old: new}), "x")
    assert asks_after_hardener(product) == asks
    assert ("No H314 is listed" in text_of(product)) == asks


def test_a_ready_adhesive_is_not_asked_for_a_hardener():
    ready = find_product("white-ready")
    assert not asks_after_hardener(ready)
    for words in ("hardener", "resin", "warms itself"):
        assert words not in text_of(ready).lower()


def test_first_aid_stands_in_the_labels_own_words():
    """GHS Rev. 10: P305+P354+P338 for the hardener's H314 is stronger than the resin's P305+P351+P338."""
    said = first_aid(PASTE)
    eyes = "IF IN EYES: Immediately rinse with water for several minutes. Remove contact lenses"
    assert eyes in said.lines[0]
    assert said.codes[0] == "P305+P354+P338"
    assert "P333+P317" in said.codes


def test_first_aid_for_a_silent_label_is_plain_advice():
    said = first_aid(find_product("white-ready"))
    assert said.codes == ()
    assert "rinse with water" in said.lines[0]


def test_swapping_the_product_changes_what_is_shown():
    shown = {text_of(find_product(stem)) for stem in shipped_products()}
    assert len(shown) == len(shipped_products())


def test_an_unknown_code_sends_to_the_label():
    product = parse_product(example({'"H315"': '"H999"'}), "x")
    assert "H999 read the label for H999" in text_of(product)


def test_a_label_of_another_revision_is_said_to_count():
    product = parse_product(example({"GHS 10": "GHS 7"}), "x")
    assert "Worded as in GHS 10; the label follows GHS 7 and counts." in text_of(product)


def test_heat_follows_the_batch():
    small, large = text_of(PASTE, mass_g=8), text_of(PASTE, mass_g=250)
    assert "60 °C" not in small
    assert "passes 60 °C after about" in large
    assert "Too much for one cup" in large


def test_a_film_that_closes_before_the_cup_asks_for_strips():
    swap = {"test_temperature_C = 23": "test_temperature_C = 23\nfilm_open_minutes = 12"}
    assert "closes after 12 minutes: spread palm-sized strips" in text_of(parse_product(example(swap), "x"))
    assert "palm-sized" not in text_of(PASTE)


@given(two_part_products(), rounded(12, 33, 1), rounded(0.5, 300, 1), st.booleans())
@settings(max_examples=60, deadline=None)
def test_any_product_fits_one_screen_of_a_few_groups(product, temperature_C, mass_g, first_today):
    groups = cautions(product, temperature_C=temperature_C, mass_g=mass_g, first_today=first_today)
    assert (5 if first_today else 3) <= len(groups) <= 7
    assert all(group.title and group.lines for group in groups)
    assert all("\n" not in line for group in groups for line in group.lines)
    stated = {code for group in groups for code in group.codes}
    for part in (product.hazard.resin, product.hazard.hardener):
        assert not first_today or set(part.statements if part else ()) <= stated


@pytest.mark.parametrize(
    ("work", "words"),
    [
        ("board", "silica"),
        ("board", "Score and snap"),
        ("glass", "EN 166"),
        ("grout", "H318"),
        ("grout", "drain"),
    ],
)
def test_board_glass_and_grout_have_their_cautions_at_hand(work, words):
    """Silica: 29 CFR 1926.1153 and NIOSH 2015-185. Wet cement H315 and H318: from memory."""
    groups = workshop_cautions(work)
    assert groups[0].title == "First"
    assert "licensed practice" in groups[0].lines[0]
    assert any(words in line for group in groups for line in group.lines)
