"""The tables of statements and what is left of the formulas, against what others have published."""

import re

import pytest

from bench.adhesive import hazards, ratio
from bench.job.sizing import ROUTINE
from tests.adhesive.test_adhesive_hazards import TABLE
from tests.fakes.products import CHECKS

ROWS = CHECKS["ghs_hazard_rows"]
PRECAUTIONS = CHECKS["ghs_precautions_outside"]


def plain(text: str) -> str:
    """Return a statement without spelling, case, commas, choices in brackets and what the label fills in."""
    text = text.lower().replace("vapors", "vapours").replace("vapor", "vapour")
    text = re.sub(r"\[[^]]*\]", "", text.replace("...", "…").replace(" - ", ". ")).replace("water/…", "water")
    return re.sub(r"[^a-z…/()]+", " ", text).strip()


@pytest.mark.parametrize("code", TABLE["precautionary"])
def test_a_precaution_is_worded_as_in_the_table_of_another(code):
    """p_statements.csv of chemical-safety 1.1.6 (MIT); where it differs is known one by one."""
    same = plain(hazards.wording(code)) == plain(PRECAUTIONS["rows"][code])
    assert same != (code in PRECAUTIONS["differs"])


def test_no_precaution_in_use_is_obsolete_there():
    assert len(PRECAUTIONS["obsolete"]) > 20
    assert not set(PRECAUTIONS["obsolete"]) & set(TABLE["precautionary"])


@pytest.mark.parametrize(("code", "says", "signal"), ROWS["rows"])
def test_a_hazard_is_worded_and_signalled_as_in_the_table_of_another(code, says, signal):
    same = plain(hazards.wording(code)) == plain(says)
    assert same != (code in ROWS["misprint"])
    assert hazards.signal_word([code]) == signal


def test_every_hazard_of_the_table_was_compared():
    compared = {row[0] for row in ROWS["rows"]} | {row[0] for row in CHECKS["ghs_euh_rows"]["rows"]}
    assert set(hazards.hazard_codes()) - compared == {"EUH211", "EUH212"}


@pytest.mark.parametrize(("code", "says"), CHECKS["ghs_euh_rows"]["rows"])
def test_a_statement_of_the_european_union_is_worded_as_published(code, says):
    told = hazards.wording(code)
    if code == "EUH208":  # the label names the substance
        told, says = (re.sub(r"[(<].*[)>]", "…", text) for text in (told, says))
    assert told == says


@pytest.mark.parametrize(
    ("resin", "hardener", "resin_density", "hardener_density", "per_gram"), CHECKS["volume_to_mass"]["rows"]
)
def test_parts_by_volume_are_the_grams_of_a_data_sheet(
    resin, hardener, resin_density, hardener_density, per_gram
):
    """Worked by hand; densities from memory of data sheets of clear liquids."""
    found = ratio.by_volume(
        resin, hardener, resin_g_per_cm3=resin_density, hardener_g_per_cm3=hardener_density
    )
    assert per_gram == pytest.approx(found, abs=5e-5)


def test_a_mix_is_stirred_as_long_as_the_standards_test_batch():
    """EN 14022:2010 method 1: 60 ± 10 s."""
    least_s, most_s = CHECKS["mixing"]["seconds"]
    assert least_s <= ROUTINE.stir_s <= most_s
