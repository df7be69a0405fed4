"""No combination of legal inputs crashes anything, and what must only ever grow or shrink does."""

import math
from contextlib import suppress

from hypothesis import given, settings
from hypothesis import strategies as st

from bench.adhesive.batch import ladder, prescribe, scale_advice
from bench.adhesive.cautions import cautions, first_aid
from bench.adhesive.cure import cure_s
from bench.adhesive.faults import AmountNotAllowed
from bench.adhesive.heat import cups_needed, exotherm
from bench.adhesive.poured import judge_poured, poured_words
from bench.adhesive.product_file import parse_product, product_toml
from bench.adhesive.scale import Scale
from bench.adhesive.working_time import film_open_s, working_time_s
from tests.fakes.products import rounded, two_part_products

scales = st.builds(Scale, st.sampled_from([0.001, 0.01, 0.1, 0.5, 1.0, 5.0]), st.booleans())
beds = st.fixed_dictionaries(
    {
        "bed_area_mm2": st.floats(-2, 7).map(lambda power: 10.0**power),
        "bed_mm": st.floats(0.1, 10),
        "waste": st.floats(0, 3),
        "residue_g": st.floats(0, 100),
    }
)


@given(two_part_products(), beds, scales, rounded(0, 1, 4), st.floats(0, 3000), st.floats(0, 3000))
@settings(max_examples=80, deadline=None)
def test_whatever_is_legal_is_answered(product, bed, scale, warmth, resin_g, hardener_g):
    """From the file to the last word at the cup; a reading that cannot be is refused by name, never else."""
    product = parse_product(product_toml(product).encode(), "x")
    low_C, high_C = product.range_C
    room_C = low_C + warmth * (high_C - low_C)
    batch = prescribe(product, scale=scale, **bed)
    assert batch.total_g > 0
    assert batch.smallest_batch_g > 0
    assert bool(scale_advice(product, batch, scale)) != batch.scale_ok
    assert ladder(product, batch, scale)
    mass_g = min(batch.total_g, 20_000.0)
    assert 0 < working_time_s(product, temperature_C=room_C, mass_g=mass_g) <= 28_800
    assert film_open_s(product, room_C) is None or film_open_s(product, room_C) > 0
    assert cure_s(product, "grout", room_C) > 0
    assert cautions(product, temperature_C=room_C, mass_g=mass_g, first_today=True)
    assert first_aid(product).lines
    curve = exotherm(product, mass_g=mass_g, temperature_C=room_C)
    assert math.isfinite(curve.peak_C)
    assert curve.peak_C >= room_C - 1e-9
    with suppress(AmountNotAllowed):
        poured = judge_poured(product, resin_g=resin_g, hardener_g=hardener_g, scale=scale)
        assert all(isinstance(text, str) for text in poured_words(poured, tolerance=product.tolerance))


@given(two_part_products(), rounded(0.5, 400), rounded(0.5, 400), scales)
@settings(max_examples=150, deadline=None)
def test_what_is_said_of_a_cup_is_what_was_judged(product, resin_g, hardener_g, scale):
    poured = judge_poured(product, resin_g=resin_g, hardener_g=hardener_g, scale=scale)
    said, todo = poured_words(poured, tolerance=product.tolerance)
    assert ("within" in said) == poured.within_tolerance
    assert ("too much" in said) == (poured.ratio_error > 1e-9 / 100)
    assert todo.startswith("Add ") == bool(poured.resin_to_add_g or poured.hardener_to_add_g)
    if poured.resin_to_add_g:
        assert todo == f"Add {poured.resin_to_add_g:g} g of resin."
        assert poured.ratio_error > 0


@given(two_part_products(), rounded(1, 300, 1), rounded(12, 33, 1), rounded(12, 33, 1))
@settings(max_examples=60, deadline=None)
def test_a_warmer_room_makes_a_cup_warmer_and_gel_sooner(product, mass_g, one_C, other_C):
    cool, warm = (exotherm(product, mass_g=mass_g, temperature_C=C) for C in sorted((one_C, other_C)))
    assert cool.peak_C <= warm.peak_C + 1e-3
    assert warm.gel_s <= cool.gel_s * (1 + 1e-6)


@given(two_part_products(), rounded(1, 400, 1), rounded(1, 400, 1), rounded(12, 33, 1))
@settings(max_examples=40, deadline=None)
def test_more_in_the_cup_never_needs_fewer_cups(product, one_g, other_g, room_C):
    small, large = (cups_needed(product, mass_g=g, temperature_C=room_C) for g in sorted((one_g, other_g)))
    assert 1 <= small <= large
