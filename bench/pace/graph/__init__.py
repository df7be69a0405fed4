"""Graphs without a canvas: what is plotted, and the lines, marks and words that it takes on a sheet."""

from bench.pace.graph.axes import Axis, axis_over
from bench.pace.graph.layout import Layout, Placed, lay_out, nearest
from bench.pace.graph.model import Band, Graph, Mark, Named, Span, Spot, Stroke, newest
from bench.pace.graph.shapes import outline

__all__ = [
    "Axis",
    "Band",
    "Graph",
    "Layout",
    "Mark",
    "Named",
    "Placed",
    "Span",
    "Spot",
    "Stroke",
    "axis_over",
    "lay_out",
    "nearest",
    "newest",
    "outline",
]
