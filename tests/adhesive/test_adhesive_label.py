"""A label read out field by field comes to the same product, and the same messages, as its file."""

import pytest
from hypothesis import given, settings

from bench.adhesive.faults import AdhesiveFileFault, FieldNotAllowed
from bench.adhesive.label import RATIO_FIELDS, Label
from bench.adhesive.product_file import find_product, parse_product, product_toml, shipped_products
from tests.fakes.products import example, two_part_products

WHOLE = Label.of(parse_product(example(), "x"))


def untyped(product):
    """A product that is no longer a typical one."""
    return product.model_copy(update={"typical": False})


@pytest.mark.parametrize("stem", shipped_products())
def test_a_shipped_type_read_into_a_label_and_out_again_is_the_same(stem):
    product = find_product(stem)
    assert Label.of(product).product("x") == untyped(product)


@given(two_part_products())
@settings(max_examples=80, deadline=None)
def test_any_product_goes_through_label_and_file_and_back(product):
    label = Label.from_json(Label.of(product).to_json())
    back = label.product("x")
    assert parse_product(product_toml(back).encode(), "x") == back
    if product.hazard.hardener is not None:
        assert back == product


@pytest.mark.parametrize(
    ("field", "value", "old", "new"),
    [
        ("working_time.minutes", 0.5, "minutes = 32", "minutes = 0.5"),
        ("working_time.test_mass_g", 0.1, "test_mass_g = 100", "test_mass_g = 0.1"),
        ("density.resin_g_per_cm3", 1550, "= 1.55", "= 1550"),
        ("cure.temperature_C", 73, "\ntemperature_C = 23", "\ntemperature_C = 73"),
        ("ratio.by_mass", (100, 0), "[100, 50]", "[100, 0]"),
        ("name", "", '"Example paste, white"', '""'),
    ],
)
def test_a_slip_is_told_in_the_words_of_the_file(field, value, old, new):
    with pytest.raises(AdhesiveFileFault) as caught:
        parse_product(example({old: new}), "x")
    told = WHOLE.told(field, value).fault_at([field], "x")
    assert (told.what, told.todo, told.field) == (caught.value.what, caught.value.todo, caught.value.field)


def test_a_slip_is_told_while_all_else_is_still_missing():
    told = Label().told("working_time.minutes", 9000).fault_at(["working_time.minutes"], "x")
    assert isinstance(told, FieldNotAllowed)
    assert "if seconds are meant, that is 150 minutes" in told.todo
    assert Label().told("working_time.minutes", 25).fault_at(["working_time.minutes"], "x") is None


def test_another_way_of_giving_the_ratio_takes_the_place_of_the_one_before():
    label = WHOLE.told("ratio.by_volume", (2, 1))
    assert [field for field in RATIO_FIELDS if label.get(field)] == ["ratio.by_volume"]
    label = label.told("ratio.eew_g_per_eq", 190).told("ratio.ahew_blend", ((80, 43), (20, 0)))
    assert [field for field in RATIO_FIELDS if label.get(field)] == ["ratio.eew_g_per_eq", "ratio.ahew_blend"]
    assert label.product("x").mass_ratio == pytest.approx(43 / 0.8 / 190)


def test_one_that_is_ready_drops_all_that_belongs_to_a_hardener():
    label = WHOLE.told("kind", "ready")
    assert label.product("x").kind == "ready"
    assert not label.product("x").is_two_part


def test_silence_is_an_answer_and_leaves_the_field_out():
    label = WHOLE.told("working_time.film_open_minutes", 40).told("working_time.film_open_minutes", None)
    assert label.knows("working_time.film_open_minutes")
    assert "film_open_minutes" not in label.toml()
    assert label.told("hazard.resin.statements", None).product("x").hazard.resin.statements == ()


@pytest.mark.parametrize("kept", [None, "", "{", "[]", '{"answers": 3}', '{"silent": [1]}'])
def test_what_was_kept_and_cannot_be_read_begins_anew(kept):
    assert Label.from_json(kept) == Label()


def test_what_is_missing_is_told_as_the_file_tells_it():
    with pytest.raises(AdhesiveFileFault, match="is missing"):
        Label().told("name", "Paste").product("x")
