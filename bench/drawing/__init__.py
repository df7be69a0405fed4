from bench.drawing.colour import delta_e_2000, srgb_to_lab
from bench.drawing.faults import DrawingFault
from bench.drawing.figures import with_figures
from bench.drawing.joints import joints_of
from bench.drawing.load import load_drawing, load_picture
from bench.drawing.panel import GLASS_KINDS, Joints, LeftOut, Panel
from bench.drawing.picture import picture_png
from bench.drawing.sizes import size_class
from bench.drawing.svg import read_drawing
from bench.drawing.svg_out import write_svg

__all__ = [
    "GLASS_KINDS",
    "DrawingFault",
    "Joints",
    "LeftOut",
    "Panel",
    "delta_e_2000",
    "joints_of",
    "load_drawing",
    "load_picture",
    "picture_png",
    "read_drawing",
    "size_class",
    "srgb_to_lab",
    "with_figures",
    "write_svg",
]
