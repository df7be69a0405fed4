from bench.drawing.joints import joints_of
from bench.drawing.load import load_drawing
from bench.drawing.panel import GLASS_KINDS, Joints, LeftOut, Panel
from bench.drawing.sizes import size_class
from bench.drawing.svg import read_drawing

__all__ = [
    "GLASS_KINDS",
    "Joints",
    "LeftOut",
    "Panel",
    "joints_of",
    "load_drawing",
    "read_drawing",
    "size_class",
]
