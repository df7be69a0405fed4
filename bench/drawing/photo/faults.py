"""What can be wrong with a picture file; each fault keeps the offending data and says what to do."""

from __future__ import annotations

from bench.drawing.faults import DrawingFault


class NotAPicture(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            "this is neither a PNG nor a JPEG nor a WebP picture",
            todo="save the picture again as one of these",
        )


class PictureBroken(DrawingFault):
    """The file begins as a picture, but breaks off or holds what cannot be decoded."""

    def __init__(self, name: str, reason: str) -> None:
        super().__init__(
            name, f"the picture breaks off ({reason})", todo="copy it from the camera or scanner again"
        )
        self.reason = reason


class PictureTooLarge(DrawingFault):
    """size_px is None where the file's head claims so much that it was not even measured."""

    def __init__(self, name: str, size_px: tuple[int, int] | None, most_pixels: int) -> None:
        told = f"{size_px[0]:,} × {size_px[1]:,} pixels" if size_px else "hundreds of megapixels"
        super().__init__(
            name,
            f"the picture has {told}; at most {most_pixels // 10**6} megapixels are read",
            todo="scale it down first",
        )
        self.size_px = size_px
        self.most_pixels = most_pixels


class PictureFileTooLarge(DrawingFault):
    def __init__(self, name: str, limit_bytes: int) -> None:
        super().__init__(
            name,
            f"the picture file is larger than {limit_bytes // 2**20} MiB",
            todo="save it as a JPEG, or scale it down first",
        )
        self.limit_bytes = limit_bytes


class PictureTooSmall(DrawingFault):
    def __init__(self, name: str, size_px: tuple[int, int], least_px: int) -> None:
        super().__init__(
            name,
            f"the picture has {size_px[0]:,} × {size_px[1]:,} pixels",
            todo=f"take or scan it larger, at least {least_px} pixels each way",
        )
        self.size_px = size_px
        self.least_px = least_px


class CornersCross(DrawingFault):
    """The corners span no four-sided shape seen from its front: crossed, mirrored, or three in a line."""

    def __init__(self, name: str, corner_px: list[tuple[float, ...]]) -> None:
        super().__init__(
            name,
            "the four corners span no rectangle",
            todo="tap them again: top left, top right, bottom right, bottom left",
        )
        self.corner_px = corner_px
