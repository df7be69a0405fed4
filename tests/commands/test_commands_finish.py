"""`potwatch finish` and `potwatch glass`: figures as documented, tables of them, what is refused."""


import numpy as np
import pytest
from PIL import Image

from bench.drawing.load import load_drawing
from bench.resources import resource
from tests.fakes.commands import as_json
from tests.fakes.drawings import BLUE, YELLOW, grid_svg

KEYS = ["joint_area_mm2", "joint_volume_cm3", "powder_g", "water_g", "glass_mass_g"]
LEMONS = resource("assets", "demo", "lemons.svg")


@pytest.fixture
def stripes(tmp_path):
    """10 × 8 pieces of 6.2 mm in columns of two near blues and a yellow, the last row clear."""
    path = tmp_path / "stripes.svg"
    colours = (BLUE, "#2c5eac", YELLOW)
    path.write_bytes(grid_svg(10, 8, colour=lambda c, r: colours[c % 3], clear=lambda c, r: r == 7))
    return path


# -- finish ----------------------------------------------------------------------------------------------


def test_finish_tells_grout_and_glass_as_worked_by_hand(run, stripes):
    """70 × 56 mm, 80 pieces of 38.44 mm²: 844.8 mm² of joints, 1.6896 cm³; 23.06 g of glass."""
    data = as_json(run, "finish", stripes)
    assert list(data) == KEYS
    assert data["joint_area_mm2"] == pytest.approx(844.8, abs=0.05)
    assert data["joint_volume_cm3"] == pytest.approx(1.6896, abs=1e-4)
    assert data["powder_g"] == pytest.approx(1.6896 * 1.6 * 1.1, abs=1e-3)
    assert data["water_g"] == pytest.approx(1.6896 * 1.6 * 1.1 * 0.31, abs=1e-3)
    assert data["glass_mass_g"] == pytest.approx(80 * 38.44 * 0.003 * 2.5, abs=1e-2)


def test_every_option_of_finish_is_heard(run, stripes):
    usual = as_json(run, "finish", stripes)
    options = ("--depth-mm", 4, "--glass-mm", 6, "--grout-density", 2.0, "--water", 0.5, "--waste", 0)
    data = as_json(run, "finish", stripes, *options)
    assert data["joint_volume_cm3"] == pytest.approx(2 * usual["joint_volume_cm3"])
    assert data["powder_g"] == pytest.approx(2.0 * data["joint_volume_cm3"])
    assert data["water_g"] == pytest.approx(0.5 * data["powder_g"])
    assert data["glass_mass_g"] == pytest.approx(2 * usual["glass_mass_g"])


def test_thicker_glass_has_deeper_joints_unless_the_depth_is_given(run, stripes):
    usual = as_json(run, "finish", stripes)
    thick = as_json(run, "finish", stripes, "--glass-mm", 4)
    given = as_json(run, "finish", stripes, "--glass-mm", 4, "--depth-mm", 2)
    assert thick["joint_volume_cm3"] == pytest.approx(usual["joint_volume_cm3"] * 3 / 2)
    assert given["joint_volume_cm3"] == usual["joint_volume_cm3"]


def test_finish_prints_its_figures_with_zones_weight_and_cautions(run):
    code, out, _ = run("finish", LEMONS, "--backer-g-cm2", 1.2, "--bed-g-cm2", 0.1)
    assert code == 0
    data = as_json(run, "finish", LEMONS)
    assert f"{data['powder_g']:.0f} g of powder" in out
    assert f"{data['glass_mass_g']:.0f} g" in out
    zones = [line.split() for line in out.splitlines() if line.startswith(("cloth", "wall", "bowl "))]
    assert len(zones) == 3
    panel_g = 360 * 270 / 100 * 1.3 + data["glass_mass_g"] + (data["powder_g"] + data["water_g"]) / 1.1
    assert f"panel: {panel_g / 1000:.2f} kg" in out
    assert "safety data sheet" in out
    assert "gloves" in out


def test_a_weight_that_leaves_a_part_out_says_so(run, stripes):
    _, out, _ = run("finish", stripes, "--backer-g-cm2", 1)
    assert "the bed is not counted" in out
    _, out, _ = run("finish", stripes)
    assert "panel: " not in out


@pytest.mark.parametrize(
    ("option", "value", "allowed"),
    [
        ("--depth-mm", "0", "at most 50"),
        ("--depth-mm", "nan", "at most 50"),
        ("--glass-mm", "-3", "at most 50"),
        ("--glass-mm", "1", "more than 1"),
        ("--grout-density", "0", "at most 10"),
        ("--water", "-0.1", "from 0 to 2"),
        ("--waste", "3", "from 0 to 2"),
        ("--backer-g-cm2", "-1", "from 0 to 100"),
        ("--bed-g-cm2", "1e9", "from 0 to 100"),
        ("--width-mm", "1", "from 5 to 20000"),
    ],
)
def test_a_figure_that_cannot_be_is_named_with_what_can(refused, stripes, option, value, allowed):
    line = refused("finish", stripes, option, value)
    assert f"potwatch: {option}: " in line
    assert allowed in line


# -- glass -----------------------------------------------------------------------------------------------


def test_the_glass_list_adds_up_to_the_panel(run):
    _, panel = load_drawing(LEMONS)
    for like in (0, 2, 6):
        data = as_json(run, "glass", LEMONS, "--like", like)
        glasses = data["glasses"]
        assert sum(g["pieces"] for g in glasses) == panel.tessera_count
        assert sum(g["area_mm2"] for g in glasses) == pytest.approx(panel.glass_area_mm2)
        assert sum(g["sheet_area_mm2"] for g in glasses) == pytest.approx(data["sheet_area_mm2"])
        assert data["sheet_area_mm2"] == pytest.approx(panel.glass_area_mm2 / 0.65)
        assert len({g["name"] for g in glasses}) == len(glasses)


def test_the_list_counts_kinds_apart_and_buys_the_least_glass(run, stripes):
    """28 pieces of blue: 1076 mm² laid, 1656 mm² cut up; of 60 × 50 and 45 × 40 the smaller one does."""
    data = as_json(run, "glass", stripes, "--sheet-mm", "50x60", "45x40")
    by_name = {g["name"]: g for g in data["glasses"]}
    assert [g["kind"] for g in data["glasses"]].count("clear") == 3
    blue = by_name["dark blue #2a5caa"]
    assert blue["pieces"] == 28
    assert blue["sheet_area_mm2"] == pytest.approx(28 * 38.44 / 0.65, rel=1e-4)
    assert blue["buy"] == [{"long_mm": 45, "short_mm": 40, "sheets": 1}]
    assert blue["narrowest_mm"] == pytest.approx(6.2, abs=1e-6)


def test_the_option_for_sheets_may_be_given_more_than_once(run, stripes):
    together = as_json(run, "glass", stripes, "--sheet-mm", "50x60", "45x40")
    apart = as_json(run, "glass", stripes, "--sheet-mm", "50x60", "--sheet-mm", "45x40")
    assert together == apart
    assert apart["sheets_mm"] == [[60, 50], [45, 40]]


def test_what_is_on_hand_is_not_bought(run, stripes, tmp_path):
    stock = tmp_path / "stock.csv"
    stock.write_text(
        f"glass,width_mm,height_mm,sheets\nblue {BLUE},40,40,1\nclear {BLUE},60,60,1\n#000000,99,99,1\n"
    )
    data = as_json(run, "glass", stripes, "--sheet-mm", "20x20", "--stock", stock)
    blue = next(g for g in data["glasses"] if g["name"] == "dark blue #2a5caa")
    assert blue["on_hand_mm2"] == 1600
    assert [b["sheets"] for b in blue["buy"]] == [1]  # 1656 mm² less 1600
    assert data["stock_unused"] == ["#000000"]
    _, out, _ = run("glass", stripes, "--stock", stock)
    assert "no glass of this panel: #000000" in out


def test_neighbours_are_told_only_when_asked(run, stripes):
    _, plain, _ = run("glass", stripes)
    assert "told apart" not in plain
    assert "pairs" not in as_json(run, "glass", stripes)
    _, asked, _ = run("glass", stripes, "--pairs")
    assert "hardly be told apart at arm's length" in asked
    pairs = as_json(run, "glass", stripes, "--pairs")["pairs"]
    hardly = [p for p in pairs if p["hardly"]]
    assert {(p["one"][-7:], p["other"][-7:]) for p in hardly} >= {(BLUE, "#2c5eac")}
    assert all((p["de"] <= 3.0) == p["hardly"] for p in pairs)


def test_the_bed_that_clear_glass_needs_is_told(run, stripes):
    _, out, _ = run("glass", stripes)
    assert "4 pieces of clear glass in bottom" in out
    assert "white bed" in out
    assert sum(b["count"] for b in as_json(run, "glass", stripes)["beds"]) == 10


def test_the_picture_marks_pairs_and_lists_them(run, stripes, tmp_path):
    path = tmp_path / "pairs.png"
    assert run("glass", stripes, "--picture", path)[0] == 0
    with Image.open(path) as picture:
        assert picture.width > 1600  # the panel, its longer side 1600, and a table
        assert len(np.unique(np.asarray(picture.convert("L")))) > 10


@pytest.mark.parametrize(
    ("option", "value", "told"),
    [
        ("--sheet-mm", "300", "300x300"),
        ("--sheet-mm", "0x0", "from 20 to 5000"),
        ("--cut-waste", "1", "from 0 to 0.95"),
        ("--cut-waste", "-0.1", "from 0 to 0.95"),
        ("--like", "-1", "from 0"),
        ("--like", "inf", "to 20"),
        ("--height-mm", "nan", "from 5 to 20000"),
    ],
)
def test_a_choice_that_cannot_be_is_named_with_what_can(refused, stripes, option, value, told):
    line = refused("glass", stripes, option, value)
    assert f"potwatch: {option}: " in line
    assert told in line


@pytest.mark.parametrize(
    "text", ["glass;width_mm;height_mm;sheets\n", "glass,width_mm,height_mm,sheets\nblue,1,2,-3\n", ""]
)
def test_a_stock_that_cannot_be_read_is_told_in_one_line(refused, stripes, tmp_path, text):
    path = tmp_path / "stock.csv"
    path.write_text(text)
    assert "stock.csv" in refused("glass", stripes, "--stock", path)


@pytest.mark.parametrize("command", ["glass", "finish"])
def test_a_drawing_without_glass_is_refused(refused, tmp_path, command):
    path = tmp_path / "bare.svg"
    path.write_text(
        "<svg xmlns='http://www.w3.org/2000/svg' width='90mm' height='90mm'><text>no</text></svg>"
    )
    assert "no closed filled shape" in refused(command, path)


# -- zones, inks and the sun -----------------------------------------------------------------------------


def test_zones_share_grout_and_joints_and_say_what_is_masked_on_which_day(run):
    data = as_json(run, "finish", LEMONS, "--zones", "colours")
    assert list(data)[:5] == KEYS
    assert 2 <= len(data["zones"]) <= 6
    assert sum(z["joint_area_mm2"] for z in data["zones"]) == pytest.approx(data["joint_area_mm2"])
    for key in ("powder_g", "water_g"):
        assert sum(z[key] for z in data["zones"]) == pytest.approx(data[key])
        assert sum(g["batches"] * g[f"batch_{key}"] for g in data["grouts"]) == pytest.approx(data[key])
    assert {z["grout"] for z in data["zones"]} == {"unsanded"}
    assert all(z["tape_mm"] > 0 and z["masked_mm2"] > 0 for z in data["zones"])
    told = [name for day in data["days"] for name in day["grouts"]]
    assert sorted(told) == sorted(z["name"] for z in data["zones"])


def test_widths_are_those_that_were_drawn(run, stripes):
    widths = as_json(run, "finish", stripes, "--zones", "one")["joint_width_mm"]
    assert widths["p10"] == pytest.approx(0.8, abs=0.01)
    assert widths["p50"] == pytest.approx(0.8, abs=0.01)


def test_a_slower_hand_or_a_shorter_pot_life_takes_more_batches(run):
    usual = as_json(run, "finish", LEMONS, "--zones", "one")["grouts"][0]
    slow = as_json(run, "finish", LEMONS, "--zones", "one", "--pace-cm2-min", 5)["grouts"][0]
    short = as_json(run, "finish", LEMONS, "--zones", "one", "--pot-life-min", 20)["grouts"][0]
    assert usual["batches"] < min(slow["batches"], short["batches"])
    assert slow["powder_g"] == usual["powder_g"]


def test_red_glass_in_direct_sun_wants_through_coloured_grout(run, tmp_path):
    """Common practice, no source."""
    path = tmp_path / "red.svg"
    path.write_bytes(grid_svg(10, 8, colour=lambda c, r: "#b3262a" if c < 5 else "#8a8a86"))
    told = {
        sun: {z["name"]: z["through_coloured"] for z in as_json(run, "finish", path, "--sun", sun)["zones"]}
        for sun in ("direct", "indirect", "indoors")
    }
    assert not any(told["indoors"].values())
    assert not any(told["indirect"].values())
    data = as_json(run, "finish", path, "--zones", "colours", "--sun", "direct")
    through = {z["name"]: z["through_coloured"] for z in data["zones"]}
    assert [name for name, wants in through.items() if wants] == [n for n in through if "red" in n]
    assert len(through) == 2
    _, out, _ = run("finish", path, "--zones", "colours", "--sun", "direct")
    assert "blue wool" in out
    assert "rough" in out


def test_the_bed_in_the_sun_goes_by_the_service_temperature(run, tmp_path):
    path = tmp_path / "dark.svg"
    path.write_bytes(grid_svg(6, 6, colour=lambda c, r: "#151515", clear=lambda c, r: r == 0))
    toml = resource("assets", "adhesives", "clear-slow.toml").read_text()
    for most_C, word in ((55, "may soften"), (110, "is for up to 110")):
        own = tmp_path / "own.toml"
        own.write_text(f"{toml}\n[service]\nrange_C = [-20, {most_C}]\n")
        _, out, _ = run("finish", path, "--sun", "direct", "--adhesive", own)
        assert word in out
    _, out, _ = run("finish", path, "--sun", "direct")
    assert "gives no service temperature" in out
    assert "yellow" in out


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (("--depth-mm", "4"), "deeper than the glass"),
        (("--water", "3"), "from 0 to 2"),
        (("--pot-life-min", "10"), "more than 15"),
        (("--pace-cm2-min", "0"), "more than 0"),
    ],
)
def test_grout_that_cannot_be_is_told_in_one_line(refused, stripes, options, words):
    assert words in refused("finish", stripes, *options)


def test_joints_wider_than_the_pieces_and_zones_without_grout_are_told_in_one_line(refused, tmp_path):
    path = tmp_path / "odd.svg"
    path.write_bytes(grid_svg(6, 6, joint_mm=4.0))
    assert "4.0 mm are wider than pieces of 3.0 mm" in refused("finish", path)
    path.write_bytes(grid_svg(6, 6, joint_mm=0.0))
    assert "leaves no grout" in refused("finish", path, "--zones", "one")
