"""The counted pieces decide: how many to leave for the promise, and where."""

import numpy as np
import pytest

from bench.job.acts import dry
from bench.job.dry_count import judged, mixes_of
from bench.job.ground import edge_strip, open_side, section_numbers, side_of
from bench.job.state import Section
from bench.pace.capacity import WorkingTimeTooShort


def test_as_drawn_a_section_fits_and_nothing_is_left(job):
    section = job.state.with_stage("drawn")[0]
    found = judged(job, section.number, len(section.tesserae))
    assert found.fits
    assert (found.leave, found.strip, found.edge_cm, found.mixes) == (0, (), 0.0, 1)


def test_of_too_many_the_rest_keeps_the_promise_and_is_as_large_as_it_may_be(job):
    section = job.state.with_stage("drawn")[0]
    pieces = len(section.tesserae) + 30
    found = judged(job, section.number, pieces)
    assert not found.fits
    fits = pieces - found.leave
    share = len(section.tesserae) / pieces  # the bed of what is left goes with it
    assert found.in_time == pytest.approx(dry.in_time(job, section, pieces=pieces), abs=1e-6)
    assert 0 < fits < pieces
    assert found.mixes == 2
    assert len(found.strip) == pytest.approx(found.leave * share, abs=1)


def test_where_not_one_piece_is_sure_there_is_nothing_to_leave_and_no_mix_to_split_into(job):
    dry.lay(job, 1)
    job.write(job.state.bench.model_copy(update={"pace_per_min": 0.02}))
    found = judged(job, 1, job.section(1).piece_count)
    assert (found.fits, found.mixes, found.strip) == (False, 0, ())
    assert found.in_time < 0.01
    assert mixes_of(job, 1) == ()
    with pytest.raises(WorkingTimeTooShort, match="whether the pace is right"):
        dry.split(job, 1)


def test_the_strip_lies_along_the_edge_to_bare_ground(job):
    section = job.state.with_stage("drawn")[0]
    found = judged(job, section.number, len(section.tesserae) + 30)
    numbers, pair = section_numbers(job), job.panel.joints.pair
    facing = {a if numbers[a] == section.number else b for a, b in pair.tolist() if numbers[a] != numbers[b]}
    at_edge = np.mean([t in facing for t in found.strip])
    inside = [t for t in section.tesserae if t not in found.strip]
    assert at_edge > np.mean([t in facing for t in inside])
    assert found.edge_cm > 0


def test_the_side_is_named_as_the_panel_hangs(job):
    """Of 24 × 12 tesserae all in one section: the first row lies at the top, y pointing down."""
    whole = Section(1, "white-paste", tuple(range(24 * 12)), 0.0, 0.0, 1.0)
    x, y = job.panel.centroid_mm.T
    sides = {
        "upper": np.argsort(y, kind="stable")[:24],
        "lower": np.argsort(-y, kind="stable")[:24],
        "left": np.argsort(x, kind="stable")[:12],
        "right": np.argsort(-x, kind="stable")[:12],
    }
    for side, tesserae in sides.items():
        assert side_of(job, whole, tesserae.tolist()) == side
    around = np.flatnonzero((x < x.min() + 1) | (x > x.max() - 1) | (y < y.min() + 1) | (y > y.max() - 1))
    assert side_of(job, whole, around.tolist()) == side_of(job, whole, ()) == "open"


def test_the_quick_side_is_that_of_the_strip_but_for_a_section_open_on_two(job):
    alike = []
    for section in job.state.with_stage("drawn"):
        strip = edge_strip(job, section, len(section.tesserae) // 4)
        alike.append(open_side(job, section, 0.25) in (side_of(job, section, strip), "open"))
    assert len(alike) >= 4
    assert sum(alike) >= len(alike) - 1
