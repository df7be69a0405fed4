from bench.drawing.colour import delta_e_2000, lab_to_srgb, lab_to_unbounded_srgb, srgb_to_lab
from bench.drawing.difference import as_it_is_png, as_it_would_be_png, difference_png
from bench.drawing.faults import DrawingFault
from bench.drawing.figures import with_figures
from bench.drawing.joints import joints_of
from bench.drawing.load import file_bytes, load_drawing
from bench.drawing.onto import read_onto
from bench.drawing.panel import GLASS_KINDS, Joints, LeftOut, Panel
from bench.drawing.picture import joints_png, picture_png
from bench.drawing.revised import Revision, revised
from bench.drawing.sizes import size_class
from bench.drawing.svg import read_drawing
from bench.drawing.svg_out import write_svg

__all__ = [
    "GLASS_KINDS",
    "DrawingFault",
    "Joints",
    "LeftOut",
    "Panel",
    "Revision",
    "as_it_is_png",
    "as_it_would_be_png",
    "delta_e_2000",
    "difference_png",
    "file_bytes",
    "joints_of",
    "joints_png",
    "lab_to_srgb",
    "lab_to_unbounded_srgb",
    "load_drawing",
    "picture_png",
    "read_drawing",
    "read_onto",
    "revised",
    "size_class",
    "srgb_to_lab",
    "with_figures",
    "write_svg",
]
