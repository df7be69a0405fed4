"""A revised drawing over a panel: what is kept is untouched, and shapely judges what lies on what."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.drawing.across import SLIVER, shared_across
from bench.drawing.faults import PageDiffers, TooManyShapes, TooTangled
from bench.drawing.onto import read_onto
from bench.drawing.overlaps import SHARE
from bench.drawing.revised import AS_IT_WAS, SAME_PLACE, revised
from bench.drawing.svg import read_drawing
from bench.drawing.svg_out import write_svg
from tests.fakes.drawings import grid_svg
from tests.fakes.shapes import page, polygons_of, read, square, svg_of, voronoi

EXACT = {"rtol": 0, "atol": 0}


def panel_of(seed, count, width_mm=60.0, height_mm=50.0):
    cells = voronoi(count, width_mm=width_mm, height_mm=height_mm, seed=seed)
    return read_drawing(svg_of(cells, width_mm, height_mm), f"seed {seed}")


def all_kept(panel, kept=True):
    return np.full(panel.tessera_count, kept)


@st.composite
def second_thoughts(draw):
    """Return a panel, what of it is kept, and another drawing of its page, more or less alike."""
    seed, count = draw(st.integers(0, 10_000)), draw(st.integers(3, 40))
    old = panel_of(seed, count)
    kept = np.random.default_rng(seed).random(old.tessera_count) < draw(st.sampled_from([0.0, 0.3, 0.7, 1.0]))
    if draw(st.booleans()):
        return old, kept, panel_of(draw(st.integers(0, 10_000)), draw(st.integers(3, 40)))
    shift = draw(st.floats(0, 3))
    moved = [shapely.affinity.translate(p, shift, 0) if k % 3 else p for k, p in enumerate(polygons_of(old))]
    return old, kept, read_drawing(svg_of(moved, 60.0, 50.0), "moved")


@settings(max_examples=60, deadline=None)
@given(second_thoughts())
def test_what_is_kept_is_unchanged_to_the_last_bit_and_nothing_new_lies_over_it(thought):
    old, kept, new = thought
    found = revised(old, kept, new)
    for i in np.flatnonzero(kept).tolist():
        k = found.to_new[i]
        assert [r.tobytes() for r in found.panel.rings_mm(k)] == [r.tobytes() for r in old.rings_mm(i)]
        assert found.panel.ids[k] == old.ids[i]
        for name in ("area_mm2", "centroid_mm", "colour", "glass"):
            np.testing.assert_allclose(getattr(found.panel, name)[k], getattr(old, name)[i], **EXACT)
    pieces = np.array(polygons_of(found.panel))
    stays = np.isin(np.arange(len(pieces)), found.to_new[kept])
    tree = shapely.STRtree(pieces[stays])
    fresh, over = tree.query(pieces[~stays], predicate="intersects")
    one, other = pieces[~stays][fresh], pieces[stays][over]
    shared = shapely.area(shapely.intersection(one, other))
    assert (shared <= SHARE * np.minimum(shapely.area(one), shapely.area(other)) + 1e-6).all()


@settings(max_examples=60, deadline=None)
@given(second_thoughts())
def test_every_piece_of_either_drawing_is_accounted_for_once(thought):
    old, kept, new = thought
    found = revised(old, kept, new)
    kinds = np.stack([found.kept, found.same, found.recoloured, found.reshaped, found.gone])
    assert (kinds.sum(axis=0) == 1).all()
    places = [*found.to_new[found.to_new >= 0].tolist(), *found.added.tolist()]
    assert sorted(places) == list(range(found.panel.tessera_count))
    fresh = found.panel.tessera_count - int(kept.sum())
    assert fresh + len(found.left_out) + int((kept & ~found.unlike).sum()) == new.tessera_count


@settings(max_examples=40, deadline=None)
@given(second_thoughts())
def test_matches_are_those_that_shapely_finds(thought):
    """Share of the union by shapely, an independent library, decides what is in the same place."""
    old, kept, new = thought
    found = revised(old, kept, new)
    a, b = polygons_of(old), polygons_of(found.panel)
    for i in np.flatnonzero(~kept).tolist():
        alike = [a[i].intersection(q).area / a[i].union(q).area for q in b]
        for k in found.to_new[kept].tolist():
            alike[k] = 0.0
        best = max(alike, default=0.0)
        if abs(best - SAME_PLACE) > 1e-3 and abs(best - AS_IT_WAS) > 1e-3:
            assert (found.to_new[i] >= 0) == (best > SAME_PLACE)
            assert found.same[i] == (best >= AS_IT_WAS)
            if best > SAME_PLACE:
                assert alike[found.to_new[i]] == pytest.approx(best, abs=1e-3)


@settings(max_examples=40, deadline=None)
@given(second_thoughts())
def test_areas_shared_are_those_that_shapely_measures(thought):
    old, _, new = thought
    across = shared_across(old, new, all_kept(old))
    a, b = polygons_of(old), polygons_of(new)
    told = dict(zip(map(tuple, across.pair.tolist()), across.shared_mm2.tolist(), strict=True))
    for i, p in enumerate(a):
        for j, q in enumerate(b):
            exact = p.intersection(q).area
            if (i, j) in told:
                assert told[i, j] == pytest.approx(exact, abs=2e-3)
            else:
                assert exact <= 2 * SLIVER * min(p.area, q.area)


@settings(max_examples=25, deadline=None)
@given(second_thoughts())
def test_written_and_read_again_it_is_the_same_panel_in_the_same_order(thought):
    old, kept, new = thought
    panel = revised(old, kept, new).panel
    again = read_drawing(write_svg(panel), "again")
    assert again.ids == panel.ids
    np.testing.assert_allclose(again.points_mm, panel.points_mm, rtol=0, atol=1e-5)
    twice = read_drawing(write_svg(again), "again")
    np.testing.assert_allclose(twice.points_mm, again.points_mm, rtol=0, atol=1e-9)


def test_the_panel_s_own_drawing_changes_nothing():
    old = panel_of(3, 30)
    kept = np.arange(old.tessera_count) % 2 == 0
    found = revised(old, kept, old)
    assert found.same.sum() == (~kept).sum()
    assert not found.unlike.any()
    assert (len(found.added), len(found.left_out), found.reaching) == (0, 0, 0)
    assert sorted(found.panel.ids) == sorted(old.ids)


@pytest.mark.parametrize(
    ("attributes", "kind"),
    [
        ('fill="#222222"', "recoloured"),
        ('fill="#111111" data-glass="clear"', "recoloured"),
        ('fill="#111111" data-adhesive="clear-slow"', "recoloured"),
        ('fill="#111111" data-board="left"', "recoloured"),
        ('fill="#111111" id="another"', "same"),
    ],
)
def test_other_glass_in_the_same_place_is_a_change_and_another_name_is_none(attributes, kind):
    old = read(square(10, 10, 10, 'fill="#111111" id="a"'))
    found = revised(old, all_kept(old, False), read(square(10, 10, 10, attributes)))
    assert [name for name in ("same", "recoloured", "reshaped") if getattr(found, name)[0]] == [kind]


@pytest.mark.parametrize(
    ("moved_mm", "kind"), [(0.3, "same"), (1.0, "reshaped"), (3.0, "reshaped"), (4.0, "gone")]
)
def test_a_piece_of_10_mm_moved_is_the_same_changed_or_gone_by_how_far(moved_mm, kind):
    """Two squares shifted by s share (10 − s) of (10 + s): 0.94, 0.82, 0.54 and 0.43."""
    old = read(square(10, 10, 10))
    found = revised(old, all_kept(old, False), read(square(10 + moved_mm, 10, 10)))
    assert [name for name in ("same", "recoloured", "reshaped", "gone") if getattr(found, name)[0]] == [kind]
    assert len(found.added) == (kind == "gone")


@pytest.mark.parametrize(
    ("over_mm", "reaching", "left_out"), [(0.05, 0, 0), (0.2, 1, 0), (0.45, 1, 0), (0.6, 0, 1), (8, 0, 1)]
)
def test_a_new_piece_that_reaches_over_what_is_kept_stays_up_to_a_twentieth(over_mm, reaching, left_out):
    old = read(square(10, 10, 10))
    found = revised(old, all_kept(old), read(square(20 - over_mm, 10, 10)))
    assert (found.reaching, len(found.left_out)) == (reaching, left_out)
    assert found.panel.tessera_count == 2 - left_out


def test_a_new_piece_that_takes_a_little_of_each_of_many_is_left_out_all_the_same():
    old = read("".join(square(x, 10, 10) for x in (0, 11, 22, 33)))
    big = '<path d="M0,19.6h43v9.8h-43z"/>'  # 4 % of each below it, and 3.8 % of itself
    assert len(revised(old, all_kept(old), read(big)).left_out) == 0
    thin = '<path d="M0,19.6h43v4.4h-43z"/>'  # the same of each, and 8 % of itself
    assert len(revised(old, all_kept(old), read(thin)).left_out) == 1


def test_a_small_kept_piece_is_not_buried_under_a_large_one():
    old = read(square(40, 40, 2))
    found = revised(old, all_kept(old), read(square(10, 10, 80)))
    assert found.left_out.tolist() == [0]
    assert found.panel.ids == old.ids


def test_kept_pieces_keep_their_names_and_new_ones_take_others():
    old = read(square(10, 10, 10, 'id="a"') + square(30, 10, 10, 'id="b"'))
    new = read(square(50, 10, 10, 'id="a"') + square(30, 10, 10, 'id="b"'))
    found = revised(old, np.array([True, False]), new)
    assert found.panel.ids == ("a", "a-2", "b")
    assert found.to_new.tolist() == [0, 2]


def test_groups_of_one_name_are_one_and_their_pieces_stand_together():
    def named(x, y):
        return f'<g id="leaf">{square(x, y, 10)}</g>'

    old = read(named(10, 10) + square(30, 10, 10))
    new = read(square(70, 10, 10) + named(50, 50))
    found = revised(old, np.array([True, True]), new)
    assert found.panel.group_names == ("leaf",)
    assert found.panel.group.tolist() == [0, 0, -1, -1]
    assert found.to_new.tolist() == [0, 2]


def test_holes_stay_holes_and_boards_stay_boards():
    ring = '<path id="ring" fill-rule="evenodd" d="M10,10h30v30h-30z M20,20h10v10h-10z" data-board="left"/>'
    old = read(ring)
    found = revised(old, all_kept(old), read(square(22, 22, 6, 'id="in"')))
    assert found.panel.ids == ("ring", "in")
    assert found.panel.board == ("left", "")
    assert [len(found.panel.rings_mm(k)) for k in (0, 1)] == [2, 1]


def test_page_and_outline_are_the_new_drawings():
    outline = '<path data-panel-outline="1" fill="none" d="M5 5h90v80h-90z"/>'
    old = read(square(10, 10, 10))
    found = revised(old, all_kept(old), read(outline + square(30, 10, 10)))
    assert found.panel.outline_area_mm2 == pytest.approx(7200)
    assert len(found.panel.outline_mm) == 1


def test_pieces_heaped_beyond_measure_are_told_as_tangled(monkeypatch):
    old = read("".join(square(x, 10, 5) for x in (10, 20)))
    heap = replace(old, name="heap.svg")
    monkeypatch.setattr("bench.drawing.boxes._MOST_PAIRS", 1)
    with pytest.raises(TooTangled) as caught:
        revised(old, all_kept(old), heap)
    assert caught.value.name == "heap.svg"


def test_together_they_may_not_be_more_than_can_be_read(monkeypatch):
    monkeypatch.setattr("bench.drawing.merged.MOST_TESSERAE", 3)
    old = read("".join(square(x, 10, 5) for x in (10, 20)))
    new = read("".join(square(x, 50, 5) for x in (10, 20)))
    with pytest.raises(TooManyShapes):
        revised(old, all_kept(old), new)


@pytest.mark.parametrize(
    ("page_mm", "scaled"), [((70.0, 35.0), False), ((70.4, 35.3), False), ((140.0, 70.0), True)]
)
def test_a_page_of_the_panels_size_or_proportion_is_laid_over_it(page_mm, scaled):
    old = read_drawing(grid_svg(10, 5), "old")
    width, height = page_mm
    data = grid_svg(10, 5, pitch_mm=14.0 if scaled else 7.0, joint_mm=1.6 if scaled else 0.8, page_mm=page_mm)
    new, was_scaled = read_onto(data, "new", old)
    assert was_scaled == scaled
    wanted = (old.width_mm, old.height_mm) if scaled else (width, height)
    assert (new.width_mm, new.height_mm) == pytest.approx(wanted)
    assert revised(old, all_kept(old, False), new).same.all()


@pytest.mark.parametrize("page_mm", [(70.0, 40.0), (60.0, 35.0), (35.0, 70.0), (70.0, 35.8)])
def test_another_page_is_refused_with_both_sizes(page_mm):
    old = read_drawing(grid_svg(10, 5), "old")
    with pytest.raises(PageDiffers) as caught:
        read_onto(grid_svg(10, 5, page_mm=page_mm), "new.svg", old)
    assert caught.value.size_mm == page_mm
    assert "70.0 × 35.0" in str(caught.value)


def test_a_drawing_without_a_page_is_never_scaled():
    old = read_drawing(grid_svg(10, 5), "old")
    loose = page(square(0, 0, 70) + square(70, 0, 70), size="")
    assert read_drawing(loose, "x", width_mm=70).height_mm == pytest.approx(35)
    with pytest.raises(PageDiffers):
        read_onto(loose, "loose.svg", old)


def test_a_whole_foot_square_is_matched_piece_by_piece():
    old = panel_of(1, 2000, 304.8, 304.8)
    colour = old.colour.copy()
    colour[::7] ^= 255
    found = revised(old, old.centroid_mm[:, 0] < 100, replace(old, colour=colour))
    bare = old.centroid_mm[:, 0] >= 100
    odd = np.arange(old.tessera_count) % 7 == 0
    assert (found.recoloured == (bare & odd)).all()
    assert (found.same == (bare & ~odd)).all()
    assert (found.unlike == (~bare & odd)).all()
    assert len(found.left_out) == (~bare & odd).sum()
