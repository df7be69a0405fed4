from bench.drawing.photo.read import Picture, read_picture

__all__ = ["Picture", "read_picture"]
