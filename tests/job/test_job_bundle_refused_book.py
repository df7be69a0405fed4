"""What a bundle tells must be able to have happened; else it ends in one line, and nothing is touched."""


import pytest

from bench.book import Store
from bench.book.bundle import faults
from bench.fault import Fault
from tests.fakes.bundles import changed


def on(kind, change):
    """Return a change of the lines of one kind of entry."""

    def of(line):
        return change(line) if line["event"]["kind"] == kind else None

    return of


BROKEN = {
    "no opening": on("panel_opened", lambda line: False),
    "another section": on("section_laid", lambda line: line["event"].update(section=999)),
    "another mix": on("mix_closed", lambda line: line["event"].update(mix=999)),
    "a piece that is not drawn": on("sections_drawn", lambda line: line["event"]["promises"][-1].update(
        tesserae=[10**6])),
    "a piece twice": on("sections_drawn", lambda line: line["event"]["promises"][-1].update(
        tesserae=[0, 0, 1])),
    "no divisions": on("sections_drawn", lambda line: False),
    "a file that is missing": on("dry_photographed", lambda line: line["event"].update(photo="0" * 64)),
    "a first contact without a zone": on("mix_closed", lambda line: line["event"].update(
        contact_utc="2026-05-04T09:00:00")),
    "a first contact before time": on("contact_made", lambda line: line["event"].update(back_dated_s=1e300)),
    "what is not a number": on("mix_closed", lambda line: line["event"].update(temperature_C=float("nan"))),
    "what has no end": on("mix_closed", lambda line: line["event"].update(label_s=float("inf"))),
    "an unknown kind": on("note_written", lambda line: line["event"].update(kind="new_kind")),
    "an unknown field": on("note_written", lambda line: line["event"].update(more=1)),
    "an act before time": on("note_written", lambda line: line.update(at_utc="0001-01-01T00:00:00+14:00")),
    "no time zone": on("note_written", lambda line: line.update(at_utc="2026-05-04T09:00:00")),
    "half a letter": on("note_written", lambda line: line["event"].update(text="\ud800")),
    "an empty act": on("note_written", lambda line: line.update(act="")),
    "an adhesive without a file": on("bench_set", lambda line: line["event"].update(adhesive="nobody's")),
}  # fmt: skip


@pytest.mark.parametrize("what", BROKEN)
def test_a_book_that_cannot_be_is_refused(refuse, good, what):
    refuse(changed(good, book=BROKEN[what]), Fault)


def test_what_is_taken_back_must_have_been_done(refuse, good):
    undo = {"kind": "act_undone", "version": 1, "undone_act_id": "never"}
    refuse(changed(good, book=on("note_written", lambda line: line.update(event=undo))), faults.BundleBroken)


def test_a_countdown_of_no_mix_is_refused(refuse, good):
    def more(told):
        told["countdowns"][0]["mix"] = "cure:77"

    refuse(changed(good, manifest=more), faults.BundleBroken)


def test_acts_of_another_panel_are_refused(refuse, good, tmp_path):
    """Acts that the book has on another panel cannot come again on this one."""
    with Store.open(tmp_path / "home", read_only=True) as store:
        known = store.events(1)[-1].act_id
    refuse(changed(good, book=on("note_written", lambda line: line.update(act=known))), faults.BundleBroken)
