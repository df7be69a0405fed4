"""What can be wrong with a picture file; each fault keeps the offending data and says what to do."""

from __future__ import annotations

from bench.drawing.faults import DrawingFault
from bench.speech import say


class NotAPicture(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("this is neither a PNG nor a JPEG nor a WebP picture"),
            todo=say("save the picture again as one of these"),
        )


class PictureBroken(DrawingFault):
    """The file begins as a picture, but breaks off or holds what cannot be decoded."""

    def __init__(self, name: str, reason: str) -> None:
        super().__init__(
            name,
            say("the picture breaks off ({reason})", reason=reason),
            todo=say("copy it from the camera or scanner again"),
        )
        self.reason = reason


class PictureTooLarge(DrawingFault):
    """size_px is None where the file's head claims so much that it was not even measured."""

    def __init__(self, name: str, size_px: tuple[int, int] | None, most_pixels: int) -> None:
        most = most_pixels // 10**6
        if size_px:
            what = say(
                "the picture has {wide:,} × {high:,} pixels; at most {most} megapixels are read",
                wide=size_px[0],
                high=size_px[1],
                most=most,
            )
        else:
            what = say(
                "the picture has hundreds of megapixels; at most {most} megapixels are read", most=most
            )
        super().__init__(name, what, todo=say("scale it down first"))
        self.size_px = size_px
        self.most_pixels = most_pixels


class PictureFileTooLarge(DrawingFault):
    def __init__(self, name: str, limit_bytes: int) -> None:
        super().__init__(
            name,
            say("the picture file is larger than {mib} MiB", mib=limit_bytes // 2**20),
            todo=say("save it as a JPEG, or scale it down first"),
        )
        self.limit_bytes = limit_bytes


class PictureTooSmall(DrawingFault):
    def __init__(self, name: str, size_px: tuple[int, int], least_px: int) -> None:
        super().__init__(
            name,
            say("the picture has {wide:,} × {high:,} pixels", wide=size_px[0], high=size_px[1]),
            todo=say("take or scan it larger, at least {least} pixels each way", least=least_px),
        )
        self.size_px = size_px
        self.least_px = least_px


class CornersCross(DrawingFault):
    """The corners span no four-sided shape seen from its front: crossed, mirrored, or three in a line."""

    def __init__(self, name: str, corner_px: list[tuple[float, ...]]) -> None:
        super().__init__(
            name,
            say("the four corners span no rectangle"),
            todo=say("tap them again: top left, top right, bottom right, bottom left"),
        )
        self.corner_px = corner_px
