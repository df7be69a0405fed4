"""A panel built from outlines is the panel that the same outlines drawn in a file would be."""

import numpy as np
import pytest

from bench.drawing.built import MOST_TESSERAE, Pieces, panel_of
from bench.drawing.faults import NoTesserae, TooManyShapes
from bench.drawing.rings import Rings
from bench.drawing.svg import read_drawing
from bench.drawing.svg_out import write_svg
from tests.fakes.drawings import grid_svg


def pieces_like(panel) -> Pieces:
    return Pieces(
        rings=Rings(panel.points_mm, panel.ring_start.astype(np.int64)),
        owner=np.repeat(np.arange(panel.tessera_count), np.diff(panel.tessera_ring)),
        colour=panel.colour,
        glass=panel.glass,
        ids=panel.ids,
    )


RINGED = b"""<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
<path data-panel-outline="" fill="none" d="M1 1H59V39H1Z M20 10V30H24V10Z"/>
<path id="ring" fill="#c0a020" fill-rule="evenodd" d="M2 2H18V18H2Z M6 6H14V14H6Z"/>
<path id="core" fill="#2040a0" data-glass="clear" d="M6.5 6.5H13.5V13.5H6.5Z"/></svg>"""


@pytest.mark.parametrize("data", [grid_svg(6, 4), RINGED])
def test_it_is_what_the_file_reader_makes_of_the_same_outlines(data):
    read = read_drawing(data, "it.svg")
    built = panel_of(
        pieces_like(read), (read.width_mm, read.height_mm), read.name, outline_mm=read.outline_mm
    )
    np.testing.assert_allclose(built.area_mm2, read.area_mm2)
    np.testing.assert_allclose(built.centroid_mm, read.centroid_mm)
    np.testing.assert_array_equal(built.joints.pair, read.joints.pair)
    np.testing.assert_allclose(built.joints.length_mm, read.joints.length_mm)
    assert built.ids == read.ids
    assert built.joint_area_mm2 == pytest.approx(read.joint_area_mm2)


def test_it_reads_back_the_same_from_the_svg_that_is_written_of_it():
    read = read_drawing(RINGED, "it.svg")
    built = panel_of(
        pieces_like(read), (read.width_mm, read.height_mm), read.name, outline_mm=read.outline_mm
    )
    again = read_drawing(write_svg(built), "it.svg")
    np.testing.assert_allclose(again.area_mm2, built.area_mm2, atol=1e-3)
    np.testing.assert_array_equal(again.glass, built.glass)


def test_no_piece_at_all_and_far_too_many_are_refused_by_number():
    none = Pieces(
        Rings(np.empty((0, 2)), np.zeros(1, np.int64)), np.empty(0, np.int64), np.empty((0, 3), np.uint8)
    )
    with pytest.raises(NoTesserae):
        panel_of(none, (100.0, 100.0), "none")
    many = MOST_TESSERAE + 1
    rings = Rings(np.zeros((3 * many, 2)), np.arange(many + 1) * 3)
    with pytest.raises(TooManyShapes, match="150,001"):
        panel_of(Pieces(rings, np.arange(many), np.zeros((many, 3), np.uint8)), (100.0, 100.0), "many")
