from bench.drawing.photo.adjust import (
    Quad,
    inset,
    lightened,
    paper_mm,
    ready,
    shrunk,
    tone,
    turned,
    turned_corners,
    whole,
)
from bench.drawing.photo.bare import bare
from bench.drawing.photo.read import Picture, read_picture
from bench.drawing.photo.square import Corners, corner_error_mm, homography, square_up

__all__ = [
    "Corners",
    "Picture",
    "Quad",
    "bare",
    "corner_error_mm",
    "homography",
    "inset",
    "lightened",
    "paper_mm",
    "read_picture",
    "ready",
    "shrunk",
    "square_up",
    "tone",
    "turned",
    "turned_corners",
    "whole",
]
