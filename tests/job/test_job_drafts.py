"""A draft is kept at every step, gone on with, dropped, brought back, and ends as a panel of the book."""

import json
import sqlite3
from contextlib import closing

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.book import Store
from bench.book.faults import Damaged, NoSuchDraft
from bench.book.files import BOOK_NAME
from bench.drawing.faults import NoTesserae
from bench.drawing.lines import LineHow, Stroke
from bench.drawing.photo import Picture, whole
from bench.drawing.photo.faults import CornersCross
from bench.drawing.svg import read_drawing
from bench.job import drafts as d
from bench.job.faults import DraftUnreadable, SizeNotTold
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

PHOTO = Picture(np.zeros((300, 400, 3), np.uint8), None, "lemons.jpg")
SCAN = Picture(np.zeros((300, 400, 3), np.uint8), 0.5, "lemons.png")
SEEN = ((10.0, 20.0), (390.0, 10.0), (380.0, 290.0), (20.0, 280.0))


def begun(store, clock, name="lemons.jpg", data=b"picture"):
    return d.begin_draft(store, clock, name, data)


def test_a_draft_comes_back_as_it_was_left_after_the_book_was_closed(tmp_path, clock):
    said = d.Draft(
        name="lemons.jpg",
        step="lines",
        turned=3,
        lighten=-2,
        corner_px=SEEN,
        width_mm=300.5,
        height_mm=200,
        kind="lines",
        lines=LineHow(gap_mm=2.5),
        strokes=(Stroke(points_mm=((1, 2), (3.25, 4))),),
        colours="study.png",
    )
    with Store.open(tmp_path) as store:
        draft_id = begun(store, clock)
        d.keep_draft(store, clock, draft_id, said)
        d.keep_colours(store, draft_id, b"study")
    with Store.open(tmp_path) as store:
        assert d.draft_of(store, draft_id) == said
        assert d.file_of(store, draft_id) == b"picture"
        assert d.file_of(store, draft_id, d.COLOURS) == b"study"
        d.keep_colours(store, draft_id, None)
        assert d.file_of(store, draft_id, d.COLOURS) is None


def test_drafts_are_listed_the_one_worked_on_last_first(store, clock):
    first, second = begun(store, clock, "a.png"), begun(store, clock, "b.png")
    clock.advance(60)
    d.keep_draft(store, clock, first, d.Draft(name="a.png"))
    assert [(kept.draft_id, kept.name) for kept in d.drafts(store)] == [(first, "a.png"), (second, "b.png")]


def test_the_same_file_begun_twice_is_one_draft(store, clock):
    first = begun(store, clock)
    d.keep_draft(store, clock, first, d.Draft(name="lemons.jpg", lighten=2))
    assert begun(store, clock) == first
    assert d.draft_of(store, first).lighten == 2
    assert begun(store, clock, data=b"another picture") != first


def test_a_dropped_draft_leaves_nothing_and_can_be_brought_back(store, clock):
    draft_id = begun(store, clock)
    said = d.Draft(name="lemons.jpg", turned=1)
    d.keep_draft(store, clock, draft_id, said)
    dropped = d.drop_draft(store, draft_id)
    assert d.drafts(store) == []
    assert d.file_of(store, draft_id) is None
    for act in (
        lambda: d.draft_of(store, draft_id),
        lambda: d.drop_draft(store, draft_id),
        lambda: d.keep_draft(store, clock, draft_id, said),
        lambda: d.keep_colours(store, draft_id, b"study"),
    ):
        with pytest.raises(NoSuchDraft):
            act()
    again = d.bring_back(store, clock, dropped)
    assert (d.draft_of(store, again), d.file_of(store, again)) == (said, b"picture")


@pytest.mark.parametrize("body", ["", "{", '{"name": "a", "added": 1}', '{"name": "a", "turned": 9}'])
def test_a_draft_that_cannot_be_read_is_told_and_its_picture_stays(store, clock, body):
    draft_id = begun(store, clock)
    store.drafts.change(draft_id, body, clock.utc())
    with pytest.raises(DraftUnreadable) as caught:
        d.draft_of(store, draft_id)
    assert "lemons.jpg" in str(caught.value)
    assert d.file_of(store, draft_id) == b"picture"


def test_a_picture_that_changed_in_the_book_is_told(tmp_path, clock):
    with Store.open(tmp_path) as store:
        draft_id = begun(store, clock)
    with closing(sqlite3.connect(tmp_path / BOOK_NAME)) as connection, connection:
        connection.execute("UPDATE draft_file SET data = 'other'")
    with Store.open(tmp_path) as store, pytest.raises(Damaged, match="draft"):
        d.file_of(store, draft_id)


# -- what a draft says ----------------------------------------------------------------------------------


def test_strokes_stay_unless_the_picture_under_them_moves():
    stroke = Stroke(points_mm=((1, 2), (3, 4)))
    said = d.Draft(name="a", corner_px=SEEN, width_mm=300, height_mm=200, strokes=(stroke,))
    assert said.changed(lighten=2, step="lines", corner_px=SEEN).strokes == (stroke,)
    for moves in ({"width_mm": 301}, {"corner_px": whole((400, 300))}, {"turned": 1}):
        assert said.changed(**moves).strokes == ()


@given(st.integers(0, 3), st.integers(0, 3))
def test_turning_takes_corners_and_size_along(first, more):
    said = d.Draft(name="a", turned=first, corner_px=SEEN, width_mm=300, height_mm=200)
    size = said.size_px(PHOTO)
    turned = said.turned_by(more, size)
    assert turned.turned == (first + more) % 4
    assert (turned.width_mm, turned.height_mm) == ((300, 200) if more % 2 == 0 else (200, 300))
    back = turned.turned_by(4 - more, turned.size_px(PHOTO))
    assert np.allclose(back.corner_px, SEEN)
    assert back.size_px(PHOTO) == size


def test_a_whole_picture_stays_whole_when_it_is_turned():
    said = d.Draft(name="a", corner_px=whole((400, 300)))
    assert said.is_whole(PHOTO)
    assert said.turned_by(1, (400, 300)).is_whole(PHOTO)
    assert not said.changed(corner_px=SEEN).is_whole(PHOTO)


def test_of_a_whole_picture_one_side_follows_from_the_other():
    said = d.Draft(name="a", corner_px=whole((400, 300)))
    assert said.size_mm(PHOTO) == (None, None)
    assert said.changed(width_mm=200).size_mm(PHOTO) == (200, 150)
    assert said.changed(height_mm=75).size_mm(PHOTO) == (100, 75)


def test_a_scanner_proposes_the_size_and_the_maker_decides():
    said = d.Draft(name="a", corner_px=((0, 0), (200, 0), (200, 100), (0, 100)))
    assert said.size_mm(SCAN) == (100, 50)
    assert said.changed(width_mm=98.5).size_mm(SCAN) == (98.5, 50)
    assert said.changed(corner_px=whole((400, 300))).size_mm(SCAN) == (200, 150)


def test_corners_begin_within_the_picture_and_make_a_legal_rectangle():
    said = d.Draft(name="a", width_mm=300, height_mm=200)
    corners = np.array(said.corners_in(PHOTO))
    assert (corners.min(axis=0) > 0).all()
    assert (corners.max(axis=0) < (400, 300)).all()
    assert said.ready(PHOTO).pixels.shape[1] > 0


def test_a_photo_whose_size_nobody_told_and_crossed_corners_are_named():
    with pytest.raises(SizeNotTold):
        d.Draft(name="a").ready(PHOTO)
    crossed = (SEEN[1], SEEN[0], SEEN[2], SEEN[3])
    with pytest.raises(CornersCross):
        d.Draft(name="a", corner_px=crossed, width_mm=300, height_mm=200).ready(PHOTO)


@pytest.mark.parametrize("said", [{"turned": 4}, {"lighten": 99}, {"width_mm": 0}, {"corner_px": ((0, 0),)}])
def test_a_draft_holds_nothing_that_cannot_be(said):
    with pytest.raises(ValueError, match="validation error"):
        d.Draft(name="a").changed(**said)


@pytest.mark.parametrize(("size", "step"), [((400, 300), 1), ((3000, 4000), 4), ((16, 16), 1)])
def test_a_nudge_is_a_thousandth_and_at_least_a_pixel(size, step):
    assert d.nudge_px(size) == step


# -- becoming a panel -----------------------------------------------------------------------------------


def test_an_accepted_draft_is_a_panel_of_the_book_and_no_draft_any_more(store, clock):
    draft_id = begun(store, clock)
    found = read_drawing(grid_svg(5, 4), "found")
    job = d.accept_draft(store, clock, draft_id, found)
    assert d.drafts(store) == []
    assert (job.state.name, job.state.drawing_name) == ("lemons", "lemons.svg")
    assert job.panel.tessera_count == 20
    again = type(job)(store, clock, job.panel_id)
    assert again.panel.ids == job.panel.ids
    assert again.panel.area_mm2 == pytest.approx(found.area_mm2, abs=0.01)


def test_what_cannot_become_a_panel_leaves_the_draft(store, clock, monkeypatch):
    draft_id = begun(store, clock)
    found = read_drawing(grid_svg(5, 4), "found")
    before = len(store.panels())
    monkeypatch.setattr(d, "write_svg", lambda panel: b"<svg width='9mm' height='9mm'/>")
    with pytest.raises(NoTesserae):
        d.accept_draft(store, clock, draft_id, found)
    assert len(d.drafts(store)) == 1
    assert len(store.panels()) == before


def test_settings_of_a_draft_are_plain_text_in_the_book(store):
    draft_id = begun(store, FakeClock())
    assert json.loads(store.drafts.row(draft_id).body)["name"] == "lemons.jpg"
