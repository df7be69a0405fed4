"""What can be wrong with a study, with what is asked of its regions, or with a lay."""

from __future__ import annotations

from bench.drawing.faults import DrawingFault


class OneColour(DrawingFault):
    """A study of a single colour has no contours to follow."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            "it shows one colour only, so there are no areas to tell apart",
            todo="draw the areas on an empty panel, or take a picture of the painted study",
        )


class NoSuchRegion(DrawingFault):
    def __init__(self, name: str, region: int, count: int) -> None:
        super().__init__(
            name, f"there is no region {region}", at=f"regions 1 to {count}", todo="tap a region of the study"
        )
        self.region, self.count = region, count


class NotBeside(DrawingFault):
    """Two regions to be made one share no border."""

    def __init__(self, name: str, one: str, other: str) -> None:
        super().__init__(
            name, f"'{one}' and '{other}' do not touch", todo="tap two regions that lie side by side"
        )
        self.one, self.other = one, other


class AllOneShade(DrawingFault):
    """A region that is to be parted shows no two shades."""

    def __init__(self, name: str, region: str) -> None:
        super().__init__(name, f"'{region}' is all one shade", todo="part it by drawing an area on it")
        self.region = region


class NoPaint(DrawingFault):
    """Areas drawn on an empty panel have no paint to part them by."""

    def __init__(self, name: str) -> None:
        super().__init__(name, "there is no paint to part it by", todo="part it by drawing an area on it")


class AreaTooSmall(DrawingFault):
    """An area drawn by hand covers nothing of the panel."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name, "the area drawn covers nothing of the panel", todo="draw it larger, on the panel"
        )


class PieceTooLarge(DrawingFault):
    def __init__(self, name: str, region: str, piece_mm: float, most_mm: float) -> None:
        super().__init__(
            name,
            f"pieces of {piece_mm:g} mm do not fit '{region}'",
            todo=f"choose at most {most_mm:.3g} mm, the panel's shorter side",
        )
        self.region, self.piece_mm, self.most_mm = region, piece_mm, most_mm


class TooManyPieces(DrawingFault):
    def __init__(self, name: str, count: int, limit: int) -> None:
        super().__init__(
            name,
            f"that would be about {count:,} pieces; at most {limit:,} are laid",
            todo="choose larger pieces, or split the panel",
        )
        self.count, self.limit = count, limit


class NothingTouched(DrawingFault):
    """A stroke that is to change pieces went over none."""

    def __init__(self, name: str) -> None:
        super().__init__(name, "no piece was touched", todo="stroke over the pieces that are to change")


class NothingToLay(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, "there is no area to lay", todo="draw an area first")


class JointTooWide(DrawingFault):
    def __init__(self, name: str, joint_mm: float, region: str, piece_mm: float) -> None:
        super().__init__(
            name,
            f"joints of {joint_mm:g} mm leave no glass of pieces of {piece_mm:g} mm in '{region}'",
            todo="choose narrower joints, from 0 to half of the piece",
        )
        self.joint_mm, self.region, self.piece_mm = joint_mm, region, piece_mm


class CutTooLarge(DrawingFault):
    """What is cut out of an L leaves no L."""

    def __init__(self, name: str, cut_mm: tuple[float, float], size_mm: tuple[float, float]) -> None:
        super().__init__(
            name,
            f"cutting out {cut_mm[0]:g} × {cut_mm[1]:g} mm leaves no L of {size_mm[0]:g} × {size_mm[1]:g} mm",
            todo="cut out less than the panel's width and height",
        )
        self.cut_mm, self.size_mm = cut_mm, size_mm


class RingTooWide(DrawingFault):
    def __init__(self, name: str, ring_mm: float, most_mm: float) -> None:
        super().__init__(
            name,
            f"a ring {ring_mm:g} mm wide leaves no hole",
            todo=f"choose less than {most_mm:.3g} mm, half of the panel's shorter side",
        )
        self.ring_mm, self.most_mm = ring_mm, most_mm
