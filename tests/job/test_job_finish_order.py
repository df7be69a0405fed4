"""Grout, ink, seal, wall: the order cannot be broken by mistake. The order: common practice, no source."""

import pytest

from bench.job.acts import cure, grouting, inking, opening, record, zoning
from bench.job.acts.opening import open_panel
from bench.job.finish_faults import NotHardYet, OutOfTurn, StillWet
from bench.job.finish_settings import grouting as how
from bench.job.fold import fold
from bench.job.words import book_lines
from tests.fakes.benches import set_section
from tests.fakes.drawings import grid_svg
from tests.fakes.finished import (
    BLUE,
    GREY,
    RED,
    grout_zone,
    hard_panel,
    refused,
    set_all,
    whole_panel,
)

HOUR_S = 3600.0
LEFT_HALF = [row * 12 + column for row in range(6) for column in range(6)]


@pytest.fixture
def job(store, clock):
    return hard_panel(store, clock)


@pytest.fixture
def two(job):
    """The same with two zones of two grouts, neither of them worked."""
    left = zoning.draw_zone(job, LEFT_HALF, "left")
    zoning.choose_grout(job, left, "red", RED)
    right = zoning.choose_grout(job, 0, "pale grey", GREY)
    return job, left, right


def test_the_whole_way_from_hard_to_hung(job, clock):
    zone = whole_panel(job)
    zoning.choose_ink(job, zone, "deep blue", BLUE)
    inking.try_ink(job, zone)
    grout_zone(job, zone, lot="G 7")
    clock.advance(24 * HOUR_S)
    inking.ink(job, zone)
    clock.advance(48 * HOUR_S)
    inking.seal(job, "penetrating sealer")
    clock.advance(72 * HOUR_S)
    inking.hang(job, "outdoors")
    state = job.state.finish
    assert (state.hung.where, state.zones[zone].grouted.lot) == ("outdoors", "G 7")
    assert fold(job.store.events(job.panel_id)) == job.state
    told = "\n".join(line.text for line in book_lines(job))
    for word in (
        "pale grey, 100 g powder and 31 g water, lot G 7",
        "on an offcut",
        "Sealed",
        "Hung outdoors",
    ):
        assert word in told


def test_no_grout_before_the_last_section_of_the_zone_is_hard(store, clock):
    job = open_panel(store, clock, grid_svg(24, 12), "grid.svg")
    zone = whole_panel(job)
    grouting.read_cautions(job, zone)
    fault = refused(job, NotHardYet, grouting.grout, zone, powder_g=50, water_g=15)
    assert "set what is left of it" in fault.todo
    set_all(job)
    fault = refused(job, NotHardYet, grouting.grout, zone, powder_g=50, water_g=15, match="not hard")
    assert fault.todo.startswith("wait until ")
    clock.advance(40 * 24 * HOUR_S)
    grouting.grout(job, zone, powder_g=50, water_g=15)


def test_a_zone_may_be_grouted_while_another_is_still_soft(store, clock):
    """What has hardened may be grouted; a soft section elsewhere does not hold it up."""
    job = open_panel(store, clock, grid_svg(12, 6), "grid.svg")
    first = min(job.state.sections)
    hard = zoning.draw_zone(job, job.section(first).tesserae, "first")
    zoning.choose_grout(job, hard, "pale grey", GREY)
    rest = zoning.choose_grout(job, 0, "pale grey", GREY)
    set_section(job, first)
    cure.confirm_cure(job, first, "hard")
    grout_zone(job, hard)
    grouting.read_cautions(job, rest)
    refused(job, NotHardYet, grouting.grout, rest, powder_g=50, water_g=15)


def test_the_cautions_are_read_before_each_mix_and_kept_as_they_stood(two, clock):
    job, left, right = two
    grouting.mask(job, left)
    refused(job, OutOfTurn, grouting.grout, left, powder_g=50, water_g=15, match="cautions")
    grout_zone(job, left)
    clock.advance(24 * HOUR_S)
    grouting.mask(job, right)
    refused(job, OutOfTurn, grouting.grout, right, powder_g=50, water_g=15, match="cautions")
    grouting.read_cautions(job, right)
    shown = " ".join(job.state.finish.zones[right].shown)
    for word in ("safety data sheet", "H318", "gloves", "dust", "drain"):
        assert word in shown


def test_grouts_that_meet_are_masked_and_never_wet_together(two, clock):
    job, left, right = two
    grouting.read_cautions(job, left)
    refused(job, OutOfTurn, grouting.grout, left, powder_g=50, water_g=15, match="another grout")
    grout_zone(job, left)
    fault = refused(job, StillWet, grouting.mask, right, match="still wet")
    clock.advance(how(job).beside_h * HOUR_S - 1)
    refused(job, StillWet, grouting.mask, right)
    assert fault.at_utc > job.state.finish.zones[left].grouted_utc
    clock.advance(1)
    grout_zone(job, right)


def test_one_grout_goes_on_over_zones_without_tape(job):
    left = zoning.draw_zone(job, LEFT_HALF, "left")
    right = zoning.choose_grout(job, 0, "pale grey", GREY)
    zoning.choose_grout(job, left, "pale grey", GREY)
    refused(job, OutOfTurn, grouting.mask, left, match="no other grout")
    grout_zone(job, left)
    grout_zone(job, right)
    assert all(z.grouted for z in job.state.finish.in_order)


def test_ink_goes_on_dry_grout_and_before_the_seal(job, clock):
    """Common practice, no source."""
    zone = whole_panel(job)
    refused(job, OutOfTurn, inking.ink, zone, match="no ink is chosen")
    zoning.choose_ink(job, zone, "deep blue", BLUE)
    refused(job, OutOfTurn, inking.ink, zone, match="not grouted")
    grout_zone(job, zone)
    inking.try_ink(job, zone)
    clock.advance(24 * HOUR_S - 1)
    refused(job, StillWet, inking.ink, zone, match="not dry")
    zoning.leave_ink(job, zone)
    clock.advance(48 * HOUR_S + 1)
    inking.seal(job)
    refused(job, OutOfTurn, zoning.choose_ink, zone, "deep blue", BLUE, match="sealed")
    refused(job, OutOfTurn, inking.try_ink, zone, match="sealed")
    refused(job, OutOfTurn, inking.ink, zone, match="sealed")


def test_an_ink_is_tried_on_an_offcut_of_the_same_grout_first(job, clock):
    """Common practice, no source: another grout under it is another colour."""
    zone = whole_panel(job)
    zoning.choose_ink(job, zone, "deep blue", BLUE)
    inking.try_ink(job, zone)
    zoning.choose_grout(job, zone, "sand", GREY)
    grout_zone(job, zone)
    clock.advance(24 * HOUR_S)
    refused(job, OutOfTurn, inking.ink, zone, match="not tried on sand")
    inking.try_ink(job, zone)
    inking.ink(job, zone)


def test_no_seal_before_grout_and_ink_are_dry_or_while_a_chosen_ink_is_not_on(job, clock):
    zone = whole_panel(job)
    refused(job, OutOfTurn, inking.seal, match="not grouted")
    grout_zone(job, zone)
    clock.advance(71 * HOUR_S)
    refused(job, StillWet, inking.seal)
    zoning.choose_ink(job, zone, "deep blue", BLUE)
    clock.advance(1 * HOUR_S)
    refused(job, OutOfTurn, inking.seal, match="deep blue, is not on")
    inking.try_ink(job, zone)
    inking.ink(job, zone)
    refused(job, StillWet, inking.seal)
    clock.advance(24 * HOUR_S)
    inking.seal(job)
    refused(job, OutOfTurn, inking.seal, match="already")


def test_nothing_is_sealed_while_any_piece_lies_in_no_grouted_zone(job, clock):
    left = zoning.draw_zone(job, LEFT_HALF, "left")
    zoning.choose_grout(job, left, "pale grey", GREY)
    grout_zone(job, left)
    clock.advance(100 * HOUR_S)
    refused(job, OutOfTurn, inking.seal, match="in no zone")


def test_outdoors_takes_a_seal_that_has_dried_and_indoors_dry_grout_is_enough(job, clock):
    zone = whole_panel(job)
    grout_zone(job, zone)
    refused(job, StillWet, inking.hang, "indoors")
    clock.advance(72 * HOUR_S)
    refused(job, OutOfTurn, inking.hang, "outdoors", match="not sealed")
    inking.seal(job)
    refused(job, StillWet, inking.hang, "outdoors")
    inking.hang(job, "indoors")
    record.undo(job)
    clock.advance(72 * HOUR_S)
    inking.hang(job, "outdoors")
    refused(job, OutOfTurn, inking.hang, "outdoors", match="already")


def test_a_clock_that_cannot_be_trusted_counts_as_wet_until_it_is_tried_by_hand(job, clock):
    zone = whole_panel(job)
    zoning.choose_ink(job, zone, "deep blue", BLUE)
    inking.try_ink(job, zone)
    grout_zone(job, zone)
    clock.reboot(30 * 24 * HOUR_S)
    assert refused(job, StillWet, inking.ink, zone).unsure
    grouting.try_dry(job, zone, "tint")
    inking.ink(job, zone)
    clock.advance(24 * HOUR_S)
    refused(job, StillWet, inking.seal)
    grouting.try_dry(job, zone, "seal")
    inking.seal(job)


def test_a_changed_wall_clock_alone_dries_nothing(job, clock):
    zone = whole_panel(job)
    zoning.choose_ink(job, zone, "deep blue", BLUE)
    inking.try_ink(job, zone)
    grout_zone(job, zone)
    clock.set_wall(clock.utc().replace(year=2030))
    refused(job, StillWet, inking.ink, zone)


def test_every_act_can_be_taken_back_and_done_again(two, clock):
    job, left, _ = two
    zoning.choose_ink(job, left, "deep blue", BLUE)
    acts = [
        (zoning.tell_sun, "direct"),
        (inking.try_ink, left),
        (grouting.mask, left),
        (grouting.read_cautions, left),
    ]
    for act, *given in acts:
        before = fold(job.store.events(job.panel_id))
        act(job, *given)
        record.undo(job)
        assert job.state.finish == before.finish
        act(job, *given)
    grouting.grout(job, left, powder_g=50, water_g=15)
    record.undo(job)
    assert job.state.finish.zones[left].grouted is None
    clock.advance(HOUR_S)
    grouting.grout(job, left, powder_g=50, water_g=15)
    clock.advance(23.5 * HOUR_S)
    refused(job, StillWet, inking.ink, left)
    clock.advance(0.5 * HOUR_S)
    inking.ink(job, left)


def test_what_was_chipped_out_begins_anew_with_its_zone(two, clock):
    job, left, right = two
    grout_zone(job, left)
    clock.advance(24 * HOUR_S)
    grout_zone(job, right)
    number = next(n for n, s in job.state.sections.items() if s.tesserae[0] in LEFT_HALF)
    cure.chip_out(job, number)
    assert job.state.finish.zones[left].grouted is None
    opening.divide_anew(job)
    grouting.read_cautions(job, left)
    refused(job, NotHardYet, grouting.grout, left, powder_g=50, water_g=15)


def test_a_book_read_again_knows_what_is_dry(two, clock, store):
    from bench.job.job import Job

    job, left, _ = two
    zoning.choose_ink(job, left, "deep blue", BLUE)
    inking.try_ink(job, left)
    grout_zone(job, left)
    clock.advance(24 * HOUR_S)
    again = Job(store, clock, job.panel_id)
    inking.ink(again, left)
    assert again.state.finish.zones[left].inked.name == "deep blue"
