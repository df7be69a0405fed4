from bench.drawing.photo.read import Picture, read_picture
from bench.drawing.photo.square import Corners, corner_error_mm, homography, square_up

__all__ = ["Corners", "Picture", "corner_error_mm", "homography", "read_picture", "square_up"]
