from bench.drawing.dry.compare import Compared, compared, of_section
from bench.drawing.dry.corrections import Correction, corrected, stroked, tapped
from bench.drawing.dry.edge import edge_lines
from bench.drawing.dry.faults import (
    CutsNothing,
    NoEdgeFound,
    NoPieceThere,
    NoRoomThere,
    PhotoTooCoarse,
    TooFarApart,
)
from bench.drawing.dry.found import Found, found_pieces
from bench.drawing.dry.frame import Frame, frame_around
from bench.drawing.dry.keep import as_kept

__all__ = [
    "Compared",
    "Correction",
    "CutsNothing",
    "Found",
    "Frame",
    "NoEdgeFound",
    "NoPieceThere",
    "NoRoomThere",
    "PhotoTooCoarse",
    "TooFarApart",
    "as_kept",
    "compared",
    "corrected",
    "edge_lines",
    "found_pieces",
    "frame_around",
    "of_section",
    "stroked",
    "tapped",
]
