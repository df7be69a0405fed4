"""Colours beside their neighbours, plain areas, and the bed that shows through the glass."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skimage.color import deltaE_ciede2000, rgb2lab

from bench.drawing.colour import srgb_to_lab
from bench.drawing.picture import joints_png
from bench.drawing.svg import read_drawing
from bench.finish.bed import beds
from bench.finish.beside import HARDLY_DE, beside
from bench.finish.glass import glass_list
from bench.finish.lch import in_gamut, lab_to_lch
from bench.finish.plain import plain_areas, varied
from tests.fakes.drawings import grid_svg
from tests.fakes.glasses import CHANNEL
from tests.fakes.shapes import page, square

BLUE, NEAR_BLUE, YELLOW = "#2a5caa", "#2c5eac", "#e8c93a"


def striped(columns=6, rows=4, colours=(BLUE, NEAR_BLUE, YELLOW)):
    """Columns of 7 mm in turn in each colour, pieces of 6.2 mm."""
    svg = grid_svg(columns, rows, colour=lambda column, row: colours[column % len(colours)])
    return read_drawing(svg, "stripes.svg")


def test_a_pair_shares_the_joints_between_its_pieces_and_no_others():
    """Stripes: five upright joints of four pieces each, 6.2 mm a piece; blue and near blue meet in two."""
    panel = striped()
    listed = glass_list(panel)
    found = beside(panel, listed)
    pairs = {
        frozenset(listed.glasses[g].name[-7:] for g in (pair.one, pair.other)): pair
        for pair in (found[k] for k in range(len(found)))
    }
    shared = {key: round(pair.shared_mm, 3) for key, pair in pairs.items()}
    assert shared == {
        frozenset((BLUE, NEAR_BLUE)): pytest.approx(2 * 4 * 6.2),
        frozenset((NEAR_BLUE, YELLOW)): pytest.approx(2 * 4 * 6.2),
        frozenset((BLUE, YELLOW)): pytest.approx(1 * 4 * 6.2),
    }
    assert {key: pair.joints for key, pair in pairs.items()}[frozenset((BLUE, YELLOW))] == 4


def test_differences_are_those_of_an_independent_library():
    """scikit-image's rgb2lab and deltaE_ciede2000."""
    panel = striped()
    listed = glass_list(panel)
    found = beside(panel, listed)
    lab = rgb2lab(np.array([g.colour for g in listed.glasses], np.uint8)[None])[0]
    one, other = lab[found.pair[:, 0]], lab[found.pair[:, 1]]
    assert found.de == pytest.approx(deltaE_ciede2000(one, other), abs=5e-3)
    assert found.dL == pytest.approx(other[:, 0] - one[:, 0], abs=5e-3)


def test_what_will_hardly_be_told_apart_is_listed_and_its_joints_are_numbered():
    panel = striped()
    listed = glass_list(panel)
    found = beside(panel, listed)
    (pair,) = found.hardly()
    assert {listed.glasses[g].name[-7:] for g in (pair.one, pair.other)} == {BLUE, NEAR_BLUE}
    assert pair.de < HARDLY_DE
    number = found.hardly_number()
    codes = np.array([f"#{r:02x}{g:02x}{b:02x}" for r, g, b in panel.colour.tolist()])
    ends = codes[panel.joints.pair]
    expected = [{*two} == {BLUE, NEAR_BLUE} for two in ends.tolist()]
    assert (number == 1).tolist() == expected
    assert set(number.tolist()) == {0, 1}


def test_a_panel_of_one_glass_has_no_pairs():
    panel = striped(colours=(BLUE,))
    found = beside(panel, glass_list(panel))
    assert len(found) == 0
    assert found.hardly() == ()
    assert set(found.hardly_number().tolist()) == {0}


@pytest.mark.parametrize("side_px", [400, 900])
def test_the_picture_marks_the_joints_of_such_pairs_and_no_others(side_px):
    panel = striped()
    number = beside(panel, glass_list(panel)).hardly_number()
    plain = np.asarray(joints_png(panel, np.zeros_like(number), long_side_px=side_px), int)
    marked = np.asarray(joints_png(panel, number, long_side_px=side_px), int)
    changed = (plain != marked).any(axis=2)
    scale = side_px / panel.width_mm
    line = [round((7 * column) * scale) for column in range(1, 6)]  # between the columns
    between = [bool(changed[:, x - 1 : x + 2].any(axis=1).mean() > 0.8) for x in line]
    assert between == [True, False, False, True, False]
    numbered = np.asarray(joints_png(panel, number, most_numbered=1, long_side_px=side_px), int)
    assert (numbered != marked).any()


def test_a_plain_area_is_one_glass_over_joined_pieces():
    """Stripes of four pieces are too small; a field of 5 × 4 in one colour beside a stripe is plain."""
    assert plain_areas(striped(), glass_list(striped())) == ()
    svg = grid_svg(6, 4, colour=lambda column, row: YELLOW if column == 5 else BLUE)
    panel = read_drawing(svg, "field.svg")
    listed = glass_list(panel)
    (area,) = plain_areas(panel, listed)
    assert listed.glasses[area.glass].name.endswith(BLUE)
    assert (area.pieces, area.area_mm2) == (20, pytest.approx(20 * 6.2**2))
    assert sum(part.pieces for part in area.parts) == 20


def test_two_fields_that_do_not_touch_are_not_one_plain_area():
    svg = grid_svg(7, 3, colour=lambda column, row: YELLOW if column == 3 else BLUE)
    panel = read_drawing(svg, "fields.svg")
    assert plain_areas(panel, glass_list(panel)) == ()  # 9 pieces each, together 18
    assert len(plain_areas(panel, glass_list(panel), least_pieces=9)) == 1


@given(st.tuples(CHANNEL, CHANNEL, CHANNEL), st.integers(12, 3000))
def test_an_area_is_varied_by_a_lighter_a_darker_and_a_pinch_of_the_complement(colour, pieces):
    parts = varied(colour, pieces)
    assert parts[0].what == "as it is"
    assert parts[0].colour == colour
    assert sum(part.pieces for part in parts) == pieces
    assert sum(part.share for part in parts) == pytest.approx(1)
    assert min(part.pieces for part in parts) >= 0
    light = {part.what: srgb_to_lab(part.colour)[0] for part in parts}
    assert light.get("lighter", 101) >= light["as it is"] - 0.5
    assert light.get("darker", -1) <= light["as it is"] + 0.5
    for part in parts:
        assert in_gamut(srgb_to_lab(part.colour))


@pytest.mark.parametrize("colour", [(42, 92, 170), (150, 110, 60), (120, 60, 90)])
def test_the_pinch_is_the_complement_in_cielab(colour):
    """Hue + 180° at the same lightness, by scikit-image's rgb2lab; to what 8 bits can hold."""
    pinch = next(part for part in varied(colour, 100) if part.what == "complement")
    own, opposite = (lab_to_lch(rgb2lab(np.array([[c]], np.uint8))[0, 0]) for c in (colour, pinch.colour))
    assert abs((opposite[2] - own[2]) % 360 - 180) < 3
    assert opposite[0] == pytest.approx(own[0], abs=0.6)
    assert pinch.pieces == 5


def test_a_grey_has_no_complement_and_white_nothing_lighter():
    assert [part.what for part in varied((128, 128, 128), 20)] == ["as it is", "lighter", "darker"]
    assert [part.what for part in varied((255, 255, 255), 20)] == ["as it is", "darker"]


# -- the bed ---------------------------------------------------------------------------------------------

COLOURS = {"white-paste": "white", "clear-slow": "clear"}


def bedded(body):
    return beds(read_drawing(page(body), "beds.svg"), COLOURS.get)


def test_opaque_glass_asks_for_no_bed():
    assert bedded(square(0, 0)) == ()


def test_clear_glass_asks_for_a_white_bed_and_says_how_much_and_where():
    """Pieces of the tumbler, and one in no group at the bottom right."""
    clear = 'data-glass="clear"'
    body = f'<g id="tumbler" {clear} data-adhesive="clear-slow">{square(0, 0)}{square(11, 0)}</g>'
    body += square(80, 80, 10, clear) + square(40, 40)
    tumbler, corner = bedded(body)
    assert (tumbler.place, tumbler.count, tumbler.area_mm2) == ("tumbler", 2, pytest.approx(200))
    assert (tumbler.colour, tumbler.adhesive, tumbler.suits) == ("white", "clear-slow", False)
    assert (corner.place, corner.count, corner.adhesive, corner.suits) == ("bottom right", 1, "", None)


def test_an_adhesive_that_is_white_suits_and_one_that_nobody_knows_is_not_judged():
    body = square(0, 0, 10, 'data-glass="clear" data-adhesive="white-paste"')
    body += square(45, 45, 10, 'data-glass="iridised" data-adhesive="honey"')
    clear, iridised = bedded(body)
    assert (clear.suits, clear.place) == (True, "top left")
    assert (iridised.suits, iridised.place) == (None, "middle")
    assert "hold a piece to the light" in iridised.why
