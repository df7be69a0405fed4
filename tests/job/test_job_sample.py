"""The sample tile in the book: measured colours take the place of guessed ones, and undo gives them back."""

import numpy as np
import pytest

from bench.drawing.dry import as_kept
from bench.drawing.photo import read_picture
from bench.drawing.photo.faults import CornersCross
from bench.finish.faults import NamelessColour, NotOnTile, TooManyColours, UnknownColour
from bench.finish.grout_colours import GROUT_WORDS
from bench.finish.units import Units
from bench.job import seeing
from bench.job.acts import inking, record, sample, zoning
from bench.job.costs import GROUT, amounts_of
from bench.job.finish_faults import OutOfTurn
from bench.job.fold import fold
from bench.job.record_facts import record_of
from bench.job.words import words
from bench.job.zones import plan
from tests.fakes.finished import GREY, grout_zone, hard_at_once, refused, two_coloured, whole_panel
from tests.fakes.tiles import CARD_MM, CORNERS, LAMP, SIZE_MM, joint_mm, photo_of_tile

GROUTS = ((190, 186, 180), (70, 70, 72))


@pytest.fixture(scope="module")
def photo():
    return as_kept(read_picture(photo_of_tile(GROUTS, light=LAMP), "tile.png"))


@pytest.fixture
def job(store, clock):
    return two_coloured(store, clock)


def measure(job, photo, *, state="dry", **spots):
    named = {name.replace("_", " "): at for name, at in spots.items()}
    sample.measure(
        job, photo, corner_px=CORNERS, spots=named, state=state, card_mm=CARD_MM, size_mm=SIZE_MM
    )


def test_a_measured_colour_takes_the_place_of_the_guess_everywhere(job, photo):
    number = whole_panel(job)
    measure(job, photo, pale_grey=joint_mm(0), charcoal=joint_mm(1))
    measured = job.state.finish.zones[number].grout.colour
    assert measured == pytest.approx(GROUTS[0], abs=5)
    assert measured != GREY
    assert plan(job).grouts[0].tint.colour == measured
    assert (seeing.joints_now(job) == measured).all()
    known = {look.name: look.known for look in seeing.seen(job, number)}
    assert known["pale grey"] == "measured on a tile, dry"
    assert known["white"] == "guessed"
    (line,) = (line for line in record_of(job, Units()).grout if "measured" in line)
    assert "measured on a tile, dry" in line
    zoning.choose_grout(job, number, "charcoal", GROUT_WORDS["charcoal"])
    assert job.state.finish.zones[number].grout.colour == pytest.approx(GROUTS[1], abs=5)
    assert fold(job.store.events(job.panel_id)) == job.state


def test_sealed_goes_before_dry_and_one_act_is_taken_back_whole(job, photo):
    measure(job, photo, pale_grey=joint_mm(0), charcoal=joint_mm(0))
    measure(job, photo, state="sealed", pale_grey=joint_mm(1))
    assert seeing.known_colours(job)["pale grey"] == pytest.approx(GROUTS[1], abs=5)
    assert seeing.colour_told(job, "pale grey") == "measured on a tile, sealed"
    record.undo(job)
    assert seeing.colour_told(job, "pale grey") == "measured on a tile, dry"
    record.undo(job)
    assert seeing.known_colours(job)["pale grey"] == GROUT_WORDS["pale grey"]
    assert not job.state.finish.measured


def test_the_book_keeps_the_photo_and_says_what_was_measured(job, photo):
    measure(job, photo, pale_grey=joint_mm(0))
    event = job.state.finish.measured["pale grey", "dry"]
    assert job.store.blob(event.photo) == photo
    assert words(event).startswith("Pale grey measured on a tile, dry: #")


def test_a_bad_tile_is_told_in_one_line_and_touches_nothing(job, photo):
    how = {"corner_px": CORNERS, "state": "dry"}
    at = {"white": joint_mm(0)}
    refused(job, OutOfTurn, sample.measure, photo, spots={}, match="no joint", **how)
    refused(job, NamelessColour, sample.measure, photo, spots={" ": joint_mm(0)}, match="no name", **how)
    refused(job, NotOnTile, sample.measure, photo, spots={"white": (500.0, 1.0)}, **how)
    flat = {"corner_px": ((0.0, 0.0),) * 4, "state": "dry"}
    refused(job, CornersCross, sample.measure, photo, spots=at, match="span no rectangle", **flat)


def test_colours_to_compare_are_kept_and_what_cannot_be_is_refused(job):
    seeing.compare(job, ["white", "sand", "white"])
    assert seeing.compared(job) == ("white", "sand")
    for names, fault in (
        ([], NamelessColour),
        (["white", "  "], NamelessColour),
        (["mauve"], UnknownColour),
        (["white", "grey", "black", "sand", "brown"], TooManyColours),
    ):
        refused(job, fault, seeing.compare, names)
    assert seeing.compared(job) == ("white", "sand")


def test_a_region_is_seen_in_each_colour_while_the_others_stay(job):
    blue, yellow = sorted(zoning.propose_zones(job), key=lambda n: min(job.state.finish.zones[n].tesserae))
    zoning.choose_grout(job, yellow, "sand", GROUT_WORDS["sand"])
    there = sorted(job.state.finish.zones[blue].tesserae)
    for look in seeing.seen(job, blue):
        assert (look.grout[there] == look.colour).all()
        assert (np.delete(look.grout, there, axis=0) == GROUT_WORDS["sand"]).all()
    by_name = {look.name: look.cut.delta_e for look in seeing.seen(job, blue)}
    assert by_name["charcoal"] < by_name["white"]
    (over,) = (look for look in seeing.seen(job, yellow, inks=True) if look.name == "red")
    assert over.colour[0] < GROUT_WORDS["sand"][0]


def test_what_was_done_after_setting_stands_in_both_papers_and_in_the_costs(job):
    hard_at_once(job)
    number = whole_panel(job)
    zoning.choose_ink(job, number, "blue", GROUT_WORDS["blue"])
    before = next(a for a in amounts_of(job) if a.material == GROUT)
    assert before.used == 0
    grout_zone(job, number, powder_g=24.0, water_g=7.5)
    inking.try_ink(job, number)
    job.clock.advance(10 * 86400)
    inking.ink(job, number)
    job.clock.advance(10 * 86400)
    inking.seal(job, "clear seal")
    job.clock.advance(10 * 86400)
    inking.hang(job, "outdoors")
    paper = record_of(job, Units())
    told = [done.text for done in paper.done]
    assert [text.split(":")[0] for text in told] == [
        f"Zone {number} grouted", f"Zone {number} inked", "Sealed with clear seal", "Hung outdoors",
    ]  # fmt: skip
    assert "Joints grouted in pale grey, inked blue." in paper.shown.materials
    assert "Sealed with clear seal." in paper.shown.materials
    after = next(a for a in amounts_of(job) if a.material == GROUT)
    assert after.used == 24.0
    assert after.needed == pytest.approx(0.0, abs=1e-6)


def test_powder_still_needed_is_that_of_the_joints_left(job):
    hard_at_once(job)
    whole = next(a for a in amounts_of(job) if a.material == GROUT).needed
    one = zoning.draw_zone(job, range(36), "half")
    zoning.choose_grout(job, one, "sand", GROUT_WORDS["sand"])
    grout_zone(job, one, powder_g=10.0, water_g=3.0)
    left = next(a for a in amounts_of(job) if a.material == GROUT)
    assert left.used == 10.0
    assert left.needed == pytest.approx(whole / 2, rel=0.03)
