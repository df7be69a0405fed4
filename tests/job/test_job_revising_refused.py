"""A revised drawing that cannot be, or comes at the wrong moment, is told in one line and touches nothing."""

import copy

import pytest

from bench.drawing.faults import DrawingFault, NotWrittenWhole, PageDiffers
from bench.drawing.svg import read_drawing
from bench.job.acts import cup, dry, record, revising
from bench.job.cup_faults import CupInUse
from bench.job.faults import UnknownAdhesive, WrongOrder
from bench.job.revised_words import pieces_told
from tests.fakes.drawings import grid_svg
from tests.fakes.revisions import wants_adhesive, yellow_from


def test_an_adhesive_that_nobody_has_is_refused(begun):
    seq = begun.store.last_seq(begun.panel_id)
    odd = wants_adhesive(begun, "no-such-paste")
    with pytest.raises(UnknownAdhesive) as caught:
        revising.try_revise(begun, odd, "odd.svg")
    assert caught.value.name == "no-such-paste"
    assert begun.store.last_seq(begun.panel_id) == seq


@pytest.mark.parametrize("data", [b"", b"not a drawing", b"<svg/>", grid_svg(3, 3), b"\xff" * 90])
def test_what_is_wrong_with_the_drawing_is_told_and_nothing_touched(begun, data):
    state, panel = copy.deepcopy(begun.state), begun.panel
    with pytest.raises(DrawingFault) as caught:
        revising.try_revise(begun, data, "odd.svg")
    assert caught.value.name == "odd.svg"
    assert begun.state == state
    assert begun.panel is panel


def test_another_page_is_refused(begun):
    with pytest.raises(PageDiffers):
        revising.try_revise(begun, grid_svg(24, 11), "odd.svg")


def test_a_drawing_of_the_same_proportion_is_brought_to_the_panels_size(begun):
    tried = revising.try_revise(begun, yellow_from(8, pitch_mm=14.0, joint_mm=1.6), "large.svg")
    assert tried.scaled
    assert tried.panel.width_mm == pytest.approx(168)
    assert (tried.events[0].gone, tried.events[0].added) == (0, 0)
    assert "brought to the panel's 168 × 84 mm" in " ".join(pieces_told(tried))


def test_a_panel_that_would_not_read_back_whole_is_refused(begun, monkeypatch):
    few = read_drawing(grid_svg(24, 11, page_mm=(168, 84)), "few")
    monkeypatch.setattr(revising, "read_drawing", lambda data, name: few)
    with pytest.raises(NotWrittenWhole) as caught:
        revising.try_revise(begun, yellow_from(8), "odd.svg")
    assert (caught.value.count, caught.value.read) == (288, 264)


def test_nothing_is_revised_while_a_mix_is_made_or_runs(begun):
    tried = revising.try_revise(begun, yellow_from(8), "second.svg")
    acts = (
        lambda: revising.try_revise(begun, yellow_from(8), "second.svg"),
        lambda: revising.revise(begun, tried),
    )
    mix = cup.open_mix(begun, 2, 21.0)
    for act in acts:
        with pytest.raises(CupInUse):
            act()
    cup.acknowledge(begun, mix)
    cup.first_contact(begun, mix)
    for act in acts:
        with pytest.raises(WrongOrder, match="a mix runs"):
            act()


def test_what_was_tried_is_refused_where_the_book_has_moved_on(begun):
    tried = revising.try_revise(begun, yellow_from(8), "second.svg")
    dry.lay(begun, begun.state.with_stage("drawn")[0].number)
    before = copy.deepcopy(begun.state)
    with pytest.raises(WrongOrder, match="moved on"):
        revising.revise(begun, tried)
    assert begun.state == before
    record.undo(begun)
    with pytest.raises(WrongOrder, match="moved on"):
        revising.revise(begun, tried)
