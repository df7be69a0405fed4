from bench.drawing.colour import delta_e_2000, lab_to_srgb, lab_to_unbounded_srgb, srgb_to_lab
from bench.drawing.faults import DrawingFault
from bench.drawing.joints import joints_of
from bench.drawing.panel import GLASS_KINDS, Joints, LeftOut, Panel
from bench.drawing.sizes import size_class

__all__ = [
    "GLASS_KINDS",
    "DrawingFault",
    "Joints",
    "LeftOut",
    "Panel",
    "delta_e_2000",
    "joints_of",
    "lab_to_srgb",
    "lab_to_unbounded_srgb",
    "size_class",
    "srgb_to_lab",
]
