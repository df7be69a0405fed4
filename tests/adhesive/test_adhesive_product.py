"""The adhesive file: what it says, what it refuses, and in which words."""

import contextlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.adhesive.faults import (
    AdhesiveFileFault,
    FieldDoubled,
    FieldMissing,
    FieldNotAllowed,
    FieldsDisagree,
    FieldUnknown,
    NoSuchAdhesive,
    NotAnAdhesiveFile,
)
from bench.adhesive.product_file import (
    DEFAULT_PRODUCT,
    find_product,
    load_product,
    parse_product,
    product_toml,
    shipped_products,
)
from tests.fakes.products import CHECKS, EXAMPLE, example, two_part_products

MINUTES, MASS, DENSITY = "minutes = 32", "test_mass_g = 100", "resin_g_per_cm3 = 1.55"
ENERGY = "working_time.activation_kJ_per_mol"
TEST, WORK = "test_temperature_C = 23", "working_time"
PAIR = "eew_g_per_eq = 190\nahew_g_per_eq = 30"
RATIO, RESIN = "by_mass = [100, 50]", '"H315"'

# what is swapped in the example, the fault it must end in, the field it must name, words it must hold
BAD = [
    ({MINUTES: "minutes = 0.5"}, FieldNotAllowed, "working_time.minutes", "30 minutes"),
    ({MINUTES: "minutes = 1920"}, FieldNotAllowed, "working_time.minutes", "32 minutes"),
    ({MINUTES: "minutes = 2,5"}, NotAnAdhesiveFile, "", "comma"),
    ({MINUTES: 'minutes = "2,5"'}, FieldNotAllowed, "working_time.minutes", "2.5"),
    ({MINUTES: "minutes = nan"}, FieldNotAllowed, "working_time.minutes", "3 to 480"),
    ({MINUTES: "minutes = true"}, FieldNotAllowed, "working_time.minutes", "3 to 480"),
    ({MINUTES: "minutes = 1979-05-27"}, FieldNotAllowed, "working_time.minutes", "3 to 480"),
    ({MINUTES: "minutes = " + "9" * 400}, FieldNotAllowed, "working_time.minutes", "3 to 480"),
    ({MINUTES: "minutes = " + "9" * 5000}, NotAnAdhesiveFile, "", "too long"),
    ({MINUTES: "minutes = 0x" + "f" * 5000}, FieldNotAllowed, "working_time.minutes", "many digits"),
    ({MINUTES: "minutes = " + "[" * 3000}, NotAnAdhesiveFile, "", "too deep"),
    ({MINUTES: ""}, FieldMissing, "working_time.minutes", "minutes"),
    ({MINUTES: MINUTES + "\nminutes = 33"}, FieldDoubled, "minutes", "twice"),
    ({MINUTES: "minuts = 32"}, FieldUnknown, "working_time.minuts", "did you mean minutes?"),
    ({MASS: ""}, FieldMissing, "working_time.test_mass_g", "100"),
    ({MASS: "test_mass_g = 0.1"}, FieldNotAllowed, "working_time.test_mass_g", "100 g"),
    ({TEST: "test_temperature_C = 73"}, FieldNotAllowed, f"{WORK}.test_temperature_C", "23 °C"),
    ({TEST: TEST + "\nrange_C = [35, 10]"}, FieldsDisagree, f"{WORK}.range_C", "colder"),
    ({TEST: TEST + "\nrange_C = [25, 35]"}, FieldsDisagree, f"{WORK}.range_C", "23"),
    ({TEST: TEST + "\nactivation_kJ_per_mol = 55000"}, FieldNotAllowed, ENERGY, "55"),
    ({"[100, 50]": "[100, 0]"}, FieldNotAllowed, "ratio.by_mass", "[100, 50]"),
    ({"[100, 50]": "[100, -50]"}, FieldNotAllowed, "ratio.by_mass", "-50"),
    ({"[100, 50]": "[1000, 1]"}, FieldsDisagree, "ratio", "0.001"),
    ({"[100, 50]": "[1, 1000]"}, FieldsDisagree, "ratio", "resin first"),
    ({"[100, 50]": "[1.55, 1.48]"}, FieldsDisagree, "ratio.by_mass", "densities"),
    ({RATIO: "eew_blend = [[1, 0]]\nahew_g_per_eq = 30"}, FieldsDisagree, "ratio.eew_blend", "reacts"),
    ({RATIO: "eew_blend = []\nahew_g_per_eq = 30"}, FieldNotAllowed, "ratio.eew_blend", "pairs"),
    ({RATIO: "eew_blend = [[80]]\nahew_g_per_eq = 30"}, FieldNotAllowed, "ratio.eew_blend", "pairs"),
    ({RATIO: "eew_blend = [[80, 190]]"}, FieldMissing, "ratio.ahew_g_per_eq", "give both"),
    ({RATIO: f"{PAIR}\neew_blend = [[80, 190]]"}, FieldDoubled, "ratio.eew_blend", "keep one"),
    ({'colour = "white"': 'colour = "white"\nform = "gel"'}, FieldNotAllowed, "form", "paste"),
    (
        {'colour = "white"': 'colour = "white"\nshelf_life_months = 2.5'},
        FieldNotAllowed,
        "shelf_life_months",
        "whole months",
    ),
    ({"[cure]": "[service]\nrange_C = [60, -20]\n\n[cure]"}, FieldsDisagree, "service.range_C", "colder"),
    ({"[cure]": "[service]\nrange_C = [-20, 600]\n\n[cure]"}, FieldNotAllowed, "service.range_C", "300"),
    ({"[100, 50]": "[100]"}, FieldNotAllowed, "ratio.by_mass", "two numbers"),
    ({"[100, 50]": "[100, 50, 10]"}, FieldNotAllowed, "ratio.by_mass", "two numbers"),
    ({"[100, 50]": '"2:1"'}, FieldNotAllowed, "ratio.by_mass", "2:1"),
    ({RATIO: ""}, FieldMissing, "ratio", "by_mass"),
    ({"[ratio]\n" + RATIO: ""}, FieldMissing, "ratio", "by_volume"),
    ({RATIO: "eew_g_per_eq = 190"}, FieldMissing, "ratio.ahew_g_per_eq", "give both"),
    ({RATIO: "ahew_g_per_eq = 30"}, FieldMissing, "ratio.eew_g_per_eq", "give both"),
    ({RATIO: RATIO + "\nby_volume = [2, 1]"}, FieldDoubled, "ratio.by_volume", "keep one"),
    ({RATIO: RATIO + "\n" + PAIR}, FieldDoubled, "ratio.eew_g_per_eq", "keep one"),
    ({RATIO: RATIO + "\ntolerance = 5"}, FieldNotAllowed, "ratio.tolerance", "0.05"),
    ({DENSITY: "resin_g_per_cm3 = 1550"}, FieldNotAllowed, "density.resin_g_per_cm3", "1.55"),
    ({DENSITY: "resin_g_per_cm3 = 100"}, FieldNotAllowed, "density.resin_g_per_cm3", "mix ratio"),
    ({DENSITY: 'resin_g_per_cm3 = "1,55"'}, FieldNotAllowed, "density.resin_g_per_cm3", "without quotes"),
    ({DENSITY: "resin = 1.55"}, FieldUnknown, "density.resin", "resin_g_per_cm3"),
    ({"hardener_g_per_cm3 = 1.48": ""}, FieldMissing, "density.hardener_g_per_cm3", "weigh 10 ml"),
    ({"firm_h = 4": "firm_h = 240"}, FieldsDisagree, "cure", "backward"),
    ({"firm_h = 4": "firm_h = 0.1"}, FieldsDisagree, "cure.firm_h", "hours"),
    ({"grout_h = 24": "grout_h = 1440"}, FieldNotAllowed, "cure.grout_h", "24 hours"),
    ({RESIN: '"R36"'}, FieldNotAllowed, "hazard.resin.statements", "R36"),
    ({RESIN: '"h315"'}, FieldNotAllowed, "hazard.resin.statements", "H315"),
    ({RESIN: "315"}, FieldNotAllowed, "hazard.resin.statements", "315"),
    ({'"GHS 10"': '"GHS 99"'}, FieldNotAllowed, "hazard.revision", "GHS 10"),
    ({'[hazard]\nrevision = "GHS 10"\n': ""}, FieldMissing, "hazard.revision", "GHS 10"),
    ({'"two-part"': '"three-part"'}, FieldNotAllowed, "kind", '"two-part" or "ready"'),
    ({'"two-part"': '"ready"'}, FieldsDisagree, "ratio", "two-part"),
    ({'"white"': '"blue"'}, FieldNotAllowed, "colour", "tinted"),
    ({'name = "Example paste, white"': 'name = ""'}, FieldNotAllowed, "name", "80"),
    ({'name = "Example paste, white"': 'name = "a\\u0000b"'}, FieldNotAllowed, "name", "80"),
    ({'name = "Example paste, white"': "name = Example"}, NotAnAdhesiveFile, "", "line 1"),
    ({"[cure]": "[cure"}, NotAnAdhesiveFile, "", "line 13"),
    ({"[cure]": "[ratio]"}, FieldDoubled, "ratio", "twice"),
    ({"[cure]": "[lots]\na = 1\n[cure]"}, FieldUnknown, "lots", "allowed here"),
    ({"[density]": "[density]\nresin = { a = 1 }"}, FieldUnknown, "density.resin", "take it out"),
]  # fmt: skip


@pytest.mark.parametrize(("swap", "kind", "field", "words"), BAD, ids=lambda case: str(case)[:50])
def test_a_bad_file_ends_in_one_line_that_names_the_field_and_what_is_allowed(swap, kind, field, words):
    with pytest.raises(AdhesiveFileFault) as caught:
        parse_product(example(swap), "mine.toml")
    fault = caught.value
    assert (kind, field) == (type(fault), fault.field)
    assert words in str(fault)
    assert str(fault).startswith("mine.toml: ")
    assert "\n" not in str(fault)
    assert fault.todo


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"  \n",
        b"\xff\xfe\x00",
        b"# only a comment",
        b"\x00" * 100,
        b"x" * 300_000,
        b"[[name]]",
        b"a.b.c = 1",
    ],
)
def test_bytes_that_are_no_adhesive_file_end_in_a_fault(data):
    with pytest.raises(AdhesiveFileFault):
        parse_product(data, "mine.toml")


@given(st.binary(max_size=200))
@settings(max_examples=60, deadline=None)
def test_no_bytes_whatever_end_in_a_traceback(data):
    with pytest.raises(AdhesiveFileFault):
        parse_product(data, "mine.toml")


@given(st.integers(0, len(EXAMPLE) - 1), st.sampled_from(["", "0", "=", '"', "[", "\n", "é", "\x07"]))
@settings(max_examples=150, deadline=None)
def test_a_slip_of_one_letter_ends_in_a_product_or_a_fault(at, letter):
    data = (EXAMPLE[:at] + letter + EXAMPLE[at + 1 :]).encode()
    product = None
    with contextlib.suppress(AdhesiveFileFault):
        product = parse_product(data, "mine.toml")
    if product is not None:
        assert product == parse_product(product_toml(product).encode(), "again")


def test_a_file_from_another_editor_is_read_the_same():
    """A byte order mark and carriage returns are no part of what a maker wrote."""
    plain = parse_product(example(), "x")
    assert plain == parse_product(b"\xef\xbb\xbf" + EXAMPLE.replace("\n", "\r\n").encode(), "x")


@given(two_part_products())
@settings(max_examples=60, deadline=None)
def test_what_is_written_is_read_back_the_same(product):
    assert product == parse_product(product_toml(product).encode(), "again")


@pytest.mark.parametrize("stem", list(shipped_products()))
def test_shipped_types_are_marked_typical_and_survive_a_round_trip(stem):
    path = shipped_products()[stem]
    product = load_product(path)
    assert product.typical
    assert path.read_text("utf-8").startswith("# typical; use your product's own data sheet\n")
    assert product == parse_product(product_toml(product).encode(), "again")


def test_a_hand_written_name_with_quotes_and_backslash_survives():
    product = parse_product(example({'"Example paste, white"': "'say \"hi\" \\ now'"}), "x")
    assert product.name == 'say "hi" \\ now'
    assert product == parse_product(product_toml(product).encode(), "again")


def test_working_time_is_never_without_mass_temperature_and_method():
    """EN 14022 method 1 tests 200 g at 23 °C: all four stay together."""
    method = CHECKS["working_time_methods"]
    product = parse_product(
        example({MASS: f'test_mass_g = {method["test_mass_g"]}\nmethod = "EN 14022 method 1"'}), "x"
    )
    table = product.working_time
    assert (table.test_mass_g, table.test_temperature_C) == (200, method["test_temperature_C"])
    assert (table.minutes, table.method) == (32, "EN 14022 method 1")


def test_a_product_is_found_by_stem_by_name_and_by_path(tmp_path):
    default = find_product(DEFAULT_PRODUCT)
    path = tmp_path / "mine.toml"
    path.write_bytes(example())
    assert default.name == "White paste, typical"
    assert default == find_product("WHITE-Paste")
    assert default == find_product(" white paste, TYPICAL ")
    assert find_product(str(path)).name == "Example paste, white"


def test_an_unknown_name_lists_the_choices():
    with pytest.raises(NoSuchAdhesive) as caught:
        find_product("glue")
    assert caught.value.choices == tuple(shipped_products())
    assert all(stem in str(caught.value) for stem in shipped_products())


@pytest.mark.parametrize(
    "name", ["absent.toml", "folder/absent", "nul\x00.toml", "~nobody-here/x.toml", "x" * 5000 + ".toml"]
)
def test_a_path_that_cannot_be_read_ends_in_a_fault(name):
    with pytest.raises(NotAnAdhesiveFile):
        find_product(name)


def test_a_folder_is_no_adhesive_file(tmp_path):
    with pytest.raises(NotAnAdhesiveFile, match="folder"):
        load_product(tmp_path)


def test_a_ready_adhesive_has_no_hardener_and_needs_no_test_mass():
    ready = find_product("white-ready")
    assert (ready.is_two_part, ready.mass_ratio, ready.working_time.test_mass_g) == (False, 0.0, None)
    assert ready.mixed_density_g_per_cm3 == ready.density.resin_g_per_cm3
