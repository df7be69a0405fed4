"""The mix ratio against worked examples and molar masses from outside. Sources stand in the check table."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from molmass import Formula

from bench.adhesive import ratio
from bench.adhesive.product_file import parse_product
from tests.fakes.products import CHECKS, example, rounded

RATIO = "by_mass = [100, 50]"


@pytest.mark.parametrize("row", CHECKS["phr"], ids=lambda row: row["source"])
def test_phr_is_the_published_one(row):
    per_gram = ratio.by_equivalents(eew_g_per_eq=row["eew_g_per_eq"], ahew_g_per_eq=row["ahew_g_per_eq"])
    assert row["phr"] == pytest.approx(100 * per_gram, abs=0.05)


def test_a_blend_with_filler_has_the_published_equivalent_weight():
    """80 parts at 189, 10 at 183 and 10 of filler: 209 g/eq (source in the table)."""
    blend = CHECKS["blend"]
    found = ratio.blend_equivalent_g_per_eq(tuple(part) for part in blend["parts"])
    assert blend["eew_g_per_eq"] == round(found)


@pytest.mark.parametrize(("name", "formula", "hydrogens", "ahew"), CHECKS["ahew"]["rows"])
def test_equivalents_give_every_epoxide_of_dgeba_one_hydrogen_of_an_amine(name, formula, hydrogens, ahew):
    """Molar masses by molmass, an independent package: one mole of amine takes hydrogens/2 of DGEBA."""
    resin, epoxides, eew = CHECKS["ahew"]["dgeba"]
    moles_of_resin = hydrogens / epoxides
    per_gram = Formula(formula).mass / (moles_of_resin * Formula(resin).mass)
    found = ratio.by_equivalents(eew_g_per_eq=eew, ahew_g_per_eq=ahew)
    assert found == pytest.approx(per_gram, rel=1e-3), name


def test_a_blend_in_which_nothing_reacts_has_no_equivalent_weight():
    with pytest.raises(ValueError, match="nothing reacts"):
        ratio.blend_equivalent_g_per_eq([(10, None)])


@given(rounded(150, 600), st.lists(rounded(0.1, 100), min_size=1, max_size=5))
@settings(deadline=None)
def test_blending_a_resin_with_itself_changes_nothing(eew, masses):
    assert eew == pytest.approx(ratio.blend_equivalent_g_per_eq([(mass, eew) for mass in masses]))


@given(rounded(0.1, 10), rounded(0.1, 10), rounded(0.8, 2.5), rounded(0.8, 2.5))
@settings(deadline=None)
def test_volumes_go_to_masses_and_back_by_the_densities(resin, hardener, resin_density, hardener_density):
    per_gram = ratio.by_volume(
        resin, hardener, resin_g_per_cm3=resin_density, hardener_g_per_cm3=hardener_density
    )
    hardener_cm3_per_resin_cm3 = per_gram * resin_density / hardener_density
    assert hardener / resin == pytest.approx(hardener_cm3_per_resin_cm3)


@given(rounded(0.01, 10), rounded(0.8, 2.5), rounded(0.8, 2.5))
@settings(deadline=None)
def test_mixing_adds_volumes(per_gram, resin_density, hardener_density):
    density = ratio.mixed_density_g_per_cm3(
        per_gram, resin_g_per_cm3=resin_density, hardener_g_per_cm3=hardener_density
    )
    assert (1 + per_gram) / density == pytest.approx(1 / resin_density + per_gram / hardener_density)
    assert min(resin_density, hardener_density) - 1e-9 <= density
    assert density <= max(resin_density, hardener_density) + 1e-9


def test_a_filled_white_paste_mixes_to_the_usual_density():
    """1.4 to 1.7 g/cm³ is usual for filled white pastes (common practice, no source)."""
    assert 1.4 <= parse_product(example(), "x").mixed_density_g_per_cm3 <= 1.7


def test_all_three_ways_of_giving_one_ratio_agree():
    by_mass = parse_product(example({"[100, 50]": "[10, 4]"}), "x").mass_ratio
    by_volume = parse_product(
        example({"by_mass = [100, 50]": "by_volume = [2.96, 1.24]", "1.55": "1.55", "1.48": "1.48"}), "x"
    ).mass_ratio
    equivalents = parse_product(
        example({"by_mass = [100, 50]": "eew_g_per_eq = 190\nahew_g_per_eq = 76"}), "x"
    ).mass_ratio
    assert by_mass == pytest.approx(0.4)
    assert by_mass == pytest.approx(by_volume)
    assert by_mass == pytest.approx(equivalents)


def test_a_blend_on_a_data_sheet_is_mixed_as_the_note_works_it_out():
    """Note "Calculating Equivalent Weight of Epoxy Mixtures": EEW 209 of the blend, AHEW 43, 20.6 phr."""
    parts = CHECKS["blend"]["parts"]
    blend = ", ".join(f"[{mass}, {weight or 0}]" for mass, weight in parts)
    product = parse_product(example({RATIO: f"eew_blend = [{blend}]\nahew_g_per_eq = 43"}), "x")
    assert product.ratio.resin_g_per_eq == pytest.approx(CHECKS["blend"]["eew_g_per_eq"], abs=0.5)
    assert 100 * product.mass_ratio == pytest.approx(20.6, abs=0.05)


def test_a_blend_of_one_is_that_one():
    one = parse_product(example({RATIO: "eew_blend = [[7, 190]]\nahew_blend = [[3, 76]]"}), "x")
    assert one.mass_ratio == pytest.approx(0.4)


def test_ten_millilitres_on_the_scale_give_the_density():
    assert ratio.weighed_density_g_per_cm3(15.5) == pytest.approx(1.55)
