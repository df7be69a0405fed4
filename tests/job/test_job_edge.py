"""The edge of what is set: kept in the book with its photo, and shown by the templates that follow."""

import numpy as np
import pytest

from bench.drawing.dry import as_kept
from bench.drawing.photo import read_picture
from bench.job.acts import edge, record
from bench.job.faults import EdgeTooShort, NothingSet
from bench.job.fold import fold
from bench.job.templates import edges_now_mm, panel_sheets
from bench.job.words import book_lines
from tests.fakes.benches import set_section
from tests.fakes.edges import flat_of, photo_of_set

LINE = np.array([[5.0, 5.0], [30.0, 8.0], [60.0, 4.0]])
QUAD = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))


def keep(job, lines=(LINE,), data=b"a photo", found=True):
    edge.trace(job, data, corner_px=QUAD, frame=edge.task_for(job).frame, lines_mm=list(lines), found=found)


def test_before_anything_is_set_there_is_no_edge(job):
    with pytest.raises(NothingSet, match="set a section first"):
        edge.task_for(job)


def test_an_edge_is_kept_with_its_photo_told_in_the_book_and_taken_back(begun):
    keep(begun)
    assert begun.state.edge.sections == (1,)
    assert begun.store.blob(begun.state.edge.photo) == b"a photo"
    assert fold(begun.store.events(begun.panel_id)) == begun.state
    assert book_lines(begun)[0].text == "Edge of what is set found in a photo: 6 cm"
    record.undo(begun)
    assert begun.state.edge is None
    assert edges_now_mm(begun) == ()


def test_a_later_edge_takes_the_place_of_the_one_before(begun):
    keep(begun)
    keep(begun, [LINE + 2.0], found=False)
    assert begun.state.edge.lines_mm[0][0] == (7.0, 7.0)
    assert "drawn by finger" in book_lines(begun)[0].text


@pytest.mark.parametrize("lines", [[], [LINE[:1]], [np.array([[1.0, 1.0], [2.0, 1.0]])]])
def test_a_line_too_short_is_refused_and_nothing_is_kept(begun, lines):
    seq = begun.store.last_seq(begun.panel_id)
    with pytest.raises(EdgeTooShort, match="draw along the edge"):
        keep(begun, lines)
    assert begun.store.last_seq(begun.panel_id) == seq


def test_a_very_long_line_is_kept_with_fewer_points_from_end_to_end(begun):
    x = np.linspace(0, 150, 20_000)
    keep(begun, [np.stack([x, 40 + np.sin(x)], axis=1)])
    (line,) = begun.state.edge.lines_mm
    assert len(line) <= edge.MOST_POINTS
    assert (line[0][0], line[-1][0]) == (0.0, 150.0)


def test_the_template_of_the_next_section_shows_the_edge_beside_ground_that_is_bare(begun):
    task = edge.task_for(begun)
    photo = photo_of_set(begun.panel, task.tesserae.tolist())
    lines = edge.look(flat_of(photo), task)
    kept = as_kept(read_picture(photo.data, "set.jpg"))
    edge.trace(begun, kept, corner_px=photo.corner_px, frame=task.frame, lines_mm=lines, found=True)
    beside = next(n for n in sorted(begun.state.sections) if n > 2)
    (sheet, *_) = panel_sheets(begun, [beside])
    assert sheet.edges_mm
    assert any("the edge as set, photographed on" in line for line in sheet.legend)
    for line in edges_now_mm(begun):
        assert (line >= 0).all()


def test_where_the_ground_beside_it_was_set_since_the_edge_is_no_longer_shown(job):
    set_section(job, 1)
    keep(job, [np.array([[1.0, 1.0], [8.0, 1.0]])])
    before = edges_now_mm(job)
    job.clock.advance(2 * 86_400)
    for number in sorted(job.state.sections):
        if job.section(number).stage == "drawn":
            set_section(job, number)
            job.clock.advance(2 * 86_400)
    assert edges_now_mm(job) == ()
    assert isinstance(before, tuple)
