"""The one sentence at the glue-up: how many more will fit from the time alone, and better with each count."""

import pytest

from bench.job.acts import glueup
from bench.job.glue_sheet import glue_sheet, stringy_words
from tests.fakes.benches import start_mix


@pytest.fixture
def mix(job):
    """Section 1 as its setting begins."""
    mix = start_mix(job, 1)
    job.clock.advance(120)
    glueup.begin_step(job, mix, "set")
    return mix


def test_from_the_time_alone_it_says_how_many_more_will_fit(job, mix):
    told = []
    for _ in range(3):
        sheet = glue_sheet(job, mix)
        told.append(sheet.likely_more)
        assert sheet.advice == f"Set the pieces: about {sheet.likely_more} more will fit."
        job.clock.advance(180)
    assert told[0] > told[1] > told[2] > 0


def test_a_slow_count_says_which_edge_to_leave_while_there_is_time_to(job, mix):
    job.clock.advance(480)
    before = glue_sheet(job, mix)
    glueup.count(job, mix, 15)
    sheet = glue_sheet(job, mix)
    assert before.leave < sheet.leave
    assert sheet.left_s > 600
    assert sheet.likely_more + sheet.leave == job.section(1).piece_count - 15
    start, _, rest = sheet.advice.partition(" edge, about ")
    assert start.removeprefix("Leave the ") in ("upper", "lower", "left", "right", "open")
    assert rest == f"{sheet.leave} pieces: {sheet.likely_more} more will fit."


def test_a_quick_count_takes_the_warning_back(job, mix):
    job.clock.advance(480)
    glueup.count(job, mix, 15)
    job.clock.advance(60)
    glueup.count(job, mix, 55)
    sheet = glue_sheet(job, mix)
    assert (sheet.leave, sheet.likely_more) == (0, job.section(1).piece_count - 55)


def test_at_stringy_the_words_are_those_of_the_trade(job, mix):
    """Common practice, no source: what is stringy no longer wets the glass; nothing brings it back."""
    glueup.stringy(job, mix)
    said = glue_sheet(job, mix).advice
    assert said == stringy_words()
    said = said.lower()
    for words in ("stop setting", "scrape the empty bed", "wipe the backs", "on the film", "never thin"):
        assert words in said
