"""Motifs, rows, and what cutting them costs."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
import shapely

from bench.drawing.lay import lay, panel_of_lay
from bench.sections.divide import best_division
from bench.sections.forms import HOW_DEAR, cut_cost, joint_kinds
from bench.sections.ground import ground_of
from bench.sections.measures import MEASURES, shape_quotient
from bench.sections.motifs import fitting_motifs, motifs
from bench.sections.rows import axes, row_joints
from tests.fakes.studies import one_square
from tests.tools.panels import Ground, Panel, lattice, panel, times_s


def laid(prefer: str, capacity: float = 70.0, seed: int = 3, forms: int = 6) -> tuple[Panel, Ground]:
    whole = panel("square", 700, seed, motifs=forms)
    times = times_s(whole, seed)
    ground = ground_of(
        whole,
        expected_s=times,
        adhesive=np.zeros(whole.tessera_count, np.int32),
        capacity_s=np.array([capacity * times.mean()]),
        prefer=prefer,
    )
    return whole, ground


def test_a_cut_costs_its_length_when_fewest_sections_are_wanted() -> None:
    _, ground = laid("fewest")
    assert ground.joint_mm.tolist() == ground.cut_cost.tolist()


def test_joints_are_dearer_in_the_order_of_the_table() -> None:
    whole, ground = laid("forms")
    kind = joint_kinds(whole, ground)
    price = np.array(list(HOW_DEAR.values()))
    assert cut_cost(whole, ground).tolist() == (ground.joint_mm * price[kind]).tolist()
    assert sorted(price.tolist()) == price.tolist()
    assert {0, 1, 3, 4} <= set(kind.tolist())


def test_no_motif_holds_two_colours_that_a_person_tells_apart() -> None:
    """The generated forms are yellow or pale on blue: far more than ΔE00 12 apart."""
    whole, ground = laid("forms")
    motif = motifs(whole, ground)
    yellow = whole.colour[ground.tessera][:, 0] > 200
    assert all(len(set(yellow[motif == m].tolist())) == 1 for m in np.unique(motif))


def test_a_group_of_the_drawing_is_a_motif_and_a_layer_is_none() -> None:
    whole, ground = laid("forms", forms=1)
    whole.group[:] = 0
    as_layer = motifs(whole, ground)
    whole.group[:] = -1
    assert as_layer.tolist() == motifs(whole, ground).tolist()
    whole.group[:40] = 1
    named = motifs(whole, ground)
    assert not set(named[:40].tolist()) & set(named[40:].tolist())


def test_a_motif_fits_when_its_time_is_within_the_capacity() -> None:
    whole, ground = laid("forms")
    motif = motifs(whole, ground)
    fits = fitting_motifs(ground, motif)
    load = np.bincount(motif, ground.expected_s)
    assert not fits[np.argmax(load)]
    assert all(load[m] <= ground.capacity_s[0] for m in np.flatnonzero(fits))
    assert fits.sum() >= 2


def test_the_long_axis_of_an_oblong_is_found() -> None:
    """Background tesserae are laid in level rows, 8.6 by 5.4 mm."""
    whole, ground = laid("forms", forms=1)
    direction, long, short = axes(whole, ground.tessera)
    assert np.median(np.abs(np.sin(direction))) < 0.1
    assert np.median(long) == pytest.approx(8.57, rel=0.08)
    assert np.median(short) == pytest.approx(5.4, rel=0.08)


def test_rows_run_along_the_level_background_and_never_branch() -> None:
    whole, ground = laid("forms", forms=1)
    along = row_joints(whole, ground, np.ones(len(ground.pair), bool))
    step = ground.centroid_mm[ground.pair[along, 0]] - ground.centroid_mm[ground.pair[along, 1]]
    level = np.abs(step[:, 1]) < 0.5 * np.abs(step[:, 0])
    assert np.mean(level) > 0.9
    assert along.sum() > 0.7 * ground.count
    assert np.bincount(ground.pair[along].ravel()).max() == 2


def test_whole_forms_are_spared_and_rows_followed() -> None:
    spared = np.zeros(2, int)
    crossing = np.zeros(2)
    for seed in range(3):
        whole, forms = laid("forms", seed=seed)
        _, fewest = laid("fewest", seed=seed)
        motif, kind = motifs(whole, forms), joint_kinds(whole, forms)
        fits = fitting_motifs(forms, motif)
        a, b = forms.pair.T
        for i, ground in enumerate((forms, fewest)):
            label = best_division(ground, seed=seed).label
            apart = (label[a] != label[b]) & (motif[a] == motif[b])
            spared[i] += len(np.unique(motif[a][apart & fits[motif[a]]]))
            across = apart & (kind == list(HOW_DEAR).index("across a row"))
            crossing[i] += forms.joint_mm[across].sum() / forms.joint_mm[apart].sum()
    assert spared[0] <= 0.5 * spared[1]
    assert crossing[0] < crossing[1]


def test_forms_take_at_most_a_tenth_more_sections() -> None:
    for seed in range(3):
        _, ground = laid("forms", capacity=25.0, seed=seed)
        fewest = -(-ground.expected_s.sum() // ground.capacity_s[0])
        assert best_division(ground, seed=seed).section_count <= 1.1 * fewest


@pytest.mark.parametrize("prefer", ["forms", "fewest"])
@pytest.mark.parametrize("seed", [0, 1, 2])
def test_no_section_is_a_rag_of_a_few_pieces(prefer, seed) -> None:
    """With room to spare a division could leave one section nearly empty: nobody mixes a batch for that."""
    _, ground = laid(prefer, capacity=33.0, seed=seed)
    found = best_division(ground, seed=seed)
    assert MEASURES["rags"](ground, found.label) == 0
    load = np.bincount(found.label, ground.expected_s / ground.cap_s)
    assert load.min() >= 0.25


def test_shape_agrees_with_true_outlines() -> None:
    """4*pi*A/P² of the joined polygons, by shapely, on a division into blocks."""
    whole, ground = laid("fewest", forms=0)
    label = best_division(ground).label
    cells = np.array([shapely.Polygon(whole.rings_mm(i)[0]) for i in range(whole.tessera_count)])
    true = [shapely.union_all(cells[label == s], grid_size=1e-6) for s in range(int(label.max()) + 1)]
    expected = float(np.mean([4 * np.pi * s.area / s.length**2 for s in true]))
    assert shape_quotient(ground, label) == pytest.approx(expected, rel=0.06)


def test_every_measure_tells_its_figure() -> None:
    here = lattice(4, 2)
    label = np.array([0, 0, 1, 1, 0, 0, 1, 1])
    assert MEASURES["cut_mm"](here, label) == 20.0
    assert MEASURES["cut_mm"].told(here, label) == "20 mm of joint lie between two sections."
    assert MEASURES["sections"].told(here, label) == "2 sections, each from one batch."
    assert all("{" not in m.told(here, label) for m in MEASURES.values())
    # a square of side s has second moment s^4/6; these are four points, 10 mm apart: sqrt(50) each
    assert MEASURES["spread_mm"](here, label) == pytest.approx(2 * 50**0.5)


def test_square_pieces_lie_in_rows_along_the_contour_that_they_were_laid_along() -> None:
    """Around a disc, rows run around it: a chain joins pieces that are equally far from the middle."""
    y, x = np.mgrid[0:160, 0:160] + 0.5
    study = one_square(6.0, 160.0)
    study = dataclasses.replace(study, labels=(np.hypot(x - 80, y - 80) < 78).astype(np.int32))
    whole = panel_of_lay(lay(study, seed=1))
    ground = ground_of(
        whole,
        expected_s=np.full(whole.tessera_count, 12.0),
        adhesive=np.zeros(whole.tessera_count, np.int32),
        capacity_s=np.array([1200.0]),
    )
    along = row_joints(whole, ground, np.ones(len(ground.pair), bool))
    a, b = ground.pair[along].T
    far = np.hypot(*(ground.centroid_mm - 80).T)
    outer = (far[a] > 40) & (far[b] > 40)
    assert outer.sum() > 0.6 * (far > 40).sum()
    assert np.mean(np.abs(far[a] - far[b])[outer] < 2.5) > 0.85
