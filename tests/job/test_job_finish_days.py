"""From when on each part may be grouted, inked, sealed and hung; and the same as a calendar file."""

from datetime import timedelta

import pytest
import vobject

from bench.adhesive.cure import cure_s
from bench.adhesive.product_file import find_product
from bench.job.acts import cure, grouting, inking, zoning
from bench.job.acts.opening import open_panel
from bench.job.advice import advise
from bench.job.finish_advice import finish_next
from bench.job.finish_days import finish_steps, when_lines
from bench.job.finish_settings import set_grouting
from bench.job.ics import calendar_file, write_calendar
from bench.job.job import Job
from bench.job.ways import ways_told
from bench.job.zone_words import ready_line, sun_lines
from bench.whole import CannotWrite
from tests.fakes.benches import set_section
from tests.fakes.drawings import grid_svg
from tests.fakes.finished import BLUE, GREY, RED, grout_zone, hard_at_once, harden, set_all, whole_panel

HOUR_S = 3600.0


def step(job, kind, of=None):
    return next(s for s in finish_steps(job) if s.kind == kind and of in (None, s.of))


def test_a_zone_may_be_grouted_from_when_its_last_section_is_hard(job, clock):
    """The product's hours at the room's temperature, counted from when its glue-up was closed."""
    zone = whole_panel(job)
    set_all(job)
    closed = [m.contact_utc + timedelta(seconds=m.closed.finished_after_s) for m in job.state.mixes.values()]
    last = max(closed)
    product = find_product("white-paste")
    seconds = cure_s(product, "grout", job.state.bench.temperature_C)
    found = step(job, "grout", zone)
    assert found.at_utc == pytest.approx(last + timedelta(seconds=seconds), abs=timedelta(seconds=2))
    assert not found.now
    clock.advance((found.at_utc - clock.utc()).total_seconds() + 1)
    assert step(job, "grout", zone).now
    assert "may be grouted now" in " ".join(when_lines(job))


def test_each_zone_waits_for_its_own_sections_alone(store, clock):
    job = open_panel(store, clock, grid_svg(12, 6), "grid.svg")
    first = min(job.state.sections)
    ready = zoning.draw_zone(job, job.state.sections[first].tesserae, "first")
    zoning.choose_grout(job, ready, "pale grey", GREY)
    set_section(job, first)
    cure.confirm_cure(job, first, "hard")
    steps = {s.of: s for s in finish_steps(job) if s.kind == "grout"}
    assert steps[ready].now
    assert not steps[0].now
    assert steps[0].foreseen
    assert steps[0].at_utc > clock.utc() + timedelta(hours=20)


def test_what_is_done_dates_what_comes_after_and_says_so(job, clock):
    zone = whole_panel(job)
    harden(job)
    zoning.choose_ink(job, zone, "deep blue", BLUE)
    grout_zone(job, zone)
    at = clock.utc()
    assert step(job, "ink", zone).at_utc == at + timedelta(hours=24)
    words = ready_line(job)
    assert words.startswith("From ")
    assert words.endswith("the panel may be tinted.")
    sealed = step(job, "seal")
    assert sealed.foreseen
    assert sealed.at_utc == at + timedelta(hours=72)
    assert step(job, "hang").at_utc == at + timedelta(hours=144)
    set_grouting(job, seal_h=100, outdoors_h=10)
    assert step(job, "hang").at_utc == at + timedelta(hours=110)


def test_another_grout_beside_it_delays_a_zone(job):
    harden(job)
    left = zoning.draw_zone(job, [t for t in range(288) if t % 24 < 9], "left")
    zoning.choose_grout(job, left, "red", RED)
    right = zoning.choose_grout(job, 0, "pale grey", GREY)
    grout_zone(job, left)
    found = step(job, "grout", right)
    assert not found.now
    assert found.at_utc == job.clock.utc() + timedelta(hours=12)


def test_an_unsure_clock_is_told_and_nothing_may_be_done_on_it(job, clock):
    zone = whole_panel(job)
    harden(job)
    zoning.choose_ink(job, zone, "deep blue", BLUE)
    inking.try_ink(job, zone)
    grout_zone(job, zone)
    clock.reboot(40 * 24 * HOUR_S)
    assert step(job, "ink", zone).unsure
    assert not step(job, "ink", zone).now
    zoning.tell_sun(job, "indoors")
    assert finish_next(job).act == "try_dry"
    assert "clock changed" in finish_next(job).why


def test_the_next_act_leads_all_the_way_to_the_wall(job, clock):
    """By advice alone: what it names is allowed when it names it, and it never stands still."""
    harden(job)
    done = []
    for _ in range(60):
        found = finish_next(job)
        done.append(found.act)
        if found.act == "sun":
            zoning.tell_sun(job, "direct")
            zoning.draw_zone(job, range(96), "top")
        elif found.act == "choose":
            number = zoning.choose_grout(job, found.zone, f"grout {found.zone}", GREY)
            zoning.choose_ink(job, number, "deep blue", BLUE)
        elif found.act == "grout":
            grouting.read_cautions(job, found.zone)
            grouting.grout(job, found.zone, powder_g=50, water_g=15)
        elif found.act == "wait":
            clock.advance(6 * HOUR_S)
        elif found.act == "seal":
            inking.seal(job)
        elif found.act == "hang":
            inking.hang(job, "outdoors")
        elif found.act == "done":
            break
        else:
            {"mask": grouting.mask, "try_ink": inking.try_ink, "ink": inking.ink}[found.act](job, found.zone)
    assert done[-1] == "done"
    acts = list(dict.fromkeys(act for act in done if act != "wait"))
    assert acts == ["sun", "choose", "mask", "grout", "try_ink", "ink", "seal", "hang", "done"]
    assert when_lines(job) == ()


def test_the_panel_says_from_when_on_once_grouting_has_begun(job):
    harden(job)
    assert advise(job).headline == "Grout the panel"
    grout_zone(job, whole_panel(job))
    found = advise(job)
    assert (found.act, found.headline) == ("finish", "Finish the panel")
    assert "may be sealed" in found.why


def test_the_ways_are_told_with_their_days_and_only_the_sun_asks_for_a_red_zone(store, clock):
    svg = grid_svg(12, 8, colour=lambda c, r: "#b3262a" if c < 4 else "#2f4a63" if c < 8 else "#9a9890")
    job = open_panel(store, clock, svg, "three.svg")
    assert [w.way for w in ways_told(job)] == ["inks", "colours"]
    zoning.tell_sun(job, "direct")
    told = {w.way: w.says for w in ways_told(job)}
    assert list(told) == ["inks", "colours", "sun"]
    assert "red" not in told["inks"]
    assert told["colours"].startswith("3 grouts on 2 days")
    numbers = zoning.one_neutral(job)
    zones = [job.state.finish.zones[n] for n in numbers]
    assert {z.name: z.grout and z.grout.name for z in zones} == {
        **{z.name: "pale grey" for z in zones},
        **{z.name: None for z in zones if "red" in z.name},
    }
    assert any("red" in z.name for z in zones)
    assert "ISO 105-B01" in " ".join(sun_lines(job))


def test_a_red_zone_for_the_sun_holds_the_reds_and_no_more(store, clock):
    svg = grid_svg(12, 8, colour=lambda c, r: "#b3262a" if c < 4 else "#9a9890")
    job = open_panel(store, clock, svg, "red.svg")
    zoning.tell_sun(job, "direct")
    number = zoning.propose_for_sun(job)
    assert {t % 12 for t in job.state.finish.zones[number].tesserae} == {0, 1, 2, 3}


# -- the calendar file -----------------------------------------------------------------------------------


def events_of(data):
    """Return what an independent reader of RFC 5545 finds, by UID."""
    return {e.uid.value: e for e in vobject.readOne(data.decode()).vevent_list}


def test_the_file_is_read_by_another_library_with_the_same_moments_in_utc(job):
    whole_panel(job)
    set_all(job)
    data = calendar_file(job)
    found = events_of(data)
    steps = [s for s in finish_steps(job) if s.at_utc]
    assert len(found) == len(steps)
    starts = sorted(e.dtstart.value for e in found.values())
    assert starts == sorted(s.at_utc.replace(microsecond=0) for s in steps)
    assert all(start.tzinfo is not None and start.utcoffset() == timedelta(0) for start in starts)
    for event in found.values():
        assert event.dtend.value > event.dtstart.value
        assert event.dtstamp.value == job.clock.utc().replace(microsecond=0)
        assert event.valarm.trigger.value == timedelta(0)
    foreseen = {e.summary.value: e.status.value for e in found.values()}
    assert foreseen["grid: Seal the panel"] == "TENTATIVE"
    assert foreseen["grid: Grout: the panel"] == "CONFIRMED"


def test_lines_end_and_fold_as_rfc_5545_wants(job):
    """RFC 5545, 3.1: CRLF ends a line, and none is longer than 75 octets."""
    zoning.draw_zone(job, range(100), "a long name of a zone with ü and ä, and with; signs, too")
    set_all(job)
    data = calendar_file(job)
    lines = data.split(b"\r\n")
    assert b"\n" not in b"".join(lines)
    assert max(map(len, lines)) <= 75
    assert any("with; signs, too" in e.summary.value for e in events_of(data).values())


def test_uids_stay_while_moments_move(job, clock, store):
    zone = whole_panel(job)
    set_all(job)
    before = events_of(calendar_file(job))
    clock.advance(40 * 24 * HOUR_S)
    grout_zone(job, zone)
    set_grouting(job, seal_h=90)
    again = events_of(calendar_file(Job(store, clock, job.panel_id)))
    common = before.keys() & again.keys()
    assert {again[uid].summary.value for uid in common} == {"grid: Seal the panel", "grid: May hang outdoors"}
    for uid in common:
        assert again[uid].dtstart.value != before[uid].dtstart.value
        assert int(again[uid].sequence.value) > int(before[uid].sequence.value)


def test_two_panels_share_no_uid(store, clock):
    jobs = [open_panel(store, clock, grid_svg(4, 4), f"{name}.svg") for name in ("one", "two")]
    for job in jobs:
        hard_at_once(job)
    one, two = (events_of(calendar_file(job)).keys() for job in jobs)
    assert one
    assert one.isdisjoint(two)


def test_a_panel_that_hangs_has_an_empty_calendar(job, clock):
    harden(job)
    grout_zone(job, whole_panel(job))
    clock.advance(100 * HOUR_S)
    inking.hang(job, "indoors")
    read = vobject.readOne(calendar_file(job).decode())
    assert not hasattr(read, "vevent")
    assert read.prodid.value


def test_the_file_is_written_into_a_folder_that_is_made_and_what_cannot_be_is_told(job, tmp_path):
    path = write_calendar(job, tmp_path / "documents" / "deep")
    assert path.name == "grid.ics"
    assert vobject.readOne(path.read_text()).version.value == "2.0"
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(CannotWrite, match="cannot be written"):
        write_calendar(job, tmp_path / "file")
