"""What can be wrong with a study, with what is asked of its regions, or with a lay."""

from __future__ import annotations

from bench.drawing.faults import DrawingFault
from bench.speech import plain_length, plain_size, rough_length, say


class OneColour(DrawingFault):
    """A study of a single colour has no contours to follow."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("it shows one colour only, so there are no areas to tell apart"),
            todo=say("draw the areas on an empty panel, or take a picture of the painted study"),
        )


class NoSuchRegion(DrawingFault):
    def __init__(self, name: str, region: int, count: int) -> None:
        super().__init__(
            name,
            say("there is no region {region}", region=region),
            at=say("regions 1 to {count}", count=count),
            todo=say("tap a region of the study"),
        )
        self.region, self.count = region, count


class NotBeside(DrawingFault):
    """Two regions to be made one share no border."""

    def __init__(self, name: str, one: str, other: str) -> None:
        super().__init__(
            name,
            say("'{area}' and '{other}' do not touch", area=one, other=other),
            todo=say("tap two regions that lie side by side"),
        )
        self.one, self.other = one, other


class AllOneShade(DrawingFault):
    """A region that is to be parted shows no two shades."""

    def __init__(self, name: str, region: str) -> None:
        super().__init__(
            name,
            say("'{region}' is all one shade", region=region),
            todo=say("part it by drawing an area on it"),
        )
        self.region = region


class NoPaint(DrawingFault):
    """Areas drawn on an empty panel have no paint to part them by."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name, say("there is no paint to part it by"), todo=say("part it by drawing an area on it")
        )


class AreaTooSmall(DrawingFault):
    """An area drawn by hand covers nothing of the panel."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("the area drawn covers nothing of the panel"),
            todo=say("draw it larger, on the panel"),
        )


class PieceTooLarge(DrawingFault):
    def __init__(self, name: str, region: str, piece_mm: float, most_mm: float) -> None:
        super().__init__(
            name,
            say("pieces of {piece} do not fit '{region}'", piece=plain_length(piece_mm), region=region),
            todo=say("choose at most {most}, the panel's shorter side", most=rough_length(most_mm)),
        )
        self.region, self.piece_mm, self.most_mm = region, piece_mm, most_mm


class TooManyPieces(DrawingFault):
    def __init__(self, name: str, count: int, limit: int) -> None:
        super().__init__(
            name,
            say("that would be about {count:,} pieces; at most {limit:,} are laid", count=count, limit=limit),
            todo=say("choose larger pieces, or split the panel"),
        )
        self.count, self.limit = count, limit


class NothingTouched(DrawingFault):
    """A stroke that is to change pieces went over none."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name, say("no piece was touched"), todo=say("stroke over the pieces that are to change")
        )


class NothingToLay(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(name, say("there is no area to lay"), todo=say("draw an area first"))


class JointTooWide(DrawingFault):
    def __init__(self, name: str, joint_mm: float, region: str, piece_mm: float) -> None:
        super().__init__(
            name,
            say(
                "joints of {joint} leave no glass of pieces of {piece} in '{region}'",
                joint=plain_length(joint_mm),
                piece=plain_length(piece_mm),
                region=region,
            ),
            todo=say("choose narrower joints, from 0 to half of the piece"),
        )
        self.joint_mm, self.region, self.piece_mm = joint_mm, region, piece_mm


class CutTooLarge(DrawingFault):
    """What is cut out of an L leaves no L."""

    def __init__(self, name: str, cut_mm: tuple[float, float], size_mm: tuple[float, float]) -> None:
        super().__init__(
            name,
            say(
                "cutting out {cut} leaves no L of {whole}",
                cut=plain_size(*cut_mm),
                whole=plain_size(*size_mm),
            ),
            todo=say("cut out less than the panel's width and height"),
        )
        self.cut_mm, self.size_mm = cut_mm, size_mm


class RingTooWide(DrawingFault):
    def __init__(self, name: str, ring_mm: float, most_mm: float) -> None:
        super().__init__(
            name,
            say("a ring {ring} wide leaves no hole", ring=plain_length(ring_mm)),
            todo=say("choose less than {most}, half of the panel's shorter side", most=rough_length(most_mm)),
        )
        self.ring_mm, self.most_mm = ring_mm, most_mm
